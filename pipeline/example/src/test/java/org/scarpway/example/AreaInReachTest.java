package org.scarpway.example;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.config.VehicleReader;
import org.scarpway.grid.Body;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.Vehicle;

class AreaInReachTest {
  private static final Path ROOT = Path.of(System.getProperty("scarpway.root", "../.."));

  @TempDir Path dir;

  private Vehicle buggy() {
    return VehicleReader.read(ROOT.resolve("configs/vehicles/open-buggy.yaml"));
  }

  /** Level ground: a disc of half the way that the rated speed makes in nine tenths of the time. */
  @Test
  void levelGroundIsADisc() throws Exception {
    int side = 241;
    double cellM = 10;
    String row = "0 ".repeat(side).strip() + "\n";
    Path flat = dir.resolve("flat.asc");
    Files.writeString(
        flat,
        "ncols "
            + side
            + "\nnrows "
            + side
            + "\nxllcorner 0\nyllcorner 0\ncellsize "
            + cellM
            + "\n"
            + row.repeat(side));
    // Without a soil wheels do not slip, so the speed is the rated one.
    Vehicle onRock = buggy().withSoil(null);
    double hours = 0.2;
    double radiusM = onRock.drive().speedMs() * hours * 3600 * 0.9 / 2;
    try (Workers workers = new Workers(2)) {
      double areaM2 = AreaInReach.solve(flat, Body.MOON, onRock, hours, workers).surelyM2();
      assertEquals(1, areaM2 / (Math.PI * radiusM * radiusM), 0.01);
    }
  }

  /** Two engines that work at the same time give the values of one that works alone. */
  @Test
  void enginesSideBySideDoNotKnowOfEachOther() throws Exception {
    float[] alone = timesS(1);
    ExecutorService callers = Executors.newFixedThreadPool(2);
    try {
      List<Callable<float[]>> both = new ArrayList<>();
      for (int threads = 1; threads <= 2; threads++) {
        int own = threads;
        both.add(() -> timesS(own));
      }
      for (Future<float[]> f : callers.invokeAll(both)) {
        assertArrayEquals(alone, f.get());
      }
    } finally {
      callers.shutdown();
    }
  }

  private float[] timesS(int threads) {
    try (Workers workers = new Workers(threads)) {
      ReachResult answer =
          AreaInReach.solve(
              ROOT.resolve("sample-dem/orrel-bench.tif"), Body.MOON, buggy(), 0.5, workers);
      return answer.timeS().values();
    }
  }
}
