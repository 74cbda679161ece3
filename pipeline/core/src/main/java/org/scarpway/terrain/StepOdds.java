package org.scarpway.terrain;

import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * Upper bound on the probability that a step about a cell truly exceeds a limit, from the heights
 * about the cell: the sum of the probabilities of all differences that {@link StepHeight} and
 * {@link Breaks} evaluate (Boole's inequality). A break exceeds the limit only if both of its
 * differences do; their errors are jointly normal, with the correlation caused by the shared
 * heights. {@link StepError} is the coarser bound from the largest step alone, without the heights,
 * and is never lower.
 */
public final class StepOdds {
  private static final double NEGLIGIBLE = 1e-9;
  private static final int AXES = GroundLaw.AXES.length;

  // Nodes and weights of the Gauss-Legendre rule of twelve points on [-1, 1] (Abramowitz and Stegun
  // 1964, table 25.4), one half.
  private static final double[] NODE = {
    0.1252334085114689, 0.3678314989981802, 0.5873179542866175,
    0.7699026741943047, 0.9041172563704749, 0.981560634246719
  };
  private static final double[] WEIGHT = {
    0.2491470458134028, 0.2334925365383548, 0.2031674267230659,
    0.1600783285433462, 0.1069393259953184, 0.0471753363865118
  };

  private final double cellXM;
  private final double cellYM;
  private final Footprint footprint;

  /** Sums of squared column and row offsets over the footprint. */
  private final double sumX;

  private final double sumY;

  /** Column and row offsets of the cells that are compared with the plane, in pairs. */
  private final int[] cells;

  private final double[] planeSigmaM;
  private final double[] pairSigmaM = new double[AXES];
  private final double[] pairCorrelation = new double[AXES];
  private final double[] twoSigmaM = new double[AXES];
  private final double[] twoCorrelation = new double[AXES];

  private StepOdds(TerrainParams params, Footprint footprint, HeightError heights, GridSpec spec) {
    this.footprint = footprint;
    cellXM = spec.cellXM();
    cellYM = spec.cellYM();
    double squaresX = 0;
    double squaresY = 0;
    for (int dy = -footprint.halfRows(); dy <= footprint.halfRows(); dy++) {
      for (int dx = -footprint.halfWidth(dy); dx <= footprint.halfWidth(dy); dx++) {
        squaresX += dx * dx;
        squaresY += dy * dy;
      }
    }
    sumX = squaresX;
    sumY = squaresY;
    cells = StepHeight.neighbours(params.wheelSpacingM(), cellXM, cellYM);
    planeSigmaM = new double[cells.length / 2];
    boolean small = footprint.equals(Footprint.SMALLEST);
    HeightSum east = HeightSum.gradient(SlopeMethod.EVANS_YOUNG, true, cellXM);
    HeightSum north = HeightSum.gradient(SlopeMethod.EVANS_YOUNG, false, cellYM);
    var plane =
        SlopeError.gradientSigma(
            SlopeMethod.FOOTPRINT_PLANE,
            footprint,
            cellXM,
            cellYM,
            heights.sigmaM(),
            heights.lengthM());
    for (int k = 0; k < planeSigmaM.length; k++) {
      double eastM = cells[2 * k] * cellXM;
      double northM = -cells[2 * k + 1] * cellYM;
      HeightSum off = new HeightSum().add(cells[2 * k + 1], cells[2 * k], 1).add(0, 0, -1);
      if (small) {
        off.add(east, -eastM).add(north, -northM);
      }
      double sigma = off.sigma(heights, cellXM, cellYM);
      planeSigmaM[k] =
          small ? sigma : sigma + Math.abs(eastM) * plane.east() + Math.abs(northM) * plane.north();
    }
    for (int a = 0; a < AXES; a++) {
      int down = GroundLaw.AXES[a][0];
      int right = GroundLaw.AXES[a][1];
      HeightSum first = line(down, right, -1, 1, -2, 1, 0);
      HeightSum second = line(down, right, -1, 0, -1, 2, -1);
      pairSigmaM[a] = first.sigma(heights, cellXM, cellYM);
      pairCorrelation[a] = correlation(first, second, heights);
      first = line(down, right, -2, 2, -3, 0, 1, 0);
      second = line(down, right, -2, 0, -1, 0, 3, -2);
      twoSigmaM[a] = first.sigma(heights, cellXM, cellYM);
      twoCorrelation[a] = correlation(first, second, heights);
    }
  }

  static StepOdds of(
      TerrainParams params, Footprint footprint, HeightError heights, GridSpec spec) {
    return new StepOdds(params, footprint, heights, spec);
  }

  private static HeightSum line(int down, int right, int from, double... weights) {
    HeightSum sum = new HeightSum();
    for (int i = 0; i < weights.length; i++) {
      sum.add((from + i) * down, (from + i) * right, weights[i]);
    }
    return sum;
  }

  private double correlation(HeightSum one, HeightSum other, HeightError heights) {
    double both = new HeightSum().add(one, 1).add(other, 1).sigma(heights, cellXM, cellYM);
    double apart = new HeightSum().add(one, 1).add(other, -1).sigma(heights, cellXM, cellYM);
    double square = one.sigma(heights, cellXM, cellYM) * other.sigma(heights, cellXM, cellYM);
    return square > 0 ? (both * both - apart * apart) / (4 * square) : 0;
  }

  /** Upper bound on the probability on level ground. */
  public double onFlat(double limitM) {
    if (!(limitM > 0)) {
      return 1;
    }
    double sum = 0;
    for (double sigma : planeSigmaM) {
      sum += off(0, limitM, sigma);
    }
    for (int a = 0; a < AXES; a++) {
      sum += 2 * broken(0, 0, limitM, pairSigmaM[a], pairCorrelation[a]);
      sum += 3 * broken(0, 0, limitM, twoSigmaM[a], twoCorrelation[a]);
    }
    return Math.min(1, sum);
  }

  /**
   * Upper bound on the probability that a step about a cell exceeds a limit. Breaks that use
   * heights beyond the edges are skipped, as in the measured steps; of those that use missing ones
   * the known difference decides.
   */
  public double broken(float[] z, int rows, int cols, int row, int col, double limitM) {
    if (!(limitM > 0)) {
      return 1;
    }
    double sum = planes(z, rows, cols, row, col, limitM);
    for (int a = 0; a < AXES && sum < 1; a++) {
      int down = GroundLaw.AXES[a][0];
      int right = GroundLaw.AXES[a][1];
      for (int p = -1; p <= 0; p++) {
        int r = row + p * down;
        int c = col + p * right;
        double before = at(z, rows, cols, r - down, c - right);
        double from = at(z, rows, cols, r, c);
        double to = at(z, rows, cols, r + down, c + right);
        double beyond = at(z, rows, cols, r + 2 * down, c + 2 * right);
        if (!holds(rows, cols, r - down, c - right)
            || !holds(rows, cols, r + 2 * down, c + 2 * right)) {
          continue;
        }
        double rise = to - from;
        sum +=
            broken(
                rise - (from - before),
                rise - (beyond - to),
                limitM,
                pairSigmaM[a],
                pairCorrelation[a]);
      }
      for (int p = -1; p <= 1; p++) {
        int r = row + p * down;
        int c = col + p * right;
        double before = at(z, rows, cols, r - 2 * down, c - 2 * right);
        double from = at(z, rows, cols, r - down, c - right);
        double to = at(z, rows, cols, r + down, c + right);
        double beyond = at(z, rows, cols, r + 2 * down, c + 2 * right);
        if (!holds(rows, cols, r - 2 * down, c - 2 * right)
            || !holds(rows, cols, r + 2 * down, c + 2 * right)) {
          continue;
        }
        double rise = to - from;
        sum +=
            broken(
                rise - 2 * (from - before),
                rise - 2 * (beyond - to),
                limitM,
                twoSigmaM[a],
                twoCorrelation[a]);
      }
    }
    return Math.min(1, sum);
  }

  private double planes(float[] z, int rows, int cols, int row, int col, double limitM) {
    double alongX = 0;
    double alongY = 0;
    for (int dy = -footprint.halfRows(); dy <= footprint.halfRows(); dy++) {
      for (int dx = -footprint.halfWidth(dy); dx <= footprint.halfWidth(dy); dx++) {
        double h = at(z, rows, cols, row + dy, col + dx);
        alongX += dx * h;
        alongY += dy * h;
      }
    }
    double perColM = alongX / sumX;
    double perRowM = alongY / sumY;
    double here = at(z, rows, cols, row, col);
    double sum = 0;
    for (int k = 0; k < planeSigmaM.length; k++) {
      int dx = cells[2 * k];
      int dy = cells[2 * k + 1];
      double rise = at(z, rows, cols, row + dy, col + dx) - here;
      double offM = rise - perColM * dx - perRowM * dy;
      sum += Double.isNaN(offM) ? 0 : off(offM, limitM, planeSigmaM[k]);
    }
    return sum;
  }

  private static boolean holds(int rows, int cols, int row, int col) {
    return row >= 0 && row < rows && col >= 0 && col < cols;
  }

  private static double at(float[] z, int rows, int cols, int row, int col) {
    return holds(rows, cols, row, col) ? z[row * cols + col] : Double.NaN;
  }

  private static double off(double offM, double limitM, double sigmaM) {
    return NormalTail.above((limitM - offM) / sigmaM) + NormalTail.above((limitM + offM) / sigmaM);
  }

  /**
   * Probability that two differences both exceed the limit upwards, or both downwards; of one alone
   * where the other is unknown, and 1 where both are.
   */
  private static double broken(
      double one, double other, double limitM, double sigmaM, double correlation) {
    if (Double.isNaN(one + other)) {
      double known = Double.isNaN(one) ? other : one;
      return Double.isNaN(known) ? 1 : off(known, limitM, sigmaM);
    }
    return bothAbove((limitM - one) / sigmaM, (limitM - other) / sigmaM, correlation)
        + bothAbove((limitM + one) / sigmaM, (limitM + other) / sigmaM, correlation);
  }

  /**
   * Probability that two standard normal values lie above h and k: Q(h) Q(k) + 1 / 2 pi times the
   * integral of exp(-(h2 + k2 - 2 h k sin t) / 2 cos2 t) from 0 to the arc sine of the correlation
   * (Drezner and Wesolowsky 1990, J. Statist. Comput. Simul. 35:101-107).
   */
  static double bothAbove(double h, double k, double correlation) {
    double one = NormalTail.above(h);
    double other = NormalTail.above(k);
    double least = Math.min(one, other);
    if (least < NEGLIGIBLE) {
      return least;
    }
    double half = Math.asin(Math.max(-1, Math.min(1, correlation))) / 2;
    double sum = 0;
    for (int i = 0; i < NODE.length; i++) {
      sum +=
          WEIGHT[i] * (density(h, k, half * (1 - NODE[i])) + density(h, k, half * (1 + NODE[i])));
    }
    return Math.max(0, Math.min(least, one * other + half * sum / (2 * Math.PI)));
  }

  private static double density(double h, double k, double angle) {
    double sine = Math.sin(angle);
    return Math.exp(-(h * h + k * k - 2 * h * k * sine) / (2 * (1 - sine * sine)));
  }
}
