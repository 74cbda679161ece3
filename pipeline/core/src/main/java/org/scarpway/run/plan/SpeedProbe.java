package org.scarpway.run.plan;

import java.util.List;
import java.util.Random;
import org.scarpway.stage.Workers;

/**
 * How fast this machine is at what stages mostly do, arithmetic on values from scattered places of
 * arrays, on all threads at once: for machines on which nothing has run yet.
 */
final class SpeedProbe {
  /** Rounds per second of one thread on the machine of the shipped rates, two at a time. */
  private static final double REFERENCE = 70e6;

  /** Number of threads of the runs from which the shipped rates come. */
  static final int REFERENCE_THREADS = 2;

  private static final int VALUES = 1 << 18;
  private static final long WARM_NS = 30_000_000L;
  private static final long MEASURED_NS = 60_000_000L;

  private SpeedProbe() {}

  /** Returns the speed of one thread while all run, as a multiple of the reference machine's. */
  static double relativeSpeed(Workers workers) {
    return perSecond(workers) / REFERENCE;
  }

  static double perSecond(Workers workers) {
    double[] rates = new double[workers.threads()];
    double[] kept = new double[rates.length];
    Runnable[] tasks = new Runnable[rates.length];
    for (int t = 0; t < tasks.length; t++) {
      int thread = t;
      tasks[t] =
          () -> {
            float[] values = values(thread);
            kept[thread] = run(values, WARM_NS)[1];
            double[] measured = run(values, MEASURED_NS);
            rates[thread] = measured[0];
            kept[thread] += measured[1];
          };
    }
    workers.all(List.of(tasks));
    double sum = 0;
    for (int t = 0; t < rates.length; t++) {
      // Never true; the loop's result is used, so it is not left out.
      sum += kept[t] == 1 ? 0 : rates[t];
    }
    return sum / rates.length;
  }

  private static float[] values(int seed) {
    Random random = new Random(seed);
    float[] values = new float[VALUES];
    for (int i = 0; i < VALUES; i++) {
      values[i] = random.nextFloat();
    }
    return values;
  }

  /** Returns rounds per second and a sum over them. */
  private static double[] run(float[] values, long forNs) {
    long start = System.nanoTime();
    long now = start;
    long rounds = 0;
    double sum = 0;
    int at = 1;
    while (now - start < forNs) {
      for (int i = 0; i < 4096; i++) {
        at = (at * 1103515245 + 12345) & (VALUES - 1);
        sum += Math.sqrt(values[at] + sum * 1e-9);
      }
      rounds += 4096;
      now = System.nanoTime();
    }
    return new double[] {(double) rounds / ((now - start) * 1e-9), sum};
  }
}
