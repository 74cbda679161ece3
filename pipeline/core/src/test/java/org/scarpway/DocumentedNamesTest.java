package org.scarpway;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * Every class that the pages for contributors and users name exists: {@code room.Class} and {@code
 * room/Class} in that package, a bare class name anywhere in the sources.
 */
class DocumentedNamesTest {
  private static final Path ROOT = Path.of(System.getProperty("scarpway.root"));
  private static final Pattern NAME =
      Pattern.compile("`((?:[a-z]+[./])*)([A-Z][a-z]+[A-Za-z]*)(?:\\.[a-z]\\w*)?`");

  private static Set<String> classes() throws IOException {
    Set<String> paths = new TreeSet<>();
    for (String module : List.of("core", "bench", "example")) {
      try (Stream<Path> all = Files.walk(ROOT.resolve("pipeline").resolve(module).resolve("src"))) {
        all.map(Path::toString)
            .filter(p -> p.endsWith(".java"))
            .forEach(p -> paths.add(p.substring(0, p.length() - ".java".length())));
      }
    }
    return paths;
  }

  @Test
  void everyClassThatAPageNamesExists() throws IOException {
    Set<String> classes = classes();
    List<Path> pages = new ArrayList<>(List.of(ROOT.resolve("DEVELOPERS.md")));
    pages.add(ROOT.resolve("README.md"));
    try (Stream<Path> more = Files.list(ROOT.resolve("pipeline/pages"))) {
      more.filter(p -> p.toString().endsWith(".md")).sorted().forEach(pages::add);
    }
    List<String> missing = new ArrayList<>();
    int found = 0;
    for (Path page : pages) {
      Matcher m = NAME.matcher(Files.readString(page));
      while (m.find()) {
        String room = m.group(1).replace('.', '/');
        String end = room.isEmpty() ? "/" + m.group(2) : "/org/scarpway/" + room + m.group(2);
        boolean ofJava = Math.class.getSimpleName().equals(m.group(2));
        if (!ofJava && classes.stream().noneMatch(c -> c.endsWith(end))) {
          missing.add(page.getFileName() + ": " + m.group());
        }
        found++;
      }
    }
    assertEquals(List.of(), missing);
    assertTrue(found > 80, "names found: " + found);
  }
}
