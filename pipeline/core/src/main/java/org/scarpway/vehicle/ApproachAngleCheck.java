package org.scarpway.vehicle;

import static org.scarpway.vehicle.LimitUse.BLOCKED;

import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;

/**
 * Check of the approach and departure angles where the cells do not resolve the vehicle: the break
 * in slope towards the cell ahead is treated as a sharp trough that both overhangs must clear.
 */
final class ApproachAngleCheck {
  private final double allowed;
  private final double sigma;

  /** Allowed break less the allowance for height error; negative if the allowance exceeds it. */
  private final double trough;

  private final int rows;
  private final int cols;
  private final float[] gradEast;
  private final float[] gradNorth;
  private final double[] east = new double[Headings.COUNT];
  private final double[] north = new double[Headings.COUNT];
  private final int[] aheadCol = new int[Headings.COUNT];
  private final int[] aheadRow = new int[Headings.COUNT];

  /**
   * @param allowed tangent of the smaller of approach and departure angle
   */
  ApproachAngleCheck(
      double allowed, GridSpec spec, float[] gradEast, float[] gradNorth, Allowances allowances) {
    this.allowed = allowed;
    this.sigma = allowances.troughSigma;
    this.trough = allowed - allowances.z * sigma;
    rows = spec.rows();
    cols = spec.cols();
    this.gradEast = gradEast;
    this.gradNorth = gradNorth;
    Headings headings = Headings.of(spec);
    for (int k = 0; k < Headings.COUNT; k++) {
      east[k] = headings.east(k);
      north[k] = headings.north(k);
      aheadCol[k] = (int) Math.round(Headings.dCol(k) / 4.0);
      aheadRow[k] = (int) Math.round(Headings.dRow(k) / 4.0);
    }
  }

  /**
   * Use of the angle by the break ahead; 0 if there is no break, or a void or the grid edge ahead.
   */
  double use(int row, int col, int heading, double grade) {
    int r = row + aheadRow[heading];
    int c = col + aheadCol[heading];
    if (r < 0 || c < 0 || r >= rows || c >= cols) {
      return 0;
    }
    if (trough < 0) {
      return BLOCKED;
    }
    int ahead = r * cols + c;
    double next = gradEast[ahead] * east[heading] + gradNorth[ahead] * north[heading];
    if (!(next > grade)) {
      return 0;
    }
    double cosine = 1 + next * grade;
    return cosine <= 0 ? BLOCKED : (next - grade) / cosine / trough;
  }

  /** Upper bound on the probability that the break on a heading is too sharp. */
  double broken(int row, int col, int heading, double grade) {
    if (allowed == Double.POSITIVE_INFINITY) {
      return 0;
    }
    return trough > 0
        ? Allowances.broken(use(row, col, heading, grade) * trough, allowed, sigma)
        : 1;
  }

  /** Upper bound on the use over all headings. */
  double mostUse(int row, int col) {
    if (trough == Double.POSITIVE_INFINITY) {
      return 0;
    }
    if (trough < 0) {
      return BLOCKED;
    }
    int here = row * cols + col;
    double ge = gradEast[here];
    double gn = gradNorth[here];
    double furthest = 0;
    double steepest = 0;
    for (int r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++) {
      for (int c = Math.max(0, col - 1); c <= Math.min(cols - 1, col + 1); c++) {
        double e = gradEast[r * cols + c];
        double n = gradNorth[r * cols + c];
        double apart = (e - ge) * (e - ge) + (n - gn) * (n - gn);
        // A void ahead is no break; NaN fails both comparisons.
        furthest = apart > furthest ? apart : furthest;
        steepest = e * e + n * n > steepest ? e * e + n * n : steepest;
      }
    }
    double cosine = 1 - Math.sqrt(steepest * (ge * ge + gn * gn));
    return cosine <= 0 ? BLOCKED : Math.sqrt(furthest) / cosine / trough * LimitUse.FULL;
  }
}
