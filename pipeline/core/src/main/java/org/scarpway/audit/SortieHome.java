package org.scarpway.audit;

import java.util.List;
import org.scarpway.audit.SortieFacts.From;
import org.scarpway.audit.SortieFacts.Home;
import org.scarpway.audit.SortieFacts.Limits;
import org.scarpway.audit.SortieFacts.Stretch;

/**
 * Plays a way home through minute by minute: driving in the hours of a day, nights with load and
 * charge, and life support of one or two crews. Everything is off by a few minutes at most, which
 * the comparisons allow.
 */
final class SortieHome {
  private static final double DAY_S = 86_400;
  private static final double STEP_S = 60;
  private static final double TINY_S = 1e-6;

  /** A step for each of up to three parts of a way, twice counted. */
  private static final double OFF_S = 6 * STEP_S;

  private final Limits limits;
  private final Home home;
  private final double byDayS;

  SortieHome(Limits limits, Home home) {
    this.limits = limits;
    this.home = home;
    this.byDayS = Math.min(limits.dayS(), limits.driveS());
  }

  /** Whether everybody is home within life support after a failure at this time and place. */
  boolean holds(double clockS, double drawnJ, From from) {
    return switch (home.rule()) {
      case DRIVE -> true;
      case WALK -> clockS + from.walkS() <= limits.usableS() + OFF_S;
      case RIDE -> {
        double atHomeS = rides(clockS, drawnJ, from);
        yield inTime(atHomeS, from) && clockS + 2 * (atHomeS - clockS) <= limits.usableS() + OFF_S;
      }
      case RESCUE -> rescued(clockS, drawnJ, from);
    };
  }

  /** Whether a ride that is needed ends in the hours of the last day. */
  private boolean inTime(double atHomeS, From from) {
    double endS = (limits.days() - 1) * DAY_S + limits.dayS();
    return (from.driveS() == 0 && from.outS() == 0) || atHomeS <= endS + OFF_S;
  }

  /** When both crews are home in one vehicle (s by the clock), infinite if they never are. */
  private double rides(double clockS, double drawnJ, From from) {
    if (Double.isInfinite(from.driveS())) {
      return Double.POSITIVE_INFINITY;
    }
    double atS = clockS + home.changeS();
    double j = drawnJ + limits.parkedW() * home.changeS();
    double w = from.driveS() > 0 ? from.driveJ() / from.driveS() : 0;
    double toGoS = from.driveS();
    double firstDay = Math.floor(clockS / DAY_S);
    // A way played through in minutes stops up to a minute early or late.
    double mostJ = limits.usableJ() + 2 * w * STEP_S;
    boolean waits = !lastsAtOnce(atS, j, w, toGoS);
    while (toGoS > TINY_S) {
      if (atS > limits.usableS()) {
        return Double.POSITIVE_INFINITY;
      }
      double inDayS = atS - Math.floor(atS / DAY_S) * DAY_S;
      double stepS = step(inDayS, byDayS);
      double goS = Math.min(stepS, toGoS);
      double nightJ = limits.parkedW() * (DAY_S - inDayS - goS);
      boolean wait = waits && Math.floor(atS / DAY_S) == firstDay;
      boolean end = goS >= toGoS;
      // Drives on only where the battery lasts home today, or the night there.
      boolean today = inDayS + toGoS <= byDayS + TINY_S && j + w * toGoS <= mostJ;
      boolean lasts = today || j + w * goS + nightJ <= mostJ;
      boolean drives = !wait && inDayS + goS <= byDayS + TINY_S && lasts;
      j += drives ? w * goS : limits.parkedW() * stepS;
      toGoS -= drives ? goS : 0;
      atS += drives && end ? goS : stepS;
      if (j > mostJ + 1) {
        return Double.POSITIVE_INFINITY;
      }
      if (atS - Math.floor(atS / DAY_S) * DAY_S < TINY_S) {
        j = Math.max(0, j - limits.chargeJ());
      }
    }
    return atS;
  }

  /** A step that ends at the latest where the hours for driving or the day end. */
  private static double step(double inDayS, double hoursS) {
    double untilS = inDayS < hoursS - TINY_S ? hoursS : DAY_S;
    return Math.min(STEP_S, untilS - inDayS);
  }

  /** Whether the battery lasts home without any charge. */
  private boolean lastsAtOnce(double fromS, double drawnJ, double w, double driveS) {
    double inDayS = fromS - Math.floor(fromS / DAY_S) * DAY_S;
    double restS = driveS - Math.max(0, byDayS - inDayS);
    double nights = restS > 0 ? Math.ceil(restS / byDayS) : 0;
    double parkedJ = limits.parkedW() * nights * (DAY_S - byDayS);
    return drawnJ + w * driveS + parkedJ <= limits.usableJ();
  }

  private boolean rescued(double clockS, double drawnJ, From from) {
    if (Double.isInfinite(from.outS()) || Double.isInfinite(from.driveS())) {
      return false;
    }
    double leaveS = clockS + home.alarmS();
    double[] leftS = {limits.driveS()};
    double thereS = arrives(leaveS, from.outS(), leftS);
    double aboardS = thereS + home.loadS();
    double atHomeS = arrives(aboardS, from.driveS(), leftS);
    double waitJ = drawnJ + limits.parkedW() * (aboardS - clockS - OFF_S);
    double rescuersS = thereS - leaveS + 2 * (atHomeS - thereS);
    return inTime(atHomeS, from)
        && atHomeS <= limits.usableS() + OFF_S
        && rescuersS <= limits.usableS() + 2 * OFF_S
        && waitJ <= limits.usableJ() + 1;
  }

  private double arrives(double fromS, double driveS, double[] leftTodayS) {
    if (home.byNight()) {
      return fromS + driveS;
    }
    double atS = fromS;
    double toGoS = driveS;
    while (toGoS > TINY_S && atS <= limits.usableS() + DAY_S) {
      double inDayS = atS - Math.floor(atS / DAY_S) * DAY_S;
      boolean hours = inDayS < limits.dayS() && leftTodayS[0] > 0;
      double stepS = step(inDayS, hours ? Math.min(limits.dayS(), inDayS + leftTodayS[0]) : 0);
      double goS = Math.min(stepS, toGoS);
      boolean drives = hours && inDayS + goS <= limits.dayS() + TINY_S;
      toGoS -= drives ? goS : 0;
      leftTodayS[0] -= drives ? goS : 0;
      atS += drives ? goS : stepS;
      if (atS - Math.floor(atS / DAY_S) * DAY_S < TINY_S) {
        leftTodayS[0] = limits.driveS();
      }
    }
    return atS;
  }

  /**
   * Whether the vehicle itself is home along a leg by the end of the last day, resting where the
   * battery asks for it.
   */
  boolean drives(double clockS, double drivenS, double drawnJ, List<Stretch> leg) {
    double driveS = leg.stream().mapToDouble(Stretch::timeS).sum();
    double driveJ = leg.stream().mapToDouble(Stretch::energyJ).sum();
    int day = (int) Math.floor(clockS / DAY_S);
    double leftS = Math.min(limits.dayS() - (clockS - day * DAY_S), limits.driveS() - drivenS);
    int nights = limits.days() - 1 - day;
    double timeS = Math.max(0, leftS) + nights * byDayS;
    // The battery must be full for no more than it takes; its worst place was checked by the plan.
    double energyJ = limits.usableJ() - drawnJ + nights * limits.chargeJ();
    return driveS <= timeS + OFF_S && driveJ <= energyJ + 1;
  }
}
