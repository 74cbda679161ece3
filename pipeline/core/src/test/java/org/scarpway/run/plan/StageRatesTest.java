package org.scarpway.run.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.run.ground.StageNeeds;
import org.scarpway.run.store.StageTimes;
import org.scarpway.run.store.StageTimes.Sample;
import org.scarpway.stage.Workers;

/** Estimates of a made-up machine whose true times are known. */
class StageRatesTest {
  private static StageWork work(String kind, double cells) {
    return new StageWork("job " + kind, kind, cells, cells);
  }

  private static Sample sample(String job, String kind, double cells, double wallS, int threads) {
    return new Sample(job + " " + kind, cells, true, wallS, threads, 0);
  }

  private static double shipped(String kind, double cells) {
    return StageNeeds.of(kind).seconds(cells, true);
  }

  @Test
  void ownRunsCorrectTheShippedRatesAtEverySizeAndStrayOnesDoNot() {
    Random random = new Random(7);
    for (int round = 0; round < 300; round++) {
      double slower = Math.exp(4 * random.nextDouble() - 2);
      StageTimes times = new StageTimes();
      for (int run = 0; run < 5; run++) {
        double cells = Math.exp(9 + 6 * random.nextDouble());
        // One of the five stood still for a while, or met a file that was in memory.
        double stray = run == round % 5 ? (round % 2 == 0 ? 40 : 0.1) : 1;
        double noise = 1 + 0.2 * (random.nextDouble() - 0.5);
        double wallS = slower * stray * noise * shipped("terrain", cells);
        times.add("terrain", sample("run" + run, "terrain", cells, wallS, 2));
      }
      StageRates rates = StageRates.learnt(times, 2);
      double cells = Math.exp(9 + 6 * random.nextDouble());
      double ratio =
          rates.seconds(work("terrain", cells), true) / (slower * shipped("terrain", cells));
      assertTrue(ratio > 0.89 && ratio < 1.11, round + ": " + ratio);
      // What never ran here is as much slower as what did.
      ratio = rates.seconds(work("hazard", cells), true) / (slower * shipped("hazard", cells));
      assertTrue(ratio > 0.89 && ratio < 1.11, round + ": " + ratio);
    }
  }

  @Test
  void theSameStageOnAsMuchGroundTellsMoreThanOthersOfItsKind() {
    StageTimes times = new StageTimes();
    for (int i = 0; i < 6; i++) {
      times.add("mobility", sample("other", "mobility", 1000 + i, 50, 2));
    }
    times.add("mobility", sample("job", "mobility", 1000, 7, 2));
    times.add("mobility", sample("job", "mobility", 9000, 900, 2));
    assertEquals(7, StageRates.learnt(times, 2).seconds(work("mobility", 1000), true), 1e-9);
    assertEquals(
        50,
        StageRates.learnt(times, 2)
            .seconds(new StageWork("new mobility", "mobility", 1000, 1000), true),
        1.0);
  }

  @Test
  void theFirstOfItsKindIsCompiledToo() {
    StageRates rates = StageRates.learnt(new StageTimes(), 2);
    StageWork w = work("reach drive_back 2", 1e6);
    assertEquals(
        StageNeeds.of("reach").startS(), rates.seconds(w, true) - rates.seconds(w, false), 1e-9);
  }

  @Test
  void twiceTheThreadsTakeHalfTheTimeButForWhatOneDoesAlone() {
    StageTimes times = new StageTimes();
    times.add("terrain", sample("job", "terrain", 1e6, 10, 2));
    // A sixth to a seventh of a run is not parallel: 10 s (0.15 + 0.85 / 2).
    assertEquals(5.75, StageRates.learnt(times, 4).seconds(work("terrain", 1e6), true), 1e-9);
  }

  @Test
  void sizesOfProductsAreLearntToo() {
    StageTimes times = new StageTimes();
    StageWork w = work("terrain", 2e6);
    assertEquals(
        StageNeeds.of("terrain").diskBytes() * 2e6 / (1 << 20),
        StageRates.learnt(times, 2).diskMb(w),
        1e-9);
    times.add("terrain", new Sample("a terrain", 1e6, true, 1, 2, 10 << 20));
    assertEquals(20, StageRates.learnt(times, 2).diskMb(w), 1e-9);
  }

  @Test
  void middleOfRatios() {
    assertEquals(3, StageRates.median(List.of(9.0, 1.0, 3.0)));
    assertEquals(2, StageRates.median(List.of(4.0, 1.0)));
  }

  @Test
  void beforeTheFirstRunTheMachineIsMeasured() {
    try (Workers workers = new Workers(2)) {
      StageRates rates = StageRates.of(new StageTimes(), workers);
      double ratio = rates.seconds(work("terrain", 1e6), true) / shipped("terrain", 1e6);
      // Any machine, however busy, but no nonsense.
      assertTrue(ratio > 1e-3 && ratio < 1e3, rates.source());
    }
  }

  @Test
  void nothingIsReadFromElsewhere(@TempDir Path empty) {
    assertTrue(StageTimes.read(empty).isEmpty());
    assertTrue(StageTimes.read(null).isEmpty());
  }
}
