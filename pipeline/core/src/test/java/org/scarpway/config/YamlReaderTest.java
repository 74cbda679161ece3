package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.stage.UserError;

/** Files that are odd or hostile. */
class YamlReaderTest {
  @TempDir Path dir;

  private YamlDoc read(String text) throws Exception {
    Path file = Files.writeString(dir.resolve("x.yaml"), text);
    Problems problems = new Problems();
    YamlDoc doc = YamlReader.read(file, "x.yaml", problems);
    problems.throwIfAny();
    return doc;
  }

  private String refusal(byte[] bytes) throws Exception {
    Path file = Files.write(dir.resolve("x.yaml"), bytes);
    Problems problems = new Problems();
    Assertions.assertTimeoutPreemptively(
        Duration.ofSeconds(20), () -> YamlReader.read(file, "x.yaml", problems));
    String line = assertThrows(UserError.class, problems::throwIfAny).getMessage();
    assertTrue(line.lines().count() == 1 && line.length() < 400, line);
    return line;
  }

  private String refusal(String text) throws Exception {
    return refusal(text.getBytes(StandardCharsets.UTF_8));
  }

  @Test
  void valuesAreTypedByTheJsonSchemaOfYaml() throws Exception {
    YamlDoc doc = read("{a: 1, b: 1.5e3, c: true, d: null, e: yes, f: 012, g: 1_0, h: ~, i: -0}");
    assertTrue(doc.node("/a").isIntegralNumber());
    assertEquals(1500.0, doc.node("/b").doubleValue());
    assertTrue(doc.node("/c").isBoolean());
    assertTrue(doc.node("/d").isNull());
    for (String text : new String[] {"/e", "/f", "/g", "/h"}) {
      assertTrue(doc.node(text).isTextual(), text);
    }
    assertEquals(0, doc.node("/i").intValue());
  }

  @Test
  void everyValueAndKeyHasItsPlace() throws Exception {
    YamlDoc doc = read("a:\n  b/c: [1,\n    {~d: 2}]\n");
    assertEquals("x.yaml:2:8", doc.at("/a/b~1c").toString());
    assertEquals("x.yaml:3:10", doc.at("/a/b~1c/1/~0d").toString());
    assertEquals("x.yaml:2:3", doc.keyAt("/a/b~1c").toString());
    assertEquals("x.yaml:3:10", doc.at("/a/b~1c/1/~0d/deeper").toString());
  }

  @Test
  void aByteOrderMarkAndWindowsLineEndsAreFine() throws Exception {
    YamlDoc doc = read("\uFEFFa: 1\r\nb:\r\n  c: 2\r\n");
    assertEquals("x.yaml:3:6", doc.at("/b/c").toString());
    assertEquals("x.yaml:1:4", doc.at("/a").toString());
  }

  @Test
  void aFewAliasesAreFine() throws Exception {
    assertEquals(2, read("a: &p [1, 2]\nb: *p\n").node("/b").size());
  }

