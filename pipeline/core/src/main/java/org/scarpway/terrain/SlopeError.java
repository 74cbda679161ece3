package org.scarpway.terrain;

import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * First-order error propagation from the heights to slope and aspect, in closed form.
 *
 * <p>A gradient is a linear combination of heights, so its variance is the double sum of weights
 * times covariance. Independent errors on square cells give sigma / cell times 1/sqrt 2
 * (Zevenbergen-Thorne), sqrt 3 / 4 (Horn), 1/sqrt 6 (Evans-Young); correlated errors here follow
 * exp(-distance / length). Sources: Heuvelink 1998, <i>Error Propagation in Environmental Modelling
 * with GIS</i>, Taylor &amp; Francis; Hunter G.J. and Goodchild M.F. 1997, <i>Modeling the
 * uncertainty of slope and aspect estimates derived from spatial databases</i>, Geogr. Analysis
 * 29(1):35-49; Oksanen J. and Sarjakoski T. 2005, Computers and Geosciences 31(8):1015-1027. A
 * correlation length of about one cell gives a larger error than independent errors, a long one a
 * smaller error. The first order fails where the slope is about as large as its error: the result
 * is 3 % too high where the slope is three times its error, 29 % where both are equal, 53 % on
 * level ground; see {@link RiceGradient}.
 */
public final class SlopeError {
  /** Standard deviation of a uniformly distributed direction: 180 / sqrt 3. */
  static final double UNKNOWN_ASPECT_DEG = 103.92304845413264;

  private SlopeError() {}

  /** One-sigma errors of the gradient towards east and north (rise over run), independent. */
  public record GradientSigma(double east, double north) {
    /** Their root mean square, for use where a single value is needed. */
    public double mean() {
      return Math.sqrt((east * east + north * north) / 2);
    }
  }

  /**
   * @param footprint used for {@link SlopeMethod#FOOTPRINT_PLANE} only
   * @param heightSigmaM one-sigma error of a height (m)
   * @param correlationLengthM correlation length (m), null for independent errors
   */
  public static GradientSigma gradientSigma(
      SlopeMethod method,
      Footprint footprint,
      double cellXM,
      double cellYM,
      double heightSigmaM,
      Double correlationLengthM) {
    double length = correlationLengthM == null ? 0 : correlationLengthM;
    double[] sides =
        switch (method) {
          case HORN -> new double[] {1, 2, 1};
          case ZEVENBERGEN_THORNE -> new double[] {0, 1, 0};
          case EVANS_YOUNG -> new double[] {1, 1, 1};
          case FOOTPRINT_PLANE -> null;
        };
    if (sides == null) {
      Footprint turned =
          new Footprint(footprint.halfRows(), footprint.halfCols(), footprint.halfDiagonal());
      return new GradientSigma(
          heightSigmaM * planeFactor(footprint, cellXM, cellYM, length) / cellXM,
          heightSigmaM * planeFactor(turned, cellYM, cellXM, length) / cellYM);
    }
    return new GradientSigma(
        heightSigmaM * differenceFactor(sides, cellXM, cellYM, length) / cellXM,
        heightSigmaM * differenceFactor(sides, cellYM, cellXM, length) / cellYM);
  }

  /** First-order error (deg) of a slope; on level ground the limit for slopes towards 0. */
  public static double slopeSigmaDeg(double east, double north, GradientSigma sigma) {
    double g2 = east * east + north * north;
    double along =
        g2 > 0
            ? Math.sqrt(
                (east * east * sigma.east * sigma.east + north * north * sigma.north * sigma.north)
                    / g2)
            : sigma.mean();
    return Math.toDegrees(along / (1 + g2));
  }

  /** First-order error (deg) of an aspect; infinite on level ground. */
  public static double aspectSigmaDeg(double east, double north, GradientSigma sigma) {
    double g2 = east * east + north * north;
    double a = north * sigma.east;
    double b = east * sigma.north;
    return g2 > 0 ? Math.toDegrees(Math.sqrt(a * a + b * b) / g2) : Double.POSITIVE_INFINITY;
  }

  /**
   * Computes {@link #slopeSigmaDeg} and {@link #aspectSigmaDeg} per cell, NaN where the gradient is
   * NaN. The aspect error is capped at {@value #UNKNOWN_ASPECT_DEG} deg, the standard deviation of
   * a uniform direction; it is NaN on level ground.
   */
  public static void fill(
      float[] gradEast,
      float[] gradNorth,
      int cols,
      int fromRow,
      int toRow,
      GradientSigma sigma,
      float[] slopeSigmaDeg,
      float[] aspectSigmaDeg) {
    for (int i = fromRow * cols; i < toRow * cols; i++) {
      double east = gradEast[i];
      double north = gradNorth[i];
      boolean known = !Double.isNaN(east + north);
      boolean level = east == 0 && north == 0;
      slopeSigmaDeg[i] = known ? (float) slopeSigmaDeg(east, north, sigma) : Float.NaN;
      aspectSigmaDeg[i] =
          known && !level
              ? (float) Math.min(UNKNOWN_ASPECT_DEG, aspectSigmaDeg(east, north, sigma))
              : Float.NaN;
    }
  }

  /** Standard deviation of (sum of the ahead column - sum of the behind column) / (2 sum sides). */
  private static double differenceFactor(
      double[] sides, double alongM, double acrossM, double lengthM) {
    double total = sides[0] + sides[1] + sides[2];
    double variance = 0;
    for (int a = 0; a < 3; a++) {
      for (int b = 0; b < 3; b++) {
        double across = (a - b) * acrossM;
        double same = HeightError.correlation(0, across, lengthM);
        double opposite = HeightError.correlation(2 * alongM, across, lengthM);
        variance += 2 * sides[a] * sides[b] * (same - opposite);
      }
    }
    return Math.sqrt(variance) / (2 * total);
  }

  /**
   * Standard deviation of sum(dx z) / sum dx2 over a footprint, by the autocorrelation of its
   * weights.
   */
  private static double planeFactor(
      Footprint footprint, double alongM, double acrossM, double lengthM) {
    double sumDx2 = footprint.sumDx2();
    if (lengthM == 0) {
      return 1 / Math.sqrt(sumDx2);
    }
    double variance = 0;
    for (int ly = 0; ly <= 2 * footprint.halfRows(); ly++) {
      for (int lx = 0; lx <= 2 * footprint.halfCols(); lx++) {
        int mirrored = (lx == 0 ? 1 : 2) * (ly == 0 ? 1 : 2);
        variance +=
            mirrored
                * overlap(footprint, lx, ly)
                * HeightError.correlation(lx * alongM, ly * acrossM, lengthM);
      }
    }
    return Math.sqrt(variance) / sumDx2;
  }

  /** Sum of x (x + lx) over the cells (x, y) that stay in the footprint when moved by (lx, ly). */
  private static double overlap(Footprint footprint, int lx, int ly) {
    double sum = 0;
    for (int y = -footprint.halfRows(); y + ly <= footprint.halfRows(); y++) {
      long from = Math.max(-footprint.halfWidth(y), -footprint.halfWidth(y + ly) - lx);
      long to = Math.min(footprint.halfWidth(y), footprint.halfWidth(y + ly) - lx);
      if (from <= to) {
        sum += squaresTo(to) - squaresTo(from - 1);
        sum += lx * ((to * (to + 1) - from * (from - 1)) / 2.0);
      }
    }
    return sum;
  }

  /** 1 + 4 + ... + n2, continued to negative n so that differences stay right. */
  private static double squaresTo(long n) {
    return n * (n + 1) * (2 * n + 1) / 6.0;
  }
}
