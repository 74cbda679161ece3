package org.scarpway.run.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a question asked for is counted as long as it is kept. */
class AskedFrontsTest {
  @TempDir Path dir;

  private static StageKey question(String name) {
    return StageKey.of("fronts", 1).add("question", name).build();
  }

  private AskedFronts open() {
    return new AskedFronts(new ContentFiles(dir, 1_000_000, false));
  }

  private static void put(AskedFronts fronts, String key) {
    fronts.write(key, 1, out -> out.write(7));
  }

  private SortedMap<String, FileTime> files() throws IOException {
    SortedMap<String, FileTime> all = new TreeMap<>();
    try (Stream<Path> list = Files.list(dir)) {
      for (Path p : list.toList()) {
        Files.setLastModifiedTime(p, FileTime.from(Instant.ofEpochSecond(1000)));
        all.put(p.getFileName().toString(), Files.getLastModifiedTime(p));
      }
    }
    return all;
  }

  @Test
  void frontsThatWereReadOrWrittenAreCounted() throws IOException {
    AskedFronts run = open();
    put(run, "before");
    run.begin();
    put(run, "a");
    put(run, "b");
    run.end(question("one"));
    run.begin();
    run.read("before", InputStream::readAllBytes);
    assertNull(run.read("never", InputStream::readAllBytes));
    run.end(question("two"));
    run.begin();
    run.end(question("none"));
    run.begin();
    put(run, "c");
    run.end(null);
    SortedMap<String, FileTime> before = files();
    AskedFronts plan = open();
    assertEquals(2, plan.kept(question("one")));
    assertEquals(1, plan.kept(question("two")));
    assertEquals(0, plan.kept(question("none")));
    assertEquals(0, plan.kept(question("other")));
    assertEquals(0, plan.kept(null));
    // Counting changes nothing, not even which were used last.
    try (Stream<Path> list = Files.list(dir)) {
      for (Path p : list.toList()) {
        assertEquals(before.get(p.getFileName().toString()), Files.getLastModifiedTime(p));
      }
    }
    for (Path p : List.copyOf(before.keySet()).stream().map(dir::resolve).toList()) {
      Files.delete(p);
    }
    assertEquals(0, plan.kept(question("one")));
    AskedFronts off = new AskedFronts(new ContentFiles(null, 1_000_000, false));
    off.begin();
    put(off, "a");
    off.end(question("one"));
    assertEquals(0, off.kept(question("one")));
  }
}
