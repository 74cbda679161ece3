package org.scarpway.vehicle;

/**
 * The limits that depend on the gradient alone, at one slope: bounds on the uphill grade, the
 * downhill grade and the cross grade, and the limit that sets each bound. Stores the last slope;
 * use one instance per thread.
 */
final class SlopeBounds {
  private final MoveLimits limits;
  private final TipOver tip;
  private final double freeUp;
  private final double freeDown;
  private final Limit freeUpLimit;
  private final Limit freeDownLimit;

  /**
   * True if the tipping cross grade depends on the grade. The bounds are then a rectangle inside
   * the allowed region, and only {@link #use} is exact.
   */
  final boolean skewed;

  double up;
  double down;
  double side;
  Limit upLimit;
  Limit downLimit;
  Limit sideLimit;

  /** Share of the tip-over limit that remains after its margin at the slope. */
  private double usable;

  /**
   * Probability model of the limits; null if heights are used as measured. If present, the bounds
   * are a box that satisfies the confidence wherever two limits are near, and only {@link #use} is
   * exact.
   */
  final GradientOdds odds;

  /**
   * True if windows between headings may be derived from the bounds. Where the friction circle may
   * fail the confidence they may not, and only {@link #use} is exact.
   */
  boolean windows = true;

  private final double freeSide;
  private final Limit freeSideLimit;

  private final SkewedWindow window;

  /** Creates bounds for heights used as measured. */
  SlopeBounds(MoveLimits limits) {
    this(limits, Allowances.NONE, 0, 0);
  }

  /**
   * @param alongSigma standard deviation of the grade
   * @param acrossSigma standard deviation of the cross grade
   */
  SlopeBounds(MoveLimits limits, Allowances allowances, double alongSigma, double acrossSigma) {
    this.limits = limits;
    tip = limits.tip;
    skewed = tip.skewed();
    window = skewed ? new SkewedWindow(tip) : null;
    double steepest = limits.climb;
    Limit which = Limit.CLIMB;
    if (limits.tractionUp < steepest) {
      steepest = limits.tractionUp;
      which = Limit.TRACTION;
    }
    if (limits.power < steepest) {
      steepest = limits.power;
      which = Limit.POWER;
    }
    if (limits.stoppedUp < steepest) {
      steepest = limits.stoppedUp;
      which = Limit.SIGHT;
    }
    boolean slides = limits.tractionDown < limits.descend;
    double steepestDown = slides ? limits.tractionDown : limits.descend;
    odds =
        allowances.known && alongSigma > 0
            ? new GradientOdds(limits, steepest, steepestDown, allowances, alongSigma, acrossSigma)
            : null;
    boolean sure = odds == null;
    freeUp = sure ? steepest : odds.up - odds.alongAllowance;
    freeUpLimit = sure || odds.up >= steepest ? which : Limit.TIP;
    freeDown = sure ? steepestDown : odds.down - odds.alongAllowance;
    Limit rated = limits.stopped < limits.ratedDescend ? Limit.SIGHT : Limit.DESCEND;
    Limit descent = slides ? Limit.TRACTION : rated;
    freeDownLimit = sure || odds.down >= steepestDown ? descent : Limit.TIP;
    freeSide = sure ? limits.side : odds.side - odds.acrossAllowance;
    freeSideLimit = sure || odds.side >= limits.side ? Limit.SIDE : Limit.TIP;
    at(0);
  }

