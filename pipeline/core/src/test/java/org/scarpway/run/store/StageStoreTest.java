package org.scarpway.run.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is taken from the store is what was put there, and it stays within its bound. */
class StageStoreTest {
  private static final int LARGE = 100_000;

  @TempDir Path dir;
  private Path root;
  private StageStore store;

  @BeforeEach
  void open() {
    root = dir.resolve(".store");
    store = new StageStore(root, Long.MAX_VALUE, new FileDigests());
  }

  private Path entry(int version) {
    return root.resolve("reach").resolve(SmallStage.key(version).hex());
  }

  /** An entry of 100 kB and a record that only the store holds. */
  private void keepAlone(int version, Duration age) throws IOException {
    StageFolder made = new StageFolder(dir.resolve("made"), "x");
    made.replace(
        SmallStage.key(version), aside -> SmallStage.put(aside.resolve("a"), "a".repeat(LARGE)));
    assertNull(store.put(SmallStage.key(version), made));
    FileTree.remove(dir.resolve("made"));
    Files.setLastModifiedTime(entry(version), FileTime.from(Instant.now().minus(age)));
  }

  private List<Integer> heldOf(int versions) {
    List<Integer> held = new ArrayList<>();
    for (int v = 1; v <= versions; v++) {
      if (store.holds(SmallStage.key(v))) {
        held.add(v);
      }
    }
    return held;
  }

  @Test
  void givesWhatWasKept() throws IOException {
    StageKey key = SmallStage.key(1);
    StageFolder other = new StageFolder(dir, "two/reach");
    assertFalse(store.holds(key) || store.restore(key, other));
    assertNull(store.put(key, SmallStage.finish(dir, "one/reach", 1)));
    assertTrue(store.holds(key));
    assertFalse(store.holds(SmallStage.key(2)) || store.restore(SmallStage.key(2), other));
    assertFalse(Files.exists(other.path()));
    assertTrue(store.restore(key, other));
    assertTrue(other.holds(key, new FileDigests()));
    // Replaced products leave those of the store as they were.
    SmallStage.finish(other, 2);
    assertTrue(store.holds(key));
  }

  @Test
  void noStoreKeepsAndGivesNothing() {
    StageStore none = new StageStore(null, 0, new FileDigests());
    StageFolder made = SmallStage.finish(dir, "one/reach", 1);
    assertNull(none.put(SmallStage.key(1), made));
    assertFalse(none.holds(SmallStage.key(1)) || none.restore(SmallStage.key(1), made));
    none.trim();
    assertTrue(made.holds(SmallStage.key(1), new FileDigests()));
  }

  @Test
  void aStoreThatCannotBeWrittenSaysSo() {
    SmallStage.put(root, "a file");
    StageFolder made = SmallStage.finish(dir, "one/reach", 1);
    assertFalse(store.put(SmallStage.key(1), made) == null);
    assertFalse(store.restore(SmallStage.key(1), made));
    store.trim();
    assertTrue(made.holds(SmallStage.key(1), new FileDigests()));
  }

  @Test
  void whatOnlyTheStoreHoldsStaysWithinTheBoundTheLongestUnusedGoFirst() throws IOException {
    keepAlone(1, Duration.ofHours(3));
    keepAlone(2, Duration.ofHours(4));
    keepAlone(3, Duration.ofHours(1));
    keepAlone(4, Duration.ofHours(2));
    new StageStore(root, 4L * LARGE + LARGE / 2, new FileDigests()).trim();
    assertEquals(List.of(1, 2, 3, 4), heldOf(4));
    new StageStore(root, 3L * LARGE + LARGE / 2, new FileDigests()).trim();
    assertEquals(List.of(1, 3, 4), heldOf(4));
    // A use makes it the youngest.
    StageFolder user = new StageFolder(dir, "user/reach");
    assertTrue(store.restore(SmallStage.key(1), user));
    FileTree.remove(user.path());
    new StageStore(root, LARGE + LARGE / 2, new FileDigests()).trim();
    assertEquals(List.of(1), heldOf(4));
    // The products alone are as large as this bound: their record counts too.
    new StageStore(root, LARGE, new FileDigests()).trim();
    assertEquals(Set.of(), SmallStage.files(root));
  }

