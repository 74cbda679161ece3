package org.scarpway.vehicle;

/**
 * Probability that the slope limits of a heading are exceeded, given the measured grade and cross
 * grade and normal errors of both. The limits form a box in grade and cross grade. The
 * probabilities of its four sides are added as if no two were exceeded at once: this is exact for
 * one side and, at a corner, too high by the probability of both, whatever the correlation of the
 * two errors. The tip-over polygon less its margin is not a box; it is replaced by the largest
 * inscribed box of its shape. The probability of exceeding the friction circle is added ({@link
 * CircleOdds}).
 */
final class GradientOdds {
  private static final int ALONG_SIDE = 32;
  private static final int HALVINGS = 40;
  private static final int HALF_TURN = 180;

  /** Steepest slope considered, rise over run. */
  private static final double STEEPEST = 10;

  /** The box: its sides as bounds on rise over run. */
  final double up;

  final double down;
  final double side;

  /** Amount by which each side of the box is tightened if two limits must hold together. */
  final double alongAllowance;

  final double acrossAllowance;

  /** Null if nothing limits the thrust. */
  private final CircleOdds circle;

  /** True if this side is the traction limit, which the circle already includes. */
  private final boolean upInCircle;

  private final boolean downInCircle;

  private final double alongSigma;
  private final double acrossSigma;
  private final double tail;
  private final double z;

  /** Steepest slope (rise over run) on which the limits hold on every heading. */
  final double everyHeading;

  /**
   * @param up steepest grade uphill that the limits on grade alone allow
   * @param alongSigma standard deviation of the grade, above 0
   * @param acrossSigma standard deviation of the cross grade, above 0
   */
  GradientOdds(
      MoveLimits limits,
      double up,
      double down,
      Allowances allowances,
      double alongSigma,
      double acrossSigma) {
    this.alongSigma = alongSigma;
    this.acrossSigma = acrossSigma;
    tail = allowances.tail;
    z = allowances.z;
    alongAllowance = allowances.zBoth * alongSigma;
    acrossAllowance = allowances.zBoth * acrossSigma;
    double share = limits.tip.known() ? shareInside(limits, up, down) : 1;
    this.up = limits.tip.known() ? Math.min(up, share * limits.tip.up) : up;
    this.down = limits.tip.known() ? Math.min(down, share * limits.tip.down) : down;
    this.side =
        limits.tip.known()
            ? Math.min(limits.side, share * limits.tip.leastSide(0, 1))
            : limits.side;
    circle =
        limits.circle == FrictionCircle.NONE
            ? null
            : new CircleOdds(
                limits.circle, limits.tractionUp, limits.tractionDown, alongSigma, acrossSigma);
    upInCircle = circle != null && this.up >= limits.tractionUp;
    downInCircle = circle != null && this.down >= limits.tractionDown;
    everyHeading = everyHeading();
  }

  /** Slope from which the box alone no longer describes what the confidence allows. */
  double circleFrom() {
    return circle == null ? Double.POSITIVE_INFINITY : Math.max(everyHeading, circle.near);
  }

  private double everyHeading() {
    double low = -1;
    double high = STEEPEST;
    for (int i = 0; i < HALVINGS; i++) {
      double t = i == 0 ? 0 : (low + high) / 2;
      double most = 0;
      for (int a = 0; a <= HALF_TURN; a++) {
        most = Math.max(most, onSlope(t, Math.toRadians(a)));
      }
      if (most <= tail) {
        low = t;
      } else {
        high = t;
      }
    }
    return low;
  }

  private double onSlope(double t, double psi) {
    return broken(t * Math.cos(psi), t * Math.sin(psi));
  }

  /** Upper bound on the probability that some limit is exceeded; at most 1. */
  double broken(double grade, double cross) {
    return Math.min(
        1,
        (upInCircle ? 0 : Allowances.broken(grade, up, alongSigma))
            + (downInCircle ? 0 : Allowances.broken(-grade, down, alongSigma))
            + (circle == null ? 0 : circle.broken(grade, cross))
            + Allowances.broken(cross, side, acrossSigma)
            + Allowances.broken(-cross, side, acrossSigma));
  }

  /**
   * True if the allowance for a single limit already closes every heading of a slope, so that the
   * joint limits do as well.
   */
  boolean shuts(double t) {
    double across = side - z * acrossSigma;
    return across < 0
        || !HeadingWindow.open(
            t,
            -(down - z * alongSigma) * LimitUse.FULL,
            (up - z * alongSigma) * LimitUse.FULL,
            across * LimitUse.FULL);
  }

  boolean holds(double grade, double cross) {
    return broken(grade, cross) <= tail;
  }

  /**
   * Largest scale of the tip-over bounds at which the box stays inside the polygon less its margin.
   */
  private static double shareInside(MoveLimits limits, double up, double down) {
    TipOver tip = limits.tip;
    double low = 0;
    double high = 1;
    for (int i = 0; i < HALVINGS; i++) {
      double share = i == 0 ? 1 : (low + high) / 2;
      double u = Math.max(0, Math.min(up, share * tip.up));
      double d = Math.max(0, Math.min(down, share * tip.down));
      double s = Math.min(limits.side, share * tip.leastSide(0, 1));
      if (inside(limits, u, d, s)) {
        low = share;
      } else {
        high = share;
      }
      if (low == 1) {
        break;
      }
    }
    return low;
  }

  private static boolean inside(MoveLimits limits, double u, double d, double s) {
    boolean inside = true;
    for (int i = 0; i <= ALONG_SIDE; i++) {
      double across = s * i / ALONG_SIDE;
      double along = -d + (u + d) * i / ALONG_SIDE;
      inside &= stands(limits, u, across) && stands(limits, -d, across) && stands(limits, along, s);
    }
    return inside;
  }

  private static boolean stands(MoveLimits limits, double grade, double cross) {
    double t = Math.sqrt(grade * grade + cross * cross);
    return limits.tip.use(grade, cross) <= TipOver.usableShare(t, limits.tipMargin) * LimitUse.FULL;
  }
}