  /** Sets the bounds for a slope of rise over run {@code t}: the tip-over margin depends on it. */
  void at(double t) {
    up = freeUp;
    upLimit = freeUpLimit;
    down = freeDown;
    downLimit = freeDownLimit;
    side = freeSide;
    sideLimit = freeSideLimit;
    usable = 1;
    windows = odds == null || !(t > odds.circleFrom());
    if (side < 0) {
      // Not even a heading straight up or down satisfies the confidence.
      up = -1;
      down = -1;
      upLimit = sideLimit;
      downLimit = sideLimit;
      return;
    }
    double held = limits.circle.up(t);
    if (held < up) {
      up = held;
      upLimit = Limit.TRACTION;
    }
    if (!tip.known() || t == 0) {
      return;
    }
    usable = TipOver.usableShare(t, limits.tipMargin);
    if (tip.up * usable < up) {
      up = tip.up * usable;
      upLimit = Limit.TIP;
    }
    if (tip.down * usable < down) {
      down = tip.down * usable;
      downLimit = Limit.TIP;
    }
    double tipSide = skewed ? tip.leastSide(t, usable) : tip.side(0) * usable;
    if (tipSide < side) {
      side = tipSide;
      sideLimit = Limit.TIP;
    }
  }

  /** Largest use of the cross grade bound at slope t, whether or not one of the headings has it. */
  double worstAcross(double t) {
    return skewed
        ? Math.max(LimitUse.ratio(t, freeSide), LimitUse.ratio(tip.mostSideUse(t), usable))
        : LimitUse.ratio(t, side);
  }

  /** True if every bound is above zero, so that the use is simply the largest ratio. */
  boolean plain() {
    return freeUp > 0
        && freeDown > 0
        && freeSide > 0
        && tip.up > 0
        && tip.down > 0
        && tip.side(0) > 0
        && !skewed;
  }

  /**
   * Computes the largest use of the bounds at each of n grades and cross grades, equal to {@link
   * #at} and {@link #use} but capped at {@code most}.
   *
   * @param plain result of {@link #plain()}
   * @param sign 1, or -1 for the reverse heading
   */
  void fillUse(
      boolean plain, int sign, int n, double[] grade, double[] cross, double most, double[] use) {
    if (!plain) {
      for (int i = 0; i < n; i++) {
        at(Math.sqrt(grade[i] * grade[i] + cross[i] * cross[i]));
        use[i] = Math.min(most, use(sign * grade[i], sign * cross[i]));
      }
      return;
    }
    boolean ahead = sign > 0;
    double perUp = 1 / (ahead ? freeUp : freeDown);
    double perDown = 1 / (ahead ? freeDown : freeUp);
    RowLoops.use(n, grade, cross, perUp, perDown, 1 / freeSide, use);
    if (tip.known()) {
      double tipUp = 1 / (ahead ? tip.up : tip.down);
      double tipDown = 1 / (ahead ? tip.down : tip.up);
      RowLoops.raiseTip(
          n, grade, cross, tipUp, tipDown, 1 / tip.side(0), limits.tipMargin, most, use);
    }
    double from = odds == null ? limits.circle.from : odds.circleFrom();
    for (int i = 0; i < n && from < Double.POSITIVE_INFINITY; i++) {
      if (grade[i] * grade[i] + cross[i] * cross[i] > from * from) {
        at(Math.sqrt(grade[i] * grade[i] + cross[i] * cross[i]));
        use[i] = Math.min(most, use(sign * grade[i], sign * cross[i]));
      }
    }
    if (odds != null) {
      for (int i = 0; i < n; i++) {
        if (use[i] > LimitUse.FULL && odds.holds(sign * grade[i], sign * cross[i])) {
          use[i] = 1;
        }
      }
    }
  }

  /** Upper bound on the probability that some limit is exceeded on a heading; NaN if unknown. */
  double broken(double grade, double cross) {
    return odds == null ? Double.NaN : odds.broken(grade, cross);
  }

  /** Largest use of the bounds on a heading. */
  double use(double grade, double cross) {
    double use = Math.max(along(grade), across(grade, cross));
    // A bound below zero allows only steeper descents, for which the ratio is meaningless.
    use = grade > up && up <= 0 ? Math.max(use, LimitUse.BLOCKED) : use;
    // Conversely, where no descent is allowed, only climbs steep enough to be certain remain.
    use = tooGentle(grade) ? Math.max(use, LimitUse.BLOCKED) : use;
    if (odds == null || (windows && use <= LimitUse.FULL)) {
      return use;
    }
    boolean holds = odds.holds(grade, cross);
    return use > LimitUse.FULL ? holds ? 1 : use : holds ? use : LimitUse.BLOCKED;
  }

