package org.scarpway.reach.question;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.reach.question.CorridorResult.Alternative;
import org.scarpway.reach.question.CorridorResult.TradeOff;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.vehicle.Vehicle;

/**
 * Compares routes with the battery and the life support, each less its reserve. The routes of a
 * corridor are computed without these limits, so every excess is reported.
 */
public final class Supplies {
  private static final double J_PER_KWH = 3.6e6;

  private final double plannedJ;
  private final double plannedS;
  private final String lifeSupport;

  /** The routes for which a supply does not suffice, each with the amount that it needs. */
  private final List<String> beyondBattery = new ArrayList<>();

  private final List<String> beyondLife = new ArrayList<>();

  private Supplies(CorridorRequest request, Vehicle vehicle) {
    double none = Double.POSITIVE_INFINITY;
    Reserves kept = request.reserves();
    Vehicle.Crew crew = vehicle.crew();
    plannedJ =
        vehicle.batteryKwh() == null
            ? none
            : Reserves.less(vehicle.batteryKwh() * J_PER_KWH, kept.energyPct());
    double aliveS =
        crew == null || crew.lifeSupportH() == null
            ? none
            : Reserves.less(crew.lifeSupportH() * 3600, kept.lifeSupportPct());
    double suitedS =
        request.suits() == null ? none : request.suits().plannedS(kept.lifeSupportPct());
    plannedS = Math.min(aliveS, suitedS);
    lifeSupport = suitedS < aliveS ? "suits" : "life support";
  }

  /**
   * Returns one sentence for each supply that does not suffice, with all routes that need more.
   *
   * @param mostJ largest amount that the best route uses from the battery at any moment (J), NaN if
   *     energy is unknown
   */
  public static List<String> beyond(
      CorridorRequest request,
      Vehicle vehicle,
      List<Visit> visits,
      double mostJ,
      List<Alternative> alternatives,
      List<TradeOff> tradeOffs) {
    Supplies supplies = new Supplies(request, vehicle);
    Visit last = visits.get(visits.size() - 1);
    double stayS = visits.stream().mapToDouble(Visit::stayS).sum();
    supplies.hold("the centreline", mostJ, last.timeS() + last.stayS());
    for (Alternative a : alternatives) {
      supplies.hold("alternative " + a.rank(), a.mostJ(), a.timeS() + stayS);
    }
    for (int i = 0; i < tradeOffs.size(); i++) {
      TradeOff t = tradeOffs.get(i);
      supplies.hold("trade-off T" + (i + 1), t.mostJ(), t.timeS() + stayS);
    }
    return supplies.sentences();
  }

  private void hold(String way, double usedJ, double timeS) {
    if (usedJ > plannedJ) {
      add(beyondBattery, way, usedJ / J_PER_KWH, "kWh");
    }
    if (timeS > plannedS) {
      add(beyondLife, way, timeS / 3600, "h with stays");
    }
  }

  private static void add(List<String> ways, String way, double needed, String unit) {
    String needs = ways.isEmpty() ? " needs" : "";
    ways.add(String.format(Locale.ROOT, "%s%s %.4g %s", way, needs, needed, unit));
  }

  private List<String> sentences() {
    List<String> all = new ArrayList<>();
    say(all, beyondBattery, plannedJ / J_PER_KWH, "battery");
    say(all, beyondLife, plannedS / 3600, lifeSupport);
    return all;
  }

  private static void say(List<String> all, List<String> ways, double planned, String of) {
    int last = ways.size() - 1;
    if (last >= 0) {
      String before = String.join(", ", ways.subList(0, last));
      all.add(
          String.format(
              Locale.ROOT,
              "%s%s; %.4g may be planned of the %s",
              last == 0 ? "" : before + " and ",
              ways.get(last),
              planned,
              of));
    }
  }
}
