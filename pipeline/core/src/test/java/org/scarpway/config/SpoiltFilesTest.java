package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.scarpway.cli.Main;
import org.scarpway.stage.UserError;

/** Every row of config/spoilt.txt spoils one thing and gives its one clear line. */
class SpoiltFilesTest {

  static Stream<String> rows() throws IOException {
    try (InputStream in = SpoiltFilesTest.class.getResourceAsStream("/config/spoilt.txt")) {
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return text.lines().filter(l -> !l.startsWith("#")).toList().stream();
    }
  }

  @ParameterizedTest
  @MethodSource("rows")
  void oneClearLine(String row, @TempDir Path dir) {
    String[] cells = row.split(" ?\\| ", 4);
    assertEquals(4, cells.length, row);
    String file = cells[0].strip();
    String part = plain(cells[1]);
    String by = plain(cells[2]);
    JobFolder folder = new JobFolder(dir);
    if (part.isEmpty()) {
      folder.write(file, by);
    } else {
      folder.spoil(file, part, by);
    }
    UserError e =
        assertThrows(UserError.class, () -> JobReader.readAll(folder.job(), Map.of()), row);
    String line = e.getMessage();
    assertEquals(1, line.lines().count(), line);
    assertTrue(line.startsWith(dir + "/"), line);
    String told = line.substring(dir.toString().length() + 1);
    String want = cells[3].startsWith("0: ") ? cells[3].substring(1) : cells[3];
    assertTrue(told.contains(":" + want) || told.contains(want), "got  " + told + "\nwant " + want);
    assertTrue(told.matches("[a-z.]+(:\\d+:\\d+)?: .+; expected .+; .+"), told);
    assertTrue(!told.contains("Exception") && !told.contains("org."), told);
    refusedByTheCommand(folder.job(), dir.resolve("out"), line);
  }

  /** The same line on stderr, exit code 2, nothing on stdout and nothing written. */
  private static void refusedByTheCommand(Path job, Path out, String line) {
    PrintStream stdout = System.out;
    PrintStream stderr = System.err;
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    ByteArrayOutputStream complained = new ByteArrayOutputStream();
    try {
      System.setOut(new PrintStream(said, true, StandardCharsets.UTF_8));
      System.setErr(new PrintStream(complained, true, StandardCharsets.UTF_8));
      assertEquals(2, Main.execute("run", job.toString(), "--out", out.toString(), "--quiet"));
    } finally {
      System.setOut(stdout);
      System.setErr(stderr);
    }
    assertEquals(line + "\n", complained.toString(StandardCharsets.UTF_8));
    assertEquals("", said.toString(StandardCharsets.UTF_8));
    assertFalse(Files.exists(out));
  }

  private static String plain(String cell) {
    return cell.replace("\\n", "\n").replace("\\t", "\t");
  }
}
