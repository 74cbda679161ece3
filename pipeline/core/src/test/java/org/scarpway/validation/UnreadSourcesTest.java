package org.scarpway.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.scarpway.validation.UnreadSources.Unread;

/** Holds the list of sources that nobody opened to what stands in main code. */
class UnreadSourcesTest {
  private static final Path ROOT = Path.of(System.getProperty("scarpway.root", "../.."));
  private static final Path MAIN = ROOT.resolve("pipeline/core/src/main");

  /** Files of main code whose text is read here. */
  private static final Pattern TEXT = Pattern.compile(".*\\.(java|json|md|html|css|js|yaml|csv)");

  private static final Pattern MARK = Pattern.compile("from memory", Pattern.CASE_INSENSITIVE);

  @Test
  void mainCodeLeavesItToTheList() throws IOException {
    List<Path> found = new ArrayList<>();
    int read = 0;
    for (Path file : files(TEXT)) {
      read++;
      if (MARK.matcher(plain(file)).find()) {
        found.add(MAIN.relativize(file));
      }
    }
    assertTrue(read > 300, "main code was looked for in the wrong place: " + read + " files");
    assertEquals(List.of(), found, "cite, and put what nobody opened into UnreadSources");
  }

  @Test
  void everyCitationStandsWhereTheListSays() throws Exception {
    Set<String> seen = new HashSet<>();
    for (Unread u : UnreadSources.ALL) {
      assertTrue(seen.add(u.where() + " " + u.citation()), () -> "listed twice: " + u);
      assertTrue(plain(place(u)).contains(u.citation()), () -> "does not stand there: " + u);
    }
  }

  @Test
  void theReportListsThemAll() {
    String section = UnreadSources.section();
    for (Unread u : UnreadSources.ALL) {
      String line = "| " + u.citation() + " | " + u.where() + " | " + u.taken() + " |\n";
      assertTrue(section.contains(line), line);
    }
  }

  /** The source file that an entry names; its class and method must exist. */
  private static Path place(Unread u) throws IOException, ClassNotFoundException {
    if (u.where().contains("/")) {
      return ROOT.resolve(u.where());
    }
    String[] name = u.where().split("#");
    List<Path> files = files(Pattern.compile(".*/" + Pattern.quote(name[0]) + "\\.java"));
    assertEquals(1, files.size(), () -> "no such class, or several: " + u);
    String path = MAIN.resolve("java").relativize(files.get(0)).toString();
    Class<?> type =
        Class.forName(path.substring(0, path.length() - ".java".length()).replace('/', '.'));
    assertTrue(
        name.length == 1
            || Arrays.stream(type.getDeclaredMethods()).anyMatch(m -> m.getName().equals(name[1])),
        () -> "no such method: " + u);
    return files.get(0);
  }

  private static List<Path> files(Pattern name) throws IOException {
    try (Stream<Path> all = Files.walk(MAIN)) {
      return all.filter(p -> Files.isRegularFile(p) && name.matcher(p.toString()).matches())
          .sorted()
          .toList();
    }
  }

  /** Text without line breaks, comment marks, markup, and seams between strings. */
  private static String plain(Path file) throws IOException {
    return Files.readString(file, StandardCharsets.UTF_8)
        .replaceAll("\\n\\s*\\*(?!/)", " ")
        .replaceAll("\\n\\s*(//|#)", " ")
        .replaceAll("</?i>", "")
        .replaceAll("\"\\s*\\+\\s*\"", "")
        .replace("&amp;", "&")
        .replaceAll("\\s+", " ");
  }
}