  @Test
  void anAliasBombDoesNotGoOff() throws Exception {
    StringBuilder bomb = new StringBuilder("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
    for (int i = 1; i < 5; i++) {
      bomb.append("a").append(i).append(": &a").append(i).append(" [");
      bomb.append(("*a" + (i - 1) + ", ").repeat(9)).append("*a").append(i - 1).append("]\n");
    }
    String line = refusal(bomb.toString());
    assertTrue(line.contains("aliases expand to too much"), line);
  }

  @Test
  void tooManyAliasesAreRefused() throws Exception {
    assertTrue(refusal("a: &a 1\nb: [" + "*a, ".repeat(41) + "]").contains("too many aliases"));
  }

  @Test
  void anAliasWithinItselfIsRefused() throws Exception {
    assertNotNull(refusal("a: &a [*a]\n"));
    assertNotNull(refusal("a: &a {b: *a}\n"));
  }

  @Test
  void deepNestingIsRefusedWithoutOverflow() throws Exception {
    assertTrue(refusal("a: " + "[".repeat(500_000)).contains("nested too deep"));
    assertTrue(refusal("{a: ".repeat(100_000)).contains("nested too deep"));
    StringBuilder steps = new StringBuilder();
    for (int i = 0; i < 1000; i++) {
      steps.append(" ".repeat(i)).append("a:\n");
    }
    assertTrue(refusal(steps.toString()).contains("nested too deep"));
    assertNotNull(refusal("- ".repeat(100_000)));
    assertNotNull(refusal("? ".repeat(100_000)));
  }

  @Test
  void hugeFilesListsAndTextsAreRefused() throws Exception {
    assertTrue(refusal("a: " + "x".repeat(2_000_000)).contains("the file is too large"));
    assertTrue(refusal("a: [" + "1,".repeat(300_000) + "1]").contains("too many values"));
    assertTrue(refusal("a: " + "x".repeat(5_000)).contains("a text of 5000 characters"));
    assertTrue(refusal("a: \"" + "\\n".repeat(5_000) + "\"").contains("a text of 5000"));
    assertTrue(refusal("x".repeat(5_000) + ": 1").startsWith("x.yaml:"));
  }

  @Test
  void numbersThatAreTooLongStayHarmless() throws Exception {
    assertTrue(read("a: " + "9".repeat(4000)).node("/a").isTextual());
    assertTrue(read("a: 1e999999999").node("/a").isTextual());
    assertEquals(0.0, read("a: 1e-999999999").node("/a").doubleValue());
  }

  @Test
  void textInOtherEncodingsIsRefusedWithItsPlace() throws Exception {
    byte[] latin = "a: 1\nb: caf\u00e9\n".getBytes(StandardCharsets.ISO_8859_1);
    assertTrue(refusal(latin).startsWith("x.yaml:2:7: bytes that are not UTF-8"));
    assertNotNull(refusal("a: 1\n".getBytes(StandardCharsets.UTF_16)));
    assertNotNull(refusal("a: 1\n".getBytes(Charset.forName("UTF-32BE"))));
    assertNotNull(refusal(new byte[] {(byte) 0xED, (byte) 0xA0, (byte) 0x80}));
    assertNotNull(refusal(new byte[] {'a', ':', ' ', (byte) 0xC3}));
  }

  @Test
  void controlCharactersAreRefusedAndNeverEchoed() throws Exception {
    assertTrue(refusal("a: 1\nb: \u0007x").startsWith("x.yaml:2:4: control character U+0007"));
    assertTrue(refusal("II*\0\u0008\0\0\0").contains("is this a text file?"));
    String line = refusal("a: 1\n\"\\e[31mred\\u202e\": 1\n\"\\e[31mred\\u202e\": 2\n");
    assertTrue(line.codePoints().noneMatch(c -> c == 0x1b || c == 0x202e), line);
  }

  @Test
  void tagsMergesAndDirectivesNameNoClass() throws Exception {
    assertTrue(refusal("!!javax.script.ScriptEngineManager [x]").contains("tag"));
    assertTrue(refusal("%TAG ! tag:yaml.org,2002:java/\n---\na: !x 1").contains("tag"));
    assertNotNull(refusal("%YAML 3.0\n---\na: 1"));
  }

  @Test
  void duplicatesAreAllTold() throws Exception {
    Path file = Files.writeString(dir.resolve("x.yaml"), "a: 1\na: 2\nb: {c: 1, c: 2}\n");
    Problems problems = new Problems();
    YamlReader.read(file, "x.yaml", problems);
    String text = assertThrows(UserError.class, problems::throwIfAny).getMessage();
    assertEquals(2, text.lines().count(), text);
    assertTrue(text.startsWith("x.yaml:2:1: key 'a' is given twice (first at x.yaml:1:1)"), text);
  }

  @Test
  void foldersAndMissingFilesAreToldApart() {
    Problems problems = new Problems();
    assertNull(YamlReader.read(dir, "here", problems));
    assertNull(YamlReader.read(dir.resolve("none.yaml"), "none.yaml", problems));
    String text = assertThrows(UserError.class, problems::throwIfAny).getMessage();
    assertEquals(
        "here: it is a folder; expected a regular file; name the file itself\n"
            + "none.yaml: no such file; expected a readable file; check its name and folder",
        text);
  }

  @Test
  void manyProblemsAreCutToALengthThatCanBeRead() {
    Problems problems = new Problems();
    for (int i = 1; i <= 1000; i++) {
      problems.add(new SourceLocation("x.yaml", i, 1), "wrong", "right", "mend it");
    }
    String text = assertThrows(UserError.class, problems::throwIfAny).getMessage();
    assertEquals(51, text.lines().count());
    assertTrue(text.endsWith("and 950 more problems"));
  }
}
