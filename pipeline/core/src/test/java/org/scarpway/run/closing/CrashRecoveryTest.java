package org.scarpway.run.closing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.SmallStage;
import org.scarpway.run.store.StageFolder;
import org.scarpway.run.store.StageRecord;

/** After a killed run a folder holds whole stages and what is the user's, nothing else. */
class CrashRecoveryTest {
  @TempDir Path job;

  private void clear(String... ids) {
    try (JobLock held = JobLock.take(job)) {
      CrashRecovery.clear(held, List.of(ids), List.of());
    }
  }

  private void assertLeft(String... files) throws IOException {
    Set<String> all = new TreeSet<>(List.of(files));
    all.add(JobLock.FILE);
    assertEquals(all, SmallStage.files(job));
  }

  private static String[] stage(String id) {
    return new String[] {
      id + "/" + StageRecord.FILE, id + "/" + SmallStage.MAP, id + "/" + SmallStage.TABLE
    };
  }

  @Test
  void nothingIsMissedInANewFolder() throws IOException {
    clear("terrain", "reach/day");
    assertLeft();
  }

  @Test
  void stagesMovedAwayComeBackWhetherTheJobStillHasThemOrNot() throws IOException {
    for (String[] ids : new String[][] {{"terrain", "reach/day"}, {"terrain"}, {"hazard"}}) {
      StageFolder day = SmallStage.finish(job, "reach/day", 1);
      Files.move(day.path(), job.resolve("reach/.day.old"));
      SmallStage.put(job.resolve("reach/.day.part/half.tif"), "half");
      StageRecord.writeUnfinished(job.resolve("reach/.day.part"));
      clear(ids);
      assertLeft(stage("reach/day"));
      assertTrue(day.holds(SmallStage.key(1), new FileDigests()));
    }
  }

  @Test
  void hiddenFoldersOfTheUserStay() throws IOException {
    SmallStage.put(job.resolve(".mine.part/a"), "a");
    SmallStage.put(job.resolve("reach/.other.old/b"), "b");
    SmallStage.put(job.resolve("deep/er/.x.part/" + StageRecord.FILE), "c");
    clear("terrain", "reach/day");
    assertLeft(".mine.part/a", "reach/.other.old/b", "deep/er/.x.part/" + StageRecord.FILE);
  }

  @Test
  void halfWrittenFilesOfTheClosingGoWholeOnesStay() throws IOException {
    List<String> names = JobOutputs.names(List.of("terrain"), List.of());
    assertTrue(names.containsAll(List.of("index.html", "stac/terrain.json")), names::toString);
    for (String name : names) {
      SmallStage.put(job.resolve(name), name);
      SmallStage.put(job.resolve(name + ".part"), "half");
    }
    SmallStage.put(job.resolve("notes.txt.part"), "mine");
    clear("terrain");
    Set<String> left = new TreeSet<>(names);
    left.add("notes.txt.part");
    assertLeft(left.toArray(String[]::new));
  }
}
