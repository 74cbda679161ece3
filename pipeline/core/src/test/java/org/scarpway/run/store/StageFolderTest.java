package org.scarpway.run.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Products are there whole or not at all, and what no run wrote stays. */
class StageFolderTest {
  private static final Set<String> WHOLE =
      Set.of(StageRecord.FILE, SmallStage.MAP, SmallStage.TABLE);

  @TempDir Path job;
  private StageFolder folder;
  private Path path;
  private Path aside;
  private Path old;

  @BeforeEach
  void name() {
    folder = new StageFolder(job, "reach/day");
    path = job.resolve("reach/day");
    aside = job.resolve("reach/.day.part");
    old = job.resolve("reach/.day.old");
  }

  private Set<String> all(String... more) {
    Set<String> names = new TreeSet<>();
    WHOLE.forEach(n -> names.add("day/" + n));
    names.addAll(List.of(more));
    return names;
  }

  private void assertHolds(int version, String... more) throws IOException {
    assertTrue(folder.holds(SmallStage.key(version), new FileDigests()), "version " + version);
    assertEquals("map " + version, Files.readString(path.resolve(SmallStage.MAP)));
    assertEquals("table " + version, Files.readString(path.resolve(SmallStage.TABLE)));
    assertEquals(all(more), SmallStage.files(job.resolve("reach")));
    assertFalse(Files.exists(aside) || Files.exists(old));
  }

  @Test
  void newProductsTakeThePlaceOfOldOnes() throws IOException {
    assertNull(folder.record());
    assertFalse(folder.holds(SmallStage.key(1), new FileDigests()));
    SmallStage.finish(folder, 1);
    assertHolds(1);
    SmallStage.finish(folder, 2);
    assertHolds(2);
    assertFalse(folder.holds(SmallStage.key(1), new FileDigests()));
    assertEquals(SmallStage.key(2).ingredients(), folder.record().madeFrom());
  }

  @Test
  void whatFailsHalfWayChangesNothing() throws IOException {
    for (int before = 0; before < 2; before++) {
      assertThrows(
          ArithmeticException.class,
          () ->
              folder.replace(
                  SmallStage.key(2),
                  part -> {
                    SmallStage.put(part.resolve(SmallStage.MAP), "half");
                    throw new ArithmeticException();
                  }));
      if (before == 0) {
        assertEquals(Set.of(), SmallStage.files(job));
        SmallStage.finish(folder, 1);
      }
    }
    assertHolds(1);
  }

  /** Where a run that replaces version 1 by version 2 may be ended. */
  private enum End {
    EMPTY_ASIDE,
    MARKED,
    HALF_WRITTEN,
    WRITTEN,
    MOVED_AWAY,
    IN_PLACE,
    CARRYING
  }

  private void leave(End end) throws IOException {
    Path made = SmallStage.finish(job.resolve("elsewhere"), "x", 2).path();
    Files.createDirectories(path.getParent());
    switch (end) {
      case EMPTY_ASIDE -> Files.createDirectories(aside);
      case MARKED, HALF_WRITTEN -> {
        Files.createDirectories(aside);
        StageRecord.writeUnfinished(aside);
        if (end == End.HALF_WRITTEN) {
          SmallStage.put(aside.resolve(SmallStage.MAP), "ma");
        }
      }
      case WRITTEN -> Files.move(made, aside);
      case MOVED_AWAY -> {
        Files.move(made, aside);
        Files.move(path, old);
      }
      case IN_PLACE, CARRYING -> {
        Files.move(path, old);
        Files.move(made, path);
        if (end == End.CARRYING) {
          Files.move(old.resolve("notes.txt"), path.resolve("notes.txt"));
          Files.delete(old.resolve(SmallStage.MAP));
        }
      }
    }
    FileTree.remove(job.resolve("elsewhere"));
  }

