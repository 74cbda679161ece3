package org.scarpway.bench;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.Locale;
import org.scarpway.grid.Body;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.MobilityStage;
import org.scarpway.vehicle.Vehicle;

/**
 * The comparison of {@link MobilityBench} by processor time instead of the clock, for machines with
 * other work on them: the product and the plain evaluation in turns in one process, processor time
 * of the working threads and bytes that they allocate, per cell and heading. Arguments: side,
 * rounds, threads, plain side (0 leaves the plain evaluation out).
 */
public final class MobilitySpeed {
  private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

  private MobilitySpeed() {}

  public static void main(String[] args) {
    int side = Integer.parseInt(args[0]);
    int rounds = Integer.parseInt(args[1]);
    int threads = Integer.parseInt(args[2]);
    int plainSide = Integer.parseInt(args[3]);
    Vehicle vehicle = MobilityBench.vehicle();
    try (Workers workers = new Workers(threads)) {
      for (double cellM : new double[] {1, 5}) {
        for (boolean boulders : new boolean[] {false, true}) {
          Terrain terrain = MobilityBench.terrain(side, cellM, boulders);
          Hazard hazard = MobilityBench.noHazard(terrain.gradEast().spec());
          String what = (cellM == 1 ? "wheels on the ground" : "closed forms");
          String ground = boulders ? "boulders" : "rolling";
          report(
              "stage, " + what + ", " + ground,
              side,
              rounds,
              () ->
                  MobilityStage.compute(
                      terrain, hazard, vehicle, Body.MOON, workers, Progress.NONE));
          if (plainSide > 0 && cellM == 1) {
            Terrain small = MobilityBench.terrain(plainSide, cellM, boulders);
            PlainMobility plain = new PlainMobility(vehicle, small, Body.MOON);
            report(
                "plain, " + what + ", " + ground,
                plainSide,
                rounds,
                () -> workers.overRows(plainSide, plain::rows));
          }
        }
      }
    }
  }

  private static void report(String what, int side, int rounds, Runnable work) {
    double[] nsEach = new double[rounds];
    double wallS = Double.POSITIVE_INFINITY;
    double bytes = 0;
    double each = 32.0 * side * side;
    work.run();
    for (int i = 0; i < rounds; i++) {
      long[] before = spent();
      long start = System.nanoTime();
      work.run();
      wallS = Math.min(wallS, (System.nanoTime() - start) / 1e9);
      long[] after = spent();
      nsEach[i] = (after[0] - before[0]) / each;
      bytes = (after[1] - before[1]) / each;
    }
    Arrays.sort(nsEach);
    System.out.printf(
        Locale.ROOT,
        "%-40s %5d x %d: processor ns %.1f to %.1f, median %.1f; bytes %.4f; wall of the best %.2f s%n",
        what,
        side,
        side,
        nsEach[0],
        nsEach[rounds - 1],
        nsEach[Math.floorDiv(rounds, 2)],
        bytes,
        wallS);
  }

  /** Processor time (ns) and bytes allocated of the working threads so far. */
  private static long[] spent() {
    long cpu = 0;
    long bytes = 0;
    for (long id : THREADS.getAllThreadIds()) {
      var info = THREADS.getThreadInfo(id);
      if (info != null && info.getThreadName().startsWith("scarpway")) {
        cpu += THREADS.getThreadCpuTime(id);
        bytes += THREADS.getThreadAllocatedBytes(id);
      }
    }
    return new long[] {cpu, bytes};
  }
}
