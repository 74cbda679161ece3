package org.scarpway.terrain;

import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.SlopeError.GradientSigma;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * What the error of the heights makes of a step: a cell's step is the largest of all that {@link
 * StepHeight} and {@link Breaks} look at about it, of either sign, so each of these may be the one
 * that is over the limit in truth (sum of the probabilities, Boole's inequality). Every one counts
 * as near to the limit as the largest that was measured.
 *
 * <p>A break is what a rise has more than the rise before and the rise beyond. The lower of the two
 * is what was measured, and the error of one of them bounds it. Every break counts whatever the
 * cells on the way do, so none that is over the limit in truth was measured as none; only of those
 * over two cells that are longer than the wheel spacing, what a {@link GroundLaw} explains does not
 * count, in the measured ground as in any other.
 *
 * @param planes cells that are compared with the plane
 * @param planeSigmaM of a height off the plane, for the cell where it is largest; for footprints of
 *     more than 3 x 3 cells at most that of the difference and that of the plane together
 * @param pairSigmaM of a break between neighbours, on the axis where it is largest
 * @param twoSigmaM the same of one over two cells
 */
public record StepError(int planes, double planeSigmaM, double pairSigmaM, double twoSigmaM) {
  /** Breaks that a cell is part of: between neighbours two on each axis, over two cells three. */
  private static final int PAIRS = 2 * GroundLaw.AXES.length;

  private static final int TWOS = 3 * GroundLaw.AXES.length;

  static StepError of(
      TerrainParams params, Footprint footprint, HeightError heights, GridSpec spec) {
    double x = spec.cellXM();
    double y = spec.cellYM();
    boolean small = footprint.equals(Footprint.SMALLEST);
    HeightSum east = HeightSum.gradient(SlopeMethod.EVANS_YOUNG, true, x);
    HeightSum north = HeightSum.gradient(SlopeMethod.EVANS_YOUNG, false, y);
    GradientSigma plane =
        SlopeError.gradientSigma(
            SlopeMethod.FOOTPRINT_PLANE, footprint, x, y, heights.sigmaM(), heights.lengthM());
    double most = 0;
    int[] cells = StepHeight.neighbours(params.wheelSpacingM(), x, y);
    for (int k = 0; k < cells.length; k += 2) {
      double eastM = cells[k] * x;
      double northM = -cells[k + 1] * y;
      HeightSum off = new HeightSum().add(cells[k + 1], cells[k], 1).add(0, 0, -1);
      if (small) {
        off.add(east, -eastM).add(north, -northM);
      }
      double sigma = off.sigma(heights, x, y);
      if (!small) {
        sigma += Math.abs(eastM) * plane.east() + Math.abs(northM) * plane.north();
      }
      most = Math.max(most, sigma);
    }
    double pair = 0;
    double two = 0;
    for (int[] axis : GroundLaw.AXES) {
      HeightSum overOne = new HeightSum();
      overOne.add(-axis[0], -axis[1], 1).add(0, 0, -2).add(axis[0], axis[1], 1);
      HeightSum overTwo = new HeightSum();
      overTwo.add(-axis[0], -axis[1], 2).add(0, 0, -3).add(2 * axis[0], 2 * axis[1], 1);
      pair = Math.max(pair, overOne.sigma(heights, x, y));
      two = Math.max(two, overTwo.sigma(heights, x, y));
    }
    return new StepError(cells.length / 2, most, pair, two);
  }

  /**
   * Probability, from above, that a step is over a limit.
   *
   * @param leftM of the limit above what was measured
   */
  public double broken(double leftM) {
    double sum =
        2 * planes * NormalTail.above(leftM / planeSigmaM)
            + 2 * PAIRS * NormalTail.above(leftM / pairSigmaM)
            + 2 * TWOS * NormalTail.above(leftM / twoSigmaM);
    return Math.min(1, sum);
  }

  /** What must be left of a limit so that it is broken with no more than a probability. */
  public double allowanceM(double tail) {
    double low = 0;
    double high = 10 * Math.max(twoSigmaM, Math.max(planeSigmaM, pairSigmaM));
    for (int i = 0; i < 60; i++) {
      double middle = (low + high) / 2;
      if (broken(middle) <= tail) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return high;
  }
}
