package org.scarpway.vehicle;

/**
 * The limits that depend on the gradient alone, at one slope: bounds on the grade uphill, the grade
 * downhill and the cross grade, and which limit sets each. Holds the last slope; one per thread.
 */
final class SlopeBounds {
  private final MoveLimits limits;
  private final TipOver tip;
  private final double freeUp;
  private final double freeDown;
  private final Limit freeUpLimit;
  private final Limit freeDownLimit;

  /**
   * Whether the cross grade that tips depends on the grade. The bounds then are a rectangle inside
   * what is allowed, and {@link #use} is the truth.
   */
  final boolean skewed;

  double up;
  double down;
  double side;
  Limit upLimit;
  Limit downLimit;
  Limit sideLimit;

  /** Share of the tip-over limit that its margin leaves at the slope. */
  private double usable;

  /**
   * How likely the limits hold; null where heights count as measured. The bounds then are a box
   * that keeps the confidence wherever two limits are near, and {@link #use} is the truth.
   */
  final GradientOdds odds;

  /**
   * Whether the bounds tell windows between headings. Where the confidence may break the friction
   * circle they do not, and {@link #use} alone is the truth.
   */
  boolean windows = true;

  private final double freeSide;
  private final Limit freeSideLimit;

  private final SkewedWindow window;

  /** With the heights taken as measured. */
  SlopeBounds(MoveLimits limits) {
    this(limits, Allowances.NONE, 0, 0);
  }

  /**
   * @param alongSigma one sigma of the grade
   * @param acrossSigma of the cross grade
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
      // Not even a heading straight up or down keeps the confidence.
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

  /** Largest use of the bounds across at slope t, whether or not a heading meets it. */
  double worstAcross(double t) {
    return skewed
        ? Math.max(LimitUse.ratio(t, freeSide), LimitUse.ratio(tip.mostSideUse(t), usable))
        : LimitUse.ratio(t, side);
  }

  /** True where every bound is above zero, so that the use is the largest of plain shares. */
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
   * Largest use of the bounds at each of n grades and cross grades, as {@link #at} and {@link #use}
   * give it but not above {@code most}.
   *
   * @param plain {@link #plain()}
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

  /** Probability that some limit is broken on a heading, from above; NaN where it is not known. */
  double broken(double grade, double cross) {
    return odds == null ? Double.NaN : odds.broken(grade, cross);
  }

  /** Largest use of the bounds on a heading. */
  double use(double grade, double cross) {
    double use = Math.max(along(grade), across(grade, cross));
    // A bound below zero leaves only steeper descents, whose grade the division cannot show.
    use = grade > up && up <= 0 ? Math.max(use, LimitUse.BLOCKED) : use;
    // The same the other way round: where no descent is left, only climbs steep enough to be sure.
    use = tooGentle(grade) ? Math.max(use, LimitUse.BLOCKED) : use;
    if (odds == null || (windows && use <= LimitUse.FULL)) {
      return use;
    }
    boolean holds = odds.holds(grade, cross);
    return use > LimitUse.FULL ? holds ? 1 : use : holds ? use : LimitUse.BLOCKED;
  }

  /** The limit with that use. */
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

  /** Whether a grade may be a descent where none is left. */
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

  /** Whether the confidence holds on every heading, though the bounds do not show it. */
  boolean everyHeading(double t) {
    return odds != null && t <= odds.everyHeading;
  }

  /** Whether it is plain that no heading is open, on bounds that are not skewed. */
  boolean shuts(double t) {
    return odds == null ? !open(t) : odds.shuts(t);
  }

  /** True where some heading is open, between the 32 headings or on them. */
  boolean open(double t) {
    return everyHeading(t)
        || (windows
            && HeadingWindow.open(
                t, -down * LimitUse.FULL, up * LimitUse.FULL, side * LimitUse.FULL));
  }

  /** Share of all headings that is open. */
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
   * steepest point that meets them all. NaN where the bounds have no such corner.
   */
  double leastUse(double t) {
    if (stuck(t)) {
      return LimitUse.BLOCKED;
    }
    double corner = corner();
    return corner < Double.POSITIVE_INFINITY ? t / corner : Double.NaN;
  }

  /** The limit that is exceeded least of those that shut a slope. */
  Limit nearest(double t) {
    if (stuck(t)) {
      return up < 0 ? upLimit : downLimit;
    }
    if (side > Math.max(up, down)) {
      return sideLimit;
    }
    return up >= down ? upLimit : downLimit;
  }

  /** Ground that would need a steeper descent, or climb, for the vehicle to move at all. */
  private boolean stuck(double t) {
    return (up < 0 || down < 0) && !(t > corner());
  }

  private double corner() {
    double along = Math.max(up, down);
    return along > 0 ? Math.sqrt(along * along + side * side) : Double.NaN;
  }
}
