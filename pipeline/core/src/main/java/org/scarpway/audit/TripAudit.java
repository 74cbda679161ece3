package org.scarpway.audit;

import java.util.Locale;
import org.scarpway.audit.HomeRule.Need;
import org.scarpway.audit.HomeRule.Proof;
import org.scarpway.grid.GridSpec;

/**
 * Drives one trip again, out, stay and home, and holds every limit at every moment: what is used by
 * then and what the home rule needs from there must not exceed what may be planned. A way that is
 * drawn in straight lines may take a little longer than the front promised; half a percent of a
 * limit and two cells of the way are allowed for that, so that a broken rule is a mistake and not
 * rounding.
 */
public final class TripAudit {
  private static final double SCHEME = 0.005;
  private static final double CELLS = 2;

  private final Limits limits;
  private final HomeRule rule;
  private final Trip trip;
  private final GridSpec spec;
  private double timeS;
  private double energyJ;
  private double distanceM;
  private double slackS;
  private double slackJ;
  private double slackM;
  private double leftPct = Double.POSITIVE_INFINITY;
  private String leftOf = "";
  private double leftAtS = Double.NaN;
  private int leftCell = -1;
  private boolean leftOnTheWayHome;
  private double mostNeedS;
  private int mostNeedCell = -1;
  private boolean mostNeedOnTheWayHome;
  private String phase = "out";
  private String worstPhase = "";
  private String broken = "";

  private TripAudit(Trip trip, Limits limits, HomeRule rule) {
    this.trip = trip;
    this.limits = limits;
    this.rule = rule;
    this.spec = trip.outField().spec();
  }

  public static Finding of(Trip trip, Limits limits, HomeRule rule) {
    TripAudit audit = new TripAudit(trip, limits, rule);
    audit.drive();
    return audit.finding();
  }

  private void drive() {
    Drive out = Drive.along(trip.out(), trip.outField(), trip.heightM());
    slack(out);
    follow(out, false);
    if (out.barred() != null) {
      return;
    }
    phase = "stay";
    use(trip.stayS(), limits.hotelW() * trip.stayS(), 0);
    hold(out.cell(out.moments() - 1), false);
    if (trip.home() != null) {
      phase = "home";
      use(trip.changeS(), limits.hotelW() * trip.changeS(), 0);
      Drive home = Drive.along(trip.home(), trip.homeField(), trip.heightM());
      slack(home);
      follow(home, true);
    }
    prove(leftCell, leftOnTheWayHome);
    prove(mostNeedCell, mostNeedOnTheWayHome);
  }

  /** Two cells of this way: what the grid cannot tell. */
  private void slack(Drive d) {
    int last = d.moments() - 1;
    double cells = CELLS / Math.max(CELLS, d.distanceM(last) / spec.cellM());
    slackS += cells * d.timeS(last);
    slackJ += cells * Math.abs(d.energyJ(last));
    slackM += cells * d.distanceM(last);
  }

  private void follow(Drive d, boolean onTheWayHome) {
    for (int i = 0; i < d.moments(); i++) {
      if (i > 0) {
        use(
            d.timeS(i) - d.timeS(i - 1),
            d.energyJ(i) - d.energyJ(i - 1),
            d.distanceM(i) - d.distanceM(i - 1));
      }
      hold(d.cell(i), onTheWayHome);
    }
    if (d.barred() != null) {
      int last = d.moments() - 1;
      fail(d.barred(), d.cell(last));
    }
  }

  /** A full battery takes nothing back. */
  private void use(double s, double j, double m) {
    timeS += s;
    energyJ = Math.max(0, energyJ + j);
    distanceM += m;
  }

  /** Of several ways home the one that leaves the most counts. */
  private void hold(int cell, boolean onTheWayHome) {
    Held best = null;
    for (Need need : rule.at(cell, energyJ, onTheWayHome)) {
      Held h = held(need);
      if (best == null || h.isBetterThan(best)) {
        best = h;
      }
    }
    if (best == null) {
      fail("nobody gets home from a stop here", cell);
      return;
    }
    if (best.leftPct < leftPct) {
      leftPct = best.leftPct;
      leftOf = best.leftOf;
      leftAtS = timeS;
      leftCell = cell;
      leftOnTheWayHome = onTheWayHome;
      worstPhase = phase;
    }
    if (best.needS > mostNeedS) {
      mostNeedS = best.needS;
      mostNeedCell = cell;
      mostNeedOnTheWayHome = onTheWayHome;
    }
    if (best.broken != null) {
      fail(best.broken, cell);
    }
  }

