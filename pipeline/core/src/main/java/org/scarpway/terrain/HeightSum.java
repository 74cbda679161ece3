package org.scarpway.terrain;

import java.util.Map;
import java.util.TreeMap;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * A linear combination of the heights about a cell, such as a gradient, a curvature or the height
 * of a wheel. If the height errors are normal, so is its error, and its variance is exactly the
 * double sum of weights times covariance.
 */
public final class HeightSum {
  /** Returns the gradient over 3 x 3 cells towards east or north. */
  static HeightSum gradient(SlopeMethod method, boolean east, double cellM) {
    double middle = method == SlopeMethod.HORN ? 2 : 1;
    double corner = method == SlopeMethod.ZEVENBERGEN_THORNE ? 0 : 1;
    HeightSum sum = new HeightSum();
    for (int side = -1; side <= 1; side++) {
      double w = (side == 0 ? middle : corner) / (2 * cellM * (middle + 2 * corner));
      if (east) {
        sum.add(side, 1, w).add(side, -1, -w);
      } else {
        sum.add(-1, side, w).add(1, side, -w);
      }
    }
    return sum;
  }

  private final Map<Cell, Double> weights = new TreeMap<>();

  private record Cell(int row, int col) implements Comparable<Cell> {
    @Override
    public int compareTo(Cell other) {
      return row == other.row ? Integer.compare(col, other.col) : Integer.compare(row, other.row);
    }
  }

  /** Adds a height at an offset of rows (south) and columns (east) from the cell. */
  public HeightSum add(int row, int col, double weight) {
    if (weight != 0) {
      weights.merge(new Cell(row, col), weight, Double::sum);
    }
    return this;
  }

  /** Adds a multiple of another sum. */
  public HeightSum add(HeightSum other, double times) {
    return add(other, times, 0, 0);
  }

  /** Adds a multiple of another sum, shifted by rows (south) and columns (east). */
  public HeightSum add(HeightSum other, double times, int rows, int cols) {
    other.weights.forEach((c, w) -> add(c.row + rows, c.col + cols, times * w));
    return this;
  }

  /** Standard deviation of the sum, in its own unit. */
  public double sigma(HeightError error, double cellXM, double cellYM) {
    int n = weights.size();
    double[] eastM = new double[n];
    double[] southM = new double[n];
    double[] weight = new double[n];
    int i = 0;
    for (Map.Entry<Cell, Double> e : weights.entrySet()) {
      eastM[i] = e.getKey().col * cellXM;
      southM[i] = e.getKey().row * cellYM;
      weight[i++] = e.getValue();
    }
    double variance = 0;
    for (int a = 0; a < n; a++) {
      double others = 0;
      for (int b = 0; b < a; b++) {
        double same =
            HeightError.correlation(eastM[a] - eastM[b], southM[a] - southM[b], error.lengthM());
        others += weight[b] * same;
      }
      variance += weight[a] * (weight[a] + 2 * others);
    }
    return error.sigmaM() * Math.sqrt(Math.max(0, variance));
  }
}
