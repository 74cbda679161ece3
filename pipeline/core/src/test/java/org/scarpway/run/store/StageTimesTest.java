package org.scarpway.run.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.run.store.StageTimes.Sample;

class StageTimesTest {
  @TempDir Path dir;

  private static Sample sample(int i) {
    return new Sample("job terrain", 1000 + i, i % 2 == 0, 0.25 + i, 2, 77L + i);
  }

  @Test
  void theLatestOfEachKindComeBack() throws Exception {
    Path store = dir.resolve("not/there/yet");
    for (int i = 0; i < 40; i++) {
      StageTimes times = StageTimes.read(store);
      times.add("terrain", sample(i));
      times.write(store);
    }
    List<Sample> kept = StageTimes.read(store).of("terrain");
    assertEquals(StageTimes.KEPT, kept.size());
    for (int i = 0; i < kept.size(); i++) {
      assertEquals(sample(40 - StageTimes.KEPT + i), kept.get(i));
    }
    assertTrue(Files.size(store.resolve(StageTimes.FILE)) < 200L * StageTimes.KEPT);
  }

  @Test
  void whatWasChangedOrCannotBeCountsForNothing() throws Exception {
    StageTimes times = new StageTimes();
    times.add("terrain", new Sample("a", 0, true, 1, 2, 1));
    times.add("terrain", new Sample("a", 1, true, Double.NaN, 2, 1));
    times.add("terrain", new Sample("a", 1, true, 1, 0, 1));
    assertTrue(times.isEmpty());
    times.add("terrain", sample(1));
    times.write(dir);
    Path file = dir.resolve(StageTimes.FILE);
    Files.writeString(file, Files.readString(file).replace("1001", "1"));
    assertTrue(StageTimes.read(dir).isEmpty());
    Files.writeString(file, "[");
    assertTrue(StageTimes.read(dir).isEmpty());
  }

  @Test
  void aStoreThatCannotBeWrittenEndsNoRun() throws Exception {
    Path file = Files.writeString(dir.resolve("file"), "in the way");
    StageTimes times = new StageTimes();
    times.add("terrain", sample(1));
    times.write(file);
    assertEquals("in the way", Files.readString(file));
  }
}