  /** Every limit at one moment. */
  private Held held(Need need) {
    Held h = new Held(Math.max(need.timeS(), need.onFootS()));
    h.hold(limits.time(), timeS + need.timeS(), slackS);
    h.hold(limits.lifeSupport(), timeS + need.lifeSupportS(), slackS);
    h.hold(limits.energy(), energyJ + need.energyJ(), slackJ);
    h.hold(limits.distance(), distanceM + need.distanceM(), slackM);
    h.hold(limits.onFoot(), need.onFootS(), slackS);
    h.hold(limits.energy(), need.rescuerJ(), slackJ);
    h.hold(limits.distance(), need.rescuerM(), slackM);
    return h;
  }

  private static final class Held {
    private final double needS;
    private double leftPct = Double.POSITIVE_INFINITY;
    private String leftOf = "";
    private String broken;

    Held(double needS) {
      this.needS = needS;
    }

    void hold(Limit limit, double used, double slack) {
      if (limit.isNone()) {
        return;
      }
      double left = limit.leftPct(used);
      if (left < leftPct) {
        leftPct = left;
        leftOf = limit.name();
      }
      if (!(used <= limit.planned() * (1 + SCHEME) + slack) && broken == null) {
        broken =
            String.format(
                Locale.ROOT,
                "%s: %.6g needed by the end of the way home, %.6g may be planned",
                limit.name(),
                used,
                limit.planned());
      }
    }

    boolean isBetterThan(Held other) {
      return (broken == null) == (other.broken == null) ? leftPct > other.leftPct : broken == null;
    }
  }

  /** The ways that a moment rests on take no longer than was said. */
  private void prove(int cell, boolean onTheWayHome) {
    if (cell >= 0) {
      rule.proofs(cell, onTheWayHome).forEach(p -> prove(p, cell));
    }
  }

  private void prove(Proof p, int from) {
    Drive d = Drive.along(p.way(), p.field(), p.heightM());
    int last = d.moments() - 1;
    if (d.barred() != null) {
      fail(p.what() + ": " + d.barred(), d.cell(last));
      return;
    }
    double cells = CELLS / Math.max(CELLS, d.distanceM(last) / spec.cellM());
    if (d.energyJ(last) > p.mostJ() * (1 + SCHEME) + cells * Math.abs(d.energyJ(last))) {
      fail(
          String.format(
              Locale.ROOT, "%s takes %.0f J of %.0f J", p.what(), d.energyJ(last), p.mostJ()),
          from);
    }
    if (!(d.timeS(last) <= p.saidS() * (1 + SCHEME) + cells * d.timeS(last))) {
      fail(
          String.format(
              Locale.ROOT, "%s takes %.1f s, not %.1f s", p.what(), d.timeS(last), p.saidS()),
          from);
    }
  }

  private void fail(String what, int cell) {
    if (broken.isEmpty()) {
      broken =
          String.format(
              Locale.ROOT,
              "%s (%s, %.0f s after the start, at x %.1f y %.1f)",
              what,
              phase,
              timeS,
              xM(cell),
              yM(cell));
    }
  }

  private Finding finding() {
    int end = trip.out().corners() - 1;
    return new Finding(
        trip.name(),
        spec.westM() + (trip.out().col(end) + 0.5) * spec.cellXM(),
        spec.northM() - (trip.out().row(end) + 0.5) * spec.cellYM(),
        timeS,
        energyJ,
        distanceM,
        leftPct,
        leftOf,
        leftAtS,
        xM(leftCell),
        yM(leftCell),
        worstPhase,
        broken);
  }

  private double xM(int cell) {
    return cell < 0 ? Double.NaN : spec.xM(cell % spec.cols());
  }

  private double yM(int cell) {
    return cell < 0 ? Double.NaN : spec.yM(cell / spec.cols());
  }
}