  @Test
  void whatAJobFolderHoldsTooTakesNoRoom() throws IOException {
    assertNull(store.put(SmallStage.key(1), SmallStage.finish(dir, "one/reach", 1)));
    keepAlone(2, Duration.ZERO);
    new StageStore(root, 0, new FileDigests()).trim();
    assertEquals(List.of(1), heldOf(2));
  }

  @Test
  void partsThatNoRunMakesAnyMoreAreRemoved() throws IOException {
    Path young = root.resolve("reach/.a.1.part");
    Path stale = root.resolve("reach/.b.2.part");
    SmallStage.put(young.resolve("x"), "x");
    SmallStage.put(stale.resolve("x"), "x");
    Files.setLastModifiedTime(stale, FileTime.from(Instant.now().minus(Duration.ofMinutes(61))));
    store.trim();
    assertEquals(Set.of("reach/.a.1.part/x"), SmallStage.files(root));
  }

  @Test
  void damagedEntriesAreNotTaken() throws IOException {
    StageKey key = SmallStage.key(1);
    StageFolder there = SmallStage.finish(dir, "there/reach", 2);
    for (String name : List.of(SmallStage.MAP, SmallStage.TABLE, StageRecord.FILE)) {
      for (boolean gone : new boolean[] {false, true}) {
        StageFolder made = SmallStage.finish(dir, "one/reach", 1);
        assertNull(store.put(key, made));
        FileTree.remove(made.path());
        if (gone) {
          Files.delete(entry(1).resolve(name));
        } else {
          SmallStage.damage(entry(1).resolve(name));
        }
        assertFalse(store.holds(key), name);
        assertFalse(store.restore(key, there), name);
        assertTrue(there.holds(SmallStage.key(2), new FileDigests()), "what was there stays");
        FileTree.remove(entry(1));
      }
    }
    // An entry at the name of another key.
    keepAlone(3, Duration.ZERO);
    Files.move(entry(3), entry(1));
    assertFalse(store.holds(key) || store.restore(key, there));
  }

  @Test
  void damagedEntriesMakeRoomForWholeOnes() throws IOException {
    StageKey key = SmallStage.key(1);
    keepAlone(1, Duration.ZERO);
    SmallStage.damage(entry(1).resolve("a"));
    StageFolder there = new StageFolder(dir, "there/reach");
    assertFalse(store.restore(key, there));
    assertNull(store.put(key, SmallStage.finish(there, 1)));
    assertTrue(store.holds(key));
  }

  @Test
  void storesOnOneFolderKeepAndGiveAtOnce() throws Exception {
    int workers = 4;
    ExecutorService pool = Executors.newFixedThreadPool(workers);
    try {
      CyclicBarrier start = new CyclicBarrier(workers);
      List<Future<?>> all = new ArrayList<>();
      for (int w = 0; w < workers; w++) {
        Path job = dir.resolve("job" + w);
        all.add(
            pool.submit(
                () -> {
                  StageStore own = new StageStore(root, Long.MAX_VALUE, new FileDigests());
                  for (int v = 1; v <= 5; v++) {
                    StageKey key = SmallStage.key(v);
                    StageFolder made = SmallStage.finish(job, "made/" + v, v);
                    start.await();
                    assertNull(own.put(key, made));
                    StageFolder got = new StageFolder(job, "got/" + v);
                    assertTrue(own.restore(key, got));
                    assertTrue(got.holds(key, new FileDigests()));
                  }
                  return null;
                }));
      }
      for (Future<?> f : all) {
        f.get();
      }
    } finally {
      pool.shutdownNow();
    }
    assertEquals(5, heldOf(5).size());
    assertEquals(5 * 3, SmallStage.files(root).size());
  }
}
