package org.scarpway.light;

import java.util.Arrays;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/**
 * Heights of a wider and coarser elevation model around the ground, on the same map: where its
 * mountains stand above the near horizon.
 */
public final class FarGround {
  /**
   * Samples along a line lie a cell apart, or this share of their distance where that is longer.
   * Own choice: a peak between two of them stands less than 0.05 degrees higher on slopes below 25
   * degrees.
   */
  private static final double SPACING = 1.0 / 250;

  private final FloatGrid heights;
  private final double raisedM;
  private final double lowestM;

  /**
   * @param heights heights (m)
   * @param raisedM added to every one of them, so that they agree with the near ground
   */
  public FarGround(FloatGrid heights, double raisedM) {
    this.heights = heights;
    this.raisedM = raisedM;
    double lowest = Double.POSITIVE_INFINITY;
    for (float z : heights.values()) {
      // False for a void.
      lowest = z < lowest ? z : lowest;
    }
    lowestM = lowest + raisedM;
  }

  /** Lowest height (m); positive infinity if none is known. */
  double lowestM() {
    return lowestM;
  }

  /** Height (m) at a point of the map, straight between cells; NaN outside. */
  public double heightM(double xM, double yM) {
    GridSpec s = heights.spec();
    double c = (xM - s.westM()) / s.cellXM() - 0.5;
    double r = (s.northM() - yM) / s.cellYM() - 0.5;
    int col = (int) Math.floor(c);
    int row = (int) Math.floor(r);
    if (col < 0 || row < 0 || col + 1 >= s.cols() || row + 1 >= s.rows()) {
      return Double.NaN;
    }
    double f = c - col;
    double g = r - row;
    int i = row * s.cols() + col;
    float[] z = heights.values();
    double upper = z[i] * (1 - f) + z[i + 1] * f;
    double lower = z[i + s.cols()] * (1 - f) + z[i + s.cols() + 1] * f;
    return raisedM + upper * (1 - g) + lower * g;
  }

  /** Distances (m) of the samples beyond the edge of near ground, growing. */
  double[] distancesM(GridSpec near) {
    GridSpec s = heights.spec();
    double most =
        Math.hypot(
            Math.max(s.eastM(), near.eastM()) - Math.min(s.westM(), near.westM()),
            Math.max(s.northM(), near.northM()) - Math.min(s.southM(), near.southM()));
    double cellM = Math.max(s.cellM(), near.cellM());
    int n = 0;
    double[] all = new double[16];
    for (double d = near.cellM(); d < most; d += Math.max(cellM, d * SPACING)) {
      if (n == all.length) {
        all = Arrays.copyOf(all, 2 * n);
      }
      all[n++] = d;
    }
    return Arrays.copyOf(all, n);
  }
}
