package org.scarpway.vehicle;

/**
 * How likely the limits on the slope of a heading are broken, with grade and cross grade as
 * measured and normal errors of both. The limits are a box in grade and cross grade. Its four sides
 * count as if no two were broken at once: exact for one side, at a corner too high by the product
 * of two probabilities, whatever the correlation of the two errors. The tip-over polygon less its
 * margin is no box; the largest box of its shape inside it stands for it. What the friction circle
 * takes comes on top ({@link CircleOdds}).
 */
final class GradientOdds {
  private static final int ALONG_SIDE = 32;
  private static final int HALVINGS = 40;
  private static final int HALF_TURN = 180;

  /** No slope is steeper, rise over run. */
  private static final double STEEPEST = 10;

  /** The box: its sides as bounds on rise over run. */
  final double up;

  final double down;
  final double side;

  /** What each side loses where two must hold together. */
  final double alongAllowance;

  final double acrossAllowance;

  /** Null where nothing limits the thrust. */
  private final CircleOdds circle;

  /** Whether a side is that of traction, which the circle holds in it. */
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
   * @param alongSigma one sigma of the grade, above 0
   * @param acrossSigma of the cross grade, above 0
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

  /** Slope from which on the box does not tell what the confidence allows. */
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

  /** Probability that some limit is broken, from above; at most 1. */
  double broken(double grade, double cross) {
    return Math.min(
        1,
        (upInCircle ? 0 : Allowances.broken(grade, up, alongSigma))
            + (downInCircle ? 0 : Allowances.broken(-grade, down, alongSigma))
            + (circle == null ? 0 : circle.broken(grade, cross))
            + Allowances.broken(cross, side, acrossSigma)
            + Allowances.broken(-cross, side, acrossSigma));
  }

  /** Whether each limit by itself shuts every heading of a slope, and so together they do. */
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

  /** Largest share of the tipping bounds that keeps the box within what the margin leaves. */
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
