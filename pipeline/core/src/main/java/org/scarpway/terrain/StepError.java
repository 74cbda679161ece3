package org.scarpway.terrain;

import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.SlopeError.GradientSigma;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * Propagates the height error to steps. A cell's step is the maximum of all height differences that
 * {@link StepHeight} and {@link Breaks} evaluate about it, of either sign, so any of these may
 * truly exceed the limit. Their probabilities are added (Boole's inequality), and each is assumed
 * to be as near to the limit as the largest measured one.
 *
 * <p>A break is the excess of a rise over the rise before and the rise beyond. The measured value
 * is the smaller of the two excesses, and the error of one of them bounds its error. Every break is
 * included whatever the cells between do, so no break that truly exceeds the limit is measured as
 * none. The only exception are breaks over two cells longer than the wheel spacing: what a {@link
 * GroundLaw} explains is excluded, on measured ground as on any other.
 *
 * @param planes number of cells compared with the plane
 * @param planeSigmaM standard deviation (m) of a height relative to the plane, for the cell where
 *     it is largest; for footprints of more than 3 x 3 cells the sum of those of the difference and
 *     of the plane, an upper bound
 * @param pairSigmaM standard deviation (m) of a break between neighbours, on the axis where it is
 *     largest
 * @param twoSigmaM standard deviation (m) of a break over two cells, likewise
 */
public record StepError(int planes, double planeSigmaM, double pairSigmaM, double twoSigmaM) {
  /**
   * Number of breaks that a cell is part of: two per axis between neighbours, three over two cells.
   */
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
   * Upper bound on the probability that a step exceeds a limit.
   *
   * @param leftM limit less the measured step (m)
   */
  public double broken(double leftM) {
    double sum =
        2 * planes * NormalTail.above(leftM / planeSigmaM)
            + 2 * PAIRS * NormalTail.above(leftM / pairSigmaM)
            + 2 * TWOS * NormalTail.above(leftM / twoSigmaM);
    return Math.min(1, sum);
  }

  /** Margin (m) to a limit at which the probability of exceeding it is at most the given one. */
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