  @ParameterizedTest
  @EnumSource(End.class)
  void afterAnEndAtAnyStepProductsAreWhole(End end) throws IOException {
    SmallStage.finish(folder, 1);
    SmallStage.put(path.resolve("notes.txt"), "mine");
    leave(end);
    int there = end.compareTo(End.IN_PLACE) < 0 ? 1 : 2;
    for (int again = 0; again < 2; again++) {
      folder.recover();
      assertHolds(there, "day/notes.txt");
      assertEquals("mine", Files.readString(path.resolve("notes.txt")));
      assertEquals(List.of(), folder.kept());
    }
    SmallStage.finish(folder, 3);
    assertHolds(3, "day/notes.txt");
  }

  @ParameterizedTest
  @EnumSource(
      value = End.class,
      names = {"EMPTY_ASIDE", "MARKED", "HALF_WRITTEN", "WRITTEN"})
  void ofAFirstRunThatEndedNothingIsLeft(End end) throws IOException {
    leave(end);
    folder.recover();
    assertEquals(Set.of(), SmallStage.files(job));
    assertFalse(Files.exists(aside));
  }

  @Test
  void filesOfTheUserAreCarriedOver() throws IOException {
    SmallStage.finish(folder, 1);
    SmallStage.put(path.resolve("notes.txt"), "mine");
    SmallStage.put(path.resolve("tables/sums.ods"), "sums");
    SmallStage.put(path.resolve(SmallStage.MAP), "drawn on");
    SmallStage.finish(folder, 2);
    assertHolds(2, "day/notes.txt", "day/tables/sums.ods", "day/map.tif.kept");
    assertEquals("drawn on", Files.readString(path.resolve("map.tif.kept")));
    assertEquals("sums", Files.readString(path.resolve("tables/sums.ods")));
    assertEquals(List.of("map.tif was no run's: kept as map.tif.kept"), folder.kept());
  }

  @Test
  void damageIsNoticedWhereverItIs() throws IOException {
    for (String name : WHOLE) {
      SmallStage.finish(folder, 1);
      assertTrue(folder.holds(SmallStage.key(1), new FileDigests()));
      SmallStage.damage(path.resolve(name));
      assertFalse(
          folder.holds(SmallStage.key(1), new FileDigests()), name + " has a bit turned over");
      FileTree.remove(path);
      SmallStage.finish(folder, 1);
      Files.delete(path.resolve(name));
      assertFalse(folder.holds(SmallStage.key(1), new FileDigests()), name + " is gone");
      FileTree.remove(path);
    }
  }

  @Test
  void whatIsTakenFromElsewhereIsWholeOrRefused() throws IOException {
    StageFolder other = SmallStage.finish(job.resolve("other"), "x", 2);
    StageRecord record = other.record();
    SmallStage.finish(folder, 1);
    assertTrue(folder.takeFrom(other.path(), record, new FileDigests()));
    assertHolds(2);
    // One content may have both names, so the damaged file is another one.
    Path map = other.path().resolve(SmallStage.MAP);
    Files.delete(map);
    SmallStage.put(map, "mop 2");
    assertFalse(folder.takeFrom(other.path(), record, new FileDigests()));
    Files.delete(map);
    assertFalse(folder.takeFrom(other.path(), record, new FileDigests()));
    assertHolds(2);
  }

  @Test
  void aLinkInPlaceOfTheFolderIsReplacedNotFollowed() throws IOException {
    Path mine = job.resolve("mine");
    SmallStage.put(mine.resolve(SmallStage.MAP), "mine");
    Files.createDirectories(path.getParent());
    Files.createSymbolicLink(path, mine);
    SmallStage.finish(folder, 1);
    assertFalse(Files.isSymbolicLink(path));
    assertHolds(1);
    assertEquals("mine", Files.readString(mine.resolve(SmallStage.MAP)));
  }

  @Test
  void whatNoRunPutAtTheNamesBesideItIsForeign() throws IOException {
    assertEquals(List.of(), folder.foreign());
    Files.createDirectories(aside);
    assertEquals(List.of(), folder.foreign());
    SmallStage.put(aside.resolve("mine.txt"), "mine");
    assertEquals(List.of(aside), folder.foreign());
    StageRecord.writeUnfinished(aside);
    assertEquals(List.of(), folder.foreign());
    SmallStage.put(old, "a file");
    assertEquals(List.of(old), folder.foreign());
  }
}
