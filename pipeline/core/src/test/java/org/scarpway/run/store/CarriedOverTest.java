package org.scarpway.run.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What no run wrote outlives every replacement of its folder, wherever a run is ended. Random
 * folders; what must hold follows from the promise alone: every content that was the user's is
 * there exactly once, and every product is as it was written.
 */
class CarriedOverTest {
  private static final List<String> PRODUCTS =
      List.of("a.tif", "b.csv", "part/c.csv", ".result.json");

  @TempDir Path dir;

  private static void put(Path file, String content) {
    try {
      Files.createDirectories(file.getParent());
      Files.writeString(file, content);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static StageKey key(int version) {
    return StageKey.of("reach", version).build();
  }

  private static void products(Path job, int version) {
    new StageFolder(job, "reach/r1")
        .replace(key(version), aside -> PRODUCTS.forEach(n -> put(aside.resolve(n), n + version)));
  }

  /** Entries of every kind, some at names of products; gives their contents. */
  private static List<String> userEntries(Path folder, SplittableRandom random) throws IOException {
    List<String> mine = new ArrayList<>();
    List<String> names = List.of("a.tif", "b.csv", "part/c.csv", "notes.txt", "part/x", "own/y/z");
    for (String name : names) {
      String content = "mine " + name;
      Path at = folder.resolve(name);
      switch (random.nextInt(5)) {
        case 0 -> {
          Files.deleteIfExists(at);
          put(at, content);
          mine.add(content);
        }
        case 1 -> {
          Files.deleteIfExists(at);
          put(at.resolve("deep.txt"), content);
          mine.add(content);
        }
        case 2 -> {
          Files.createDirectories(at.getParent());
          Files.deleteIfExists(at);
          Files.createSymbolicLink(at, Path.of(content));
          mine.add(content);
        }
        case 3 -> {
          put(folder.resolve(name + ".kept"), content);
          mine.add(content);
        }
        default -> {
          // Nothing of the user's at this name.
        }
      }
    }
    return mine;
  }

  private static List<String> contents(Path folder) throws IOException {
    List<String> all = new ArrayList<>();
    try (Stream<Path> walk = Files.walk(folder)) {
      for (Path p : walk.toList()) {
        if (Files.isSymbolicLink(p)) {
          all.add(Files.readSymbolicLink(p).toString());
        } else if (Files.isRegularFile(p)) {
          all.add(Files.readString(p));
        }
      }
    }
    return all;
  }

  @Test
  void endedAfterAnyStepNothingIsLost() throws IOException {
    SplittableRandom random = new SplittableRandom(20_260_712);
    for (int trial = 0; trial < 60; trial++) {
      Path job = dir.resolve("job" + trial);
      Path folder = job.resolve("reach/r1");
      products(job, 1);
      List<String> mine = userEntries(folder, random);
      switch (random.nextInt(4)) {
        case 0 -> Files.delete(folder.resolve(StageRecord.FILE));
        case 1 -> {
          // One digit of the record: it proves nothing of the folder, but files prove themselves.
          String said = Files.readString(folder.resolve(StageRecord.FILE));
          Files.writeString(folder.resolve(StageRecord.FILE), said.replace("1 of", "7 of"));
        }
        default -> {
          // A sound record.
        }
      }
      boolean proven = Files.exists(folder.resolve(StageRecord.FILE));
      // As a run does it, ended after some of its steps.
      Path anew = dir.resolve("anew" + trial);
      products(anew, 2);
      Path old = job.resolve("reach/.r1.old");
      Files.move(folder, old, StandardCopyOption.ATOMIC_MOVE);
      if (random.nextInt(8) == 0) {
        new StageFolder(job, "reach/r1").recover();
        Files.move(folder, old, StandardCopyOption.ATOMIC_MOVE);
      }
      Files.move(anew.resolve("reach/r1"), folder, StandardCopyOption.ATOMIC_MOVE);
      List<CarriedOver.Step> steps = CarriedOver.steps(old, folder);
      for (CarriedOver.Step step : steps.subList(0, random.nextInt(steps.size() + 1))) {
        step.take();
      }
      new StageFolder(job, "reach/r1").recover();

      assertFalse(Files.exists(old, LinkOption.NOFOLLOW_LINKS));
      assertTrue(
          new StageFolder(job, "reach/r1").holds(key(2), new FileDigests()), "trial " + trial);
      List<String> there = contents(folder);
      for (String content : mine) {
        assertEquals(1, there.stream().filter(content::equals).count(), trial + " " + content);
      }
      for (String product : PRODUCTS) {
        assertEquals(product + 2, Files.readString(folder.resolve(product)));
        // What a record names and still is as written goes; without a record nothing is proven.
        if (proven) {
          assertFalse(there.contains(product + 1), trial + " " + product);
        }
      }
    }
  }

  /** Whatever is changed in a record, it is none. */
  @Test
  void aRecordIsBelievedAsItWasWrittenOnly() throws IOException {
    products(dir, 1);
    Path folder = dir.resolve("reach/r1");
    Path file = folder.resolve(StageRecord.FILE);
    byte[] sound = Files.readAllBytes(file);
    SplittableRandom random = new SplittableRandom(3);
    int changes = 0;
    while (changes < 300) {
      byte[] changed = sound.clone();
      int at = random.nextInt(sound.length);
      if (!Character.isLetterOrDigit(sound[at])) {
        continue;
      }
      changed[at] = (byte) (sound[at] == '7' ? '3' : '7');
      assertFalse(Arrays.equals(sound, changed));
      Files.write(file, changed);
      assertNull(StageRecord.read(folder), new String(changed, StandardCharsets.UTF_8));
      changes++;
    }
    Files.write(file, sound);
    assertEquals(key(1).hex(), StageRecord.read(folder).key());
    assertArrayEquals(sound, Files.readAllBytes(file));
  }

  /** Only a folder with a run's mark in it is taken for half-written products. */
  @Test
  void aFolderOfTheNameOfHalfWrittenProducts() throws IOException {
    Path part = Files.createDirectories(dir.resolve("reach/.r1.part"));
    assertEquals(List.of(), new StageFolder(dir, "reach/r1").foreign());
    put(part.resolve("mine.txt"), "mine");
    assertEquals(List.of(part), new StageFolder(dir, "reach/r1").foreign());
    StageRecord.writeUnfinished(part);
    assertEquals(List.of(), new StageFolder(dir, "reach/r1").foreign());
    new StageFolder(dir, "reach/r1").recover();
    assertFalse(Files.exists(part));
  }

  /** Replaces the products of the job folder named first, in a program of its own. */
  public static void main(String[] args) {
    products(Path.of(args[0]), 2);
  }

  private static void bash(String script, Path folder) throws IOException, InterruptedException {
    Process shell =
        new ProcessBuilder("bash", "-c", script).directory(folder.toFile()).inheritIO().start();
    assertEquals(0, shell.waitFor(), script);
  }

  /**
   * Names are bytes: those that are no UTF-8, that fall together as text or that a locale has no
   * letters for stay as they are. Files at names of a product among them get different names.
   */
  @ParameterizedTest
  @ValueSource(strings = {"C", "C.UTF-8"})
  void namesThatAreNoText(String locale) throws IOException, InterruptedException {
    products(dir, 1);
    Path folder = dir.resolve("reach/r1");
    bash(
        "printf one > $'m\\xff'; printf two > $'m\\xfe'; printf three > $'caf\\xc3\\xa9';"
            + "mkdir -p $'d\\xff'; printf four > $'d\\xff/e\\xfe'; printf five > a.tif",
        folder);
    ProcessBuilder run =
        new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-cp",
            System.getProperty("java.class.path"),
            CarriedOverTest.class.getName(),
            dir.toString());
    run.environment().put("LC_ALL", locale);
    assertEquals(0, run.inheritIO().start().waitFor());
    bash(
        "[ \"$(cat $'m\\xff' $'m\\xfe' $'caf\\xc3\\xa9' $'d\\xff/e\\xfe' a.tif.kept)\" ="
            + " onetwothreefourfive ]",
        folder);
    assertTrue(new StageFolder(dir, "reach/r1").holds(key(2), new FileDigests()));
    assertFalse(Files.exists(dir.resolve("reach/.r1.old"), LinkOption.NOFOLLOW_LINKS));
  }
}
