package org.scarpway.vehicle;

import java.util.Arrays;

/**
 * Static tip-over of a rigid vehicle on a plane. The vehicle is stable while the vertical through
 * its centre of gravity meets the ground inside the support polygon, the convex hull of the points
 * where the wheels stand. Axles may have different tracks; wheels inside the hull do not widen it.
 *
 * <p>On a slope whose fall line makes angle psi with the heading the vertical moves h tan S cos psi
 * along and h tan S sin psi across (h height of the centre of gravity): plane statics. With one
 * track T the side limit is atan(T / 2h) for psi = 90 deg, T / 2h the static stability factor.
 */
public final class TipOver {
  /** No limit. */
  static final TipOver NEVER =
      new TipOver(
          Double.POSITIVE_INFINITY,
          Double.POSITIVE_INFINITY,
          Double.POSITIVE_INFINITY,
          new double[] {Double.POSITIVE_INFINITY},
          new double[1]);

  /** Grades at which the vehicle tips backwards over its last axle and forwards over its first. */
  final double up;

  final double down;

  /** Cross grade beyond which it tips on any grade. */
  final double widest;

  /**
   * Edges of the polygon along one side, front to rear: on grade g the vehicle tips over edge i at
   * the cross grade side[i] - skew[i] g.
   */
  private final double[] side;

  private final double[] skew;

  private TipOver(double up, double down, double widest, double[] side, double[] skew) {
    this.up = up;
    this.down = down;
    this.widest = widest;
    this.side = side;
    this.skew = skew;
  }

  /**
   * @param cgHeightM height of the centre of gravity above the ground, above 0
   */
  public static TipOver of(Vehicle.Wheels wheels, double cgHeightM) {
    int axles = wheels.axlesM().size();
    double[] x = new double[axles];
    double[] y = new double[axles];
    int n = 0;
    // Hull of the wheels of one side; the other side mirrors it.
    for (int i = 0; i < axles; i++) {
      double xi = wheels.axlesM().get(i);
      double yi = wheels.tracksM().get(i) / 2;
      while (n > 1
          && (x[n - 1] - x[n - 2]) * (yi - y[n - 2]) <= (y[n - 1] - y[n - 2]) * (xi - x[n - 2])) {
        n--;
      }
      x[n] = xi;
      y[n++] = yi;
    }
    double[] side = new double[n - 1];
    double[] skew = new double[n - 1];
    for (int i = 0; i + 1 < n; i++) {
      skew[i] = (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
      side[i] = (y[i] - skew[i] * x[i]) / cgHeightM;
    }
    double widest = Arrays.stream(y, 0, n).max().orElseThrow();
    return new TipOver(-x[n - 1] / cgHeightM, x[0] / cgHeightM, widest / cgHeightM, side, skew);
  }

  boolean known() {
    return up < Double.POSITIVE_INFINITY;
  }

  /** True if the tipping cross grade depends on the grade, as with axles of different tracks. */
  boolean skewed() {
    return side.length > 1 || skew[0] != 0;
  }

  int edges() {
    return side.length;
  }

  /**
   * Cross grade that tips over an edge on grade 0, and on every grade if the polygon is not skewed.
   */
  double side(int edge) {
    return side[edge];
  }

  /** Decrease of that cross grade per unit of uphill grade. */
  double skew(int edge) {
    return skew[edge];
  }

  /**
   * Use of the tip-over limit: a slope of this grade and cross grade divided by the tipping slope
   * on its heading.
   */
  double use(double grade, double cross) {
    return Math.max(grade >= 0 ? grade / up : -grade / down, sideUse(grade, cross));
  }

  /** Tipping slope (rise over run) on the heading on which it is smallest. */
  double least() {
    return 1 / Math.max(mostSideUse(1), Math.max(1 / up, 1 / down));
  }

  /** Like {@link #use}, for tipping sideways only. */
  double sideUse(double grade, double cross) {
    double across = Math.abs(cross);
    double most = 0;
    for (int i = 0; i < side.length; i++) {
      most = Math.max(most, (across + skew[i] * grade) / side[i]);
    }
    return most;
  }

  /** Largest {@link #sideUse} of a slope of rise over run t on any heading. */
  double mostSideUse(double t) {
    double most = 0;
    for (int i = 0; i < side.length; i++) {
      most = Math.max(most, t * Math.sqrt(1 + skew[i] * skew[i]) / side[i]);
    }
    return most;
  }

  /**
   * Largest safe cross grade: it tips on no grade up to t, with the whole polygon scaled by a
   * share.
   */
  double leastSide(double t, double share) {
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < side.length; i++) {
      least = Math.min(least, side[i] * share - Math.abs(skew[i]) * t);
    }
    return Math.max(0, least);
  }

  /**
   * Slope (deg) at which the vehicle tips.
   *
   * @param psiDeg angle between heading and uphill
   */
  public double slopeDeg(double psiDeg) {
    double along = Math.cos(Math.toRadians(psiDeg));
    double across = Math.sin(Math.toRadians(psiDeg));
    return SlopeGeometry.deg(1 / use(along, across));
  }

  /**
   * Usable share of the tipping grade when the slope must stay a margin below the tipping slope:
   * tan S / tan(S + margin). It is the same for every heading, so the margin scales the polygon as
   * a whole.
   *
   * @param tanSlope rise over run of the slope, 0 or more
   * @param tanMargin tangent of the margin angle, 0 or more
   * @return 0 to 1; 0 where slope plus margin reach a right angle
   */
  static double usableShare(double tanSlope, double tanMargin) {
    if (tanMargin == 0) {
      return 1;
    }
    return Math.max(0, tanSlope * (1 - tanSlope * tanMargin) / (tanSlope + tanMargin));
  }
}
