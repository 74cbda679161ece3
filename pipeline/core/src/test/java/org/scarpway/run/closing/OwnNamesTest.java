package org.scarpway.run.closing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.SmallStage;
import org.scarpway.run.store.StageRecord;
import org.scarpway.stage.UserError;

/** What stands in the way of a run is told before anything is written, a line each. */
class OwnNamesTest {
  private static final List<String> IDS = List.of("terrain", "reach/day");

  @TempDir Path dir;
  private Path job;

  @BeforeEach
  void name() {
    job = dir.resolve("job");
  }

  /** Each line up to what was expected, without the folder. */
  private List<String> mistakes() throws IOException {
    var before = SmallStage.files(dir);
    List<String> told = new ArrayList<>();
    try {
      OwnNames.require(job, IDS, List.of());
    } catch (UserError e) {
      e.getMessage()
          .lines()
          .forEach(l -> told.add(l.substring(job.toString().length() + 1, l.indexOf(';'))));
    }
    assertEquals(before, SmallStage.files(dir), "nothing is written");
    return told;
  }

  @Test
  void whatRunsWroteAndOtherNamesOfTheUserAreNotInTheWay() throws IOException {
    assertEquals(List.of(), mistakes());
    SmallStage.finish(job, "terrain", 1);
    SmallStage.finish(job, "reach/day", 1);
    Files.createDirectories(job.resolve("reach/.day.part"));
    StageRecord.writeUnfinished(job.resolve("reach/.day.part"));
    JobOutputs.names(IDS, List.of()).forEach(n -> SmallStage.put(job.resolve(n), n));
    JobOutputs.names(IDS, List.of()).forEach(n -> SmallStage.put(job.resolve(n + ".part"), "half"));
    SmallStage.put(job.resolve(JobLock.FILE), "");
    SmallStage.put(job.resolve("notes.txt"), "mine");
    SmallStage.put(job.resolve("terrain/notes.txt"), "mine");
    assertEquals(List.of(), mistakes());
  }

  @Test
  void filesWhereFoldersGo() throws IOException {
    SmallStage.put(job.resolve("terrain"), "mine");
    SmallStage.put(job.resolve("reach"), "mine");
    SmallStage.put(job.resolve("stac"), "mine");
    assertEquals(
        List.of(
            "reach: is a file where a run makes a folder",
            "stac: is a file where a run makes a folder",
            "terrain: is a file where a run makes a folder"),
        mistakes());
  }

  @Test
  void foldersWhereFilesGo() throws IOException {
    Files.createDirectories(job.resolve(JobLock.FILE));
    Files.createDirectories(job.resolve("index.html"));
    Files.createDirectories(job.resolve("stac/terrain.json.part"));
    assertEquals(
        List.of(
            ".lock: is a folder where a run writes a file",
            "index.html: is a folder where a run writes a file",
            "stac/terrain.json.part: is a folder where a run writes a file"),
        mistakes());
  }

  @Test
  void linksThatLeadElsewhereButInPlaceOfAStage() throws IOException {
    Path mine = Files.createDirectories(dir.resolve("mine"));
    Files.createDirectories(job);
    for (String name : List.of("terrain", "reach", "stac", JobLock.FILE, "index.html")) {
      Files.createSymbolicLink(job.resolve(name), mine);
    }
    assertEquals(
        List.of("reach: is a link", "stac: is a link", ".lock: is a link", "index.html: is a link"),
        mistakes());
  }

  @Test
  void aReportThatNoRunWrote() throws IOException {
    SmallStage.put(job.resolve("index.html"), "mine");
    assertEquals(List.of("index.html: is a file that no run wrote"), mistakes());
    SmallStage.put(job.resolve(JobOutputs.FILE), "{}");
    assertEquals(List.of(), mistakes());
  }

  @Test
  void foldersOfTheUserAtNamesBesideAStage() throws IOException {
    SmallStage.put(job.resolve("reach/.day.part/mine.txt"), "mine");
    SmallStage.put(job.resolve(".terrain.old"), "mine");
    assertEquals(
        List.of(
            ".terrain.old: holds what no run wrote", "reach/.day.part: holds what no run wrote"),
        mistakes());
  }
}
