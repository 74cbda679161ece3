package org.scarpway.audit;

import java.util.Locale;
import org.scarpway.audit.HomeRule.Need;
import org.scarpway.audit.HomeRule.Part;
import org.scarpway.audit.HomeRule.Proof;
import org.scarpway.audit.HomeRule.Used;
import org.scarpway.grid.GridSpec;

/**
 * Recalculates one trip, out, stay and home, and checks every limit at every moment: the amount
 * used so far plus the amount that the home rule requires from there must not exceed the planned
 * amount. A way drawn in straight lines may take slightly longer than the front computed; a
 * tolerance of half a percent of a limit plus two cells of the way covers that, so that a reported
 * violation is a fault and not rounding.
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
  private Moment leftLeast;
  private double mostNeedS;
  private Moment neededMost;
  private double mostRescuerS;
  private Moment rescuedLongest;
  private int waysHome;
  private String phase = "out";
  private String worstPhase = "";
  private String broken = "";

  private TripAudit(Trip trip, Limits limits, HomeRule rule) {
    this.trip = trip;
    this.limits = limits;
    this.rule = rule;
    this.spec = trip.outField().spec();
    this.timeS = trip.before().timeS();
    this.energyJ = trip.before().energyJ();
    this.distanceM = trip.before().distanceM();
  }

  /** A place of the trip and what was used by then. */
  private record Moment(int cell, boolean onTheWayHome, Used used) {}

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
    prove(leftLeast);
    prove(neededMost);
    prove(rescuedLongest);
  }

  /** Adds two cells of this way to the tolerance, the resolution limit of the grid. */
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

  /** Adds time, energy and distance; energy returned to a full battery is lost. */
  private void use(double s, double j, double m) {
    timeS += s;
    energyJ = Math.max(0, energyJ + j);
    distanceM += m;
  }

  /** Checks the limits in a cell; of several ways home the one that leaves the most counts. */
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
      leftLeast = moment(cell, onTheWayHome);
      worstPhase = phase;
    }
    if (best.needS > mostNeedS) {
      mostNeedS = best.needS;
      neededMost = moment(cell, onTheWayHome);
    }
    if (best.rescuerS > mostRescuerS) {
      mostRescuerS = best.rescuerS;
      rescuedLongest = moment(cell, onTheWayHome);
    }
    if (best.broken != null) {
      fail(best.broken, cell);
    }
  }

  private Moment moment(int cell, boolean onTheWayHome) {
    return new Moment(cell, onTheWayHome, new Used(timeS, energyJ, distanceM));
  }

  /** Checks every limit at one moment. */
  private Held held(Need need) {
    Held h = new Held(Math.max(need.timeS(), need.onFootS()), need.rescuerS());
    h.hold(limits.time(), timeS + need.timeS(), slackS);
    h.hold(limits.lifeSupport(), timeS + need.lifeSupportS(), slackS);
    h.hold(limits.energy(), energyJ + need.energyJ(), slackJ);
    h.hold(limits.distance(), distanceM + need.distanceM(), slackM);
    h.hold(limits.onFoot(), need.onFootS(), slackS);
    h.hold(limits.rescuer(), need.rescuerS(), slackS);
    return h;
  }

  private static final class Held {
    private final double needS;
    private final double rescuerS;
    private double leftPct = Double.POSITIVE_INFINITY;
    private String leftOf = "";
    private String broken;

    Held(double needS, double rescuerS) {
      this.needS = needS;
      this.rescuerS = rescuerS;
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

  /** Recalculates the proofs of a moment; one of them must hold. */
  private void prove(Moment m) {
    if (m == null) {
      return;
    }
    String wrong = null;
    for (Proof p : rule.proofs(m.cell, m.onTheWayHome, m.used)) {
      String here = wrong(p, m.cell);
      if (here == null) {
        waysHome++;
        return;
      }
      wrong = wrong == null ? here : wrong;
    }
    if (wrong != null) {
      fail(wrong);
    }
  }

  /** The fault of a proof, null if it holds. */
  private String wrong(Proof p, int from) {
    double s = p.before().timeS();
    double j = p.before().energyJ();
    double m = p.before().distanceM();
    double mostJ = j;
    double waitS = 0;
    double offS = 0;
    double offJ = 0;
    double offM = 0;
    double offWaitS = 0;
    double offLastS = 0;
    double peakS = 0;
    for (Part part : p.parts()) {
      s += part.standsS();
      j = Math.max(0, j + part.standsJ());
      mostJ = Math.max(mostJ, j);
      waitS = s - p.before().timeS();
      offWaitS = offS;
      Drive d = Drive.along(part.way(), part.field(), part.heightM());
      int last = d.moments() - 1;
      if (d.barred() != null) {
        return at(p.what() + ": " + d.barred(), d.cell(last));
      }
      for (int i = 1; i <= last; i++) {
        j = Math.max(0, j + d.energyJ(i) - d.energyJ(i - 1));
        mostJ = Math.max(mostJ, j);
      }
      s += d.timeS(last);
      m += d.distanceM(last);
      double cells = CELLS / Math.max(CELLS, d.distanceM(last) / spec.cellM());
      offLastS = cells * d.timeS(last);
      offS += offLastS;
      offJ += cells * Math.abs(d.energyJ(last));
      offM += cells * d.distanceM(last);
      peakS += p.peak() == null ? 0 : peakS(part, p.peak());
    }
    String wrong = null;
    if (mostJ > p.mostJ() * (1 + SCHEME) + offJ) {
      wrong = String.format(Locale.ROOT, "takes %.0f J of %.0f J", mostJ, p.mostJ());
    } else if (m > p.mostM() * (1 + SCHEME) + offM) {
      wrong = String.format(Locale.ROOT, "takes %.0f m of %.0f m", m, p.mostM());
    } else if (!(s <= p.mostS() * (1 + SCHEME) + offS)) {
      double beforeS = p.before().timeS();
      wrong =
          String.format(Locale.ROOT, "takes %.1f s, not %.1f s", s - beforeS, p.mostS() - beforeS);
    } else if (p.twoCrews() != null && tooLong(p, s, waitS, offS + offLastS)) {
      wrong =
          String.format(
              Locale.ROOT,
              "uses up %.1f s of the life support of the vehicle that comes, not %.1f s",
              livedS(p, s, waitS),
              p.twoCrews().mostS());
    } else if (!(waitS <= p.mostWaitS() * (1 + SCHEME) + offWaitS)) {
      wrong = String.format(Locale.ROOT, "begins after %.1f s, not %.1f s", waitS, p.mostWaitS());
    } else if (p.peak() != null && !(peakS <= p.peak().mostS() * (1 + SCHEME) + offS)) {
      // Either of the two cells may be walked at the peak rate, whatever the rest is walked at.
      wrong =
          String.format(
              Locale.ROOT,
              "takes %.1f s above the sustained rate, not %.1f s",
              peakS,
              p.peak().mostS());
    }
    return wrong == null ? null : at(p.what() + " " + wrong, from);
  }

  private static boolean tooLong(Proof p, double endS, double waitS, double off) {
    return !(livedS(p, endS, waitS) <= p.twoCrews().mostS() * (1 + SCHEME) + off);
  }

  /**
   * Life support of the vehicle that comes: from its departure, and once more for the other crew
   * from its last stay on.
   *
   * @param endS time at home, the time used before included (s)
   * @param waitS time until the last way begins (s)
   */
  private static double livedS(Proof p, double endS, double waitS) {
    double allS = endS - p.before().timeS();
    double lastStayS = p.parts().get(p.parts().size() - 1).standsS();
    return allS - p.twoCrews().unusedS() + (allS - (waitS - lastStayS));
  }

  private static double peakS(Part part, HomeRule.Peak peak) {
    Drive d = Drive.along(part.way(), peak.field(), part.heightM());
    return d.energyJ(d.moments() - 1);
  }

  private void fail(String what, int cell) {
    fail(at(what, cell));
  }

  private void fail(String what) {
    broken = broken.isEmpty() ? what : broken;
  }

  private String at(String what, int cell) {
    return String.format(
        Locale.ROOT,
        "%s (%s, %.0f s after the start, at x %.1f y %.1f)",
        what,
        phase,
        timeS,
        xM(cell),
        yM(cell));
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
        xM(leftCell()),
        yM(leftCell()),
        worstPhase,
        waysHome,
        broken);
  }

  private int leftCell() {
    return leftLeast == null ? -1 : leftLeast.cell;
  }

  private double xM(int cell) {
    return cell < 0 ? Double.NaN : spec.xM(cell % spec.cols());
  }

  private double yM(int cell) {
    return cell < 0 ? Double.NaN : spec.yM(cell / spec.cols());
  }
}