  /** The limit with the largest use on a heading. */
  Limit limit(double grade, double cross) {
    if (!windows && Math.max(along(grade), across(grade, cross)) <= LimitUse.FULL) {
      return odds.holds(grade, cross) ? nearestOf(grade, cross) : Limit.TRACTION;
    }
    return nearestOf(grade, cross);
  }

  private Limit nearestOf(double grade, double cross) {
    if (across(grade, cross) > along(grade)) {
      boolean rated = LimitUse.ratio(Math.abs(cross), freeSide) >= across(grade, cross);
      return !skewed ? sideLimit : rated ? freeSideLimit : Limit.TIP;
    }
    if (tooGentle(grade) && grade <= up) {
      return downLimit;
    }
    return grade >= 0 || grade > up ? upLimit : downLimit;
  }

  /** True if no descent is allowed and the grade may be one. */
  private boolean tooGentle(double grade) {
    return -grade > down && down < 0;
  }

  private double across(double grade, double cross) {
    double across = Math.abs(cross);
    return skewed
        ? Math.max(
            LimitUse.ratio(across, freeSide), LimitUse.ratio(tip.sideUse(grade, cross), usable))
        : LimitUse.ratio(across, side);
  }

  private double along(double grade) {
    return grade >= 0 ? LimitUse.ratio(grade, up) : LimitUse.ratio(-grade, down);
  }

  /** True if the confidence is satisfied on every heading although the bounds do not prove it. */
  boolean everyHeading(double t) {
    return odds != null && t <= odds.everyHeading;
  }

  /** True if it is certain that no heading is open, for bounds that are not skewed. */
  boolean shuts(double t) {
    return odds == null ? !open(t) : odds.shuts(t);
  }

  /** True if some heading is open, on or between the 32 headings. */
  boolean open(double t) {
    return everyHeading(t)
        || (windows
            && HeadingWindow.open(
                t, -down * LimitUse.FULL, up * LimitUse.FULL, side * LimitUse.FULL));
  }

  /** Share of all headings that are open, 0 to 1. */
  double share(double t) {
    if (everyHeading(t)) {
      return 1;
    }
    if (!windows) {
      return 0;
    }
    if (skewed && t > 0) {
      double rated = freeSide * LimitUse.FULL;
      return window.share(
          t, -down * LimitUse.FULL, up * LimitUse.FULL, rated, usable * LimitUse.FULL);
    }
    return HeadingWindow.share(t, -down * LimitUse.FULL, up * LimitUse.FULL, side * LimitUse.FULL);
  }

  /**
   * Use of a slope on its best heading: the slope over the corner of the bounds, which is the
   * steepest point that meets them all. NaN if the bounds have no such corner.
   */
  double leastUse(double t) {
    if (stuck(t)) {
      return LimitUse.BLOCKED;
    }
    double corner = corner();
    return corner < Double.POSITIVE_INFINITY ? t / corner : Double.NaN;
  }

  /** The limit that is exceeded least of those that close a slope. */
  Limit nearest(double t) {
    if (stuck(t)) {
      return up < 0 ? upLimit : downLimit;
    }
    if (side > Math.max(up, down)) {
      return sideLimit;
    }
    return up >= down ? upLimit : downLimit;
  }

  /**
   * True on ground where the vehicle can move only on a steeper descent or climb than the slope
   * offers.
   */
  private boolean stuck(double t) {
    return (up < 0 || down < 0) && !(t > corner());
  }

  private double corner() {
    double along = Math.max(up, down);
    return along > 0 ? Math.sqrt(along * along + side * side) : Double.NaN;
  }
}
