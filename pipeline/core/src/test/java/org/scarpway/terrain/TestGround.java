package org.scarpway.terrain;

import java.util.List;
import java.util.Random;
import org.scarpway.dem.Dem;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/** Rough invented ground for tests. */
public final class TestGround {
  private TestGround() {}

  public static GridSpec spec(int rows, int cols, double cellXM, double cellYM) {
    return new GridSpec(rows, cols, cellXM, cellYM, 0, rows * cellYM, "");
  }

  public static Dem dem(GridSpec spec, float[] heightM) {
    return new Dem(new FloatGrid(spec, heightM), 0, Body.MOON, List.of());
  }

  /**
   * Hills of several sizes with noise, multiples of 1/64 m so that sums with a constant are exact.
   */
  public static float[] rough(int rows, int cols, long seed) {
    Random random = new Random(seed);
    double[] phase = random.doubles(6, 0, 6).toArray();
    float[] z = new float[rows * cols];
    for (int i = 0; i < z.length; i++) {
      int x = i % cols;
      int y = i / cols;
      double h =
          8 * Math.sin(x / 9.0 + phase[0]) * Math.cos(y / 11.0 + phase[1])
              + 2 * Math.sin(x / 3.0 + y / 4.0 + phase[2])
              + .3 * x
              - .2 * y
              + .2 * random.nextGaussian();
      z[i] = (float) (Math.rint(h * 64) / 64.0);
    }
    return z;
  }
}
