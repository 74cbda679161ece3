package org.scarpway.bench;

import com.sun.management.OperatingSystemMXBean;
import java.lang.management.ManagementFactory;
import java.util.Locale;
import java.util.Random;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.light.HorizonSweep;
import org.scarpway.light.ProductCells;
import org.scarpway.light.SweepGround;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * Processor time of horizons per cell of the ground and azimuth, on rough random ground of 5 m
 * cells on the Moon: for product cells as wide as those of the ground, and four times as wide.
 */
public final class HorizonSpeed {
  private static final double MOON_M = 1_737_400;
  private static final int RUNS = 3;

  private HorizonSpeed() {}

  /**
   * @param args number of cells along a side, number of azimuths
   */
  public static void main(String[] args) {
    int side = args.length > 0 ? Integer.parseInt(args[0]) : 1200;
    int azimuths = args.length > 1 ? Integer.parseInt(args[1]) : 36;
    FloatGrid ground = ground(side);
    SweepGround lines = SweepGround.of(HeightRows.of(ground), null);
    for (int block : new int[] {1, 4}) {
      ProductCells cells = ProductCells.of(ground.spec(), block);
      double best = Double.POSITIVE_INFINITY;
      for (int run = 0; run < RUNS; run++) {
        try (Workers workers = new Workers(1)) {
          long before = processorNs();
          new HorizonSweep(lines, null, MOON_M, cells, new double[] {2}, azimuths)
              .horizons(null, workers, Progress.NONE);
          best = Math.min(best, (double) (processorNs() - before));
        }
      }
      System.out.printf(
          Locale.ROOT,
          "%d x %d cells, product cells of %d: %.1f ns per cell and azimuth%n",
          side,
          side,
          block,
          best / ground.spec().cells() / azimuths);
    }
  }

  private static long processorNs() {
    return ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class).getProcessCpuTime();
  }

  /** Octaves of smoothed noise, each half as wide and 0.54 as high as the one before. */
  private static FloatGrid ground(int n) {
    float[] z = new float[n * n];
    Random random = new Random(7);
    for (int s = n / 2; s >= 2; s /= 2) {
      int m = n / s + 2;
      double[] g = new double[m * m];
      double high = 0.2 * n * Math.pow(2.0 * s / n, 0.9);
      for (int i = 0; i < g.length; i++) {
        g[i] = random.nextGaussian() * high;
      }
      for (int r = 0; r < n; r++) {
        int i = r / s;
        double fy = smooth((double) (r - i * s) / s);
        for (int c = 0; c < n; c++) {
          int j = c / s;
          double fx = smooth((double) (c - j * s) / s);
          double upper = g[i * m + j] * (1 - fx) + g[i * m + j + 1] * fx;
          double lower = g[(i + 1) * m + j] * (1 - fx) + g[(i + 1) * m + j + 1] * fx;
          z[r * n + c] += (float) (upper * (1 - fy) + lower * fy);
        }
      }
    }
    return new FloatGrid(new GridSpec(n, n, 5, 5, 0, 5.0 * n, ""), z);
  }

  private static double smooth(double f) {
    return f * f * (3 - 2 * f);
  }
}
