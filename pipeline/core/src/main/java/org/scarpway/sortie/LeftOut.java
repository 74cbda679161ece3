package org.scarpway.sortie;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Why a stop is not in a plan, found by planning it alone, with the stops that must come before it:
 * with all rules, and with each limit taken away in turn.
 *
 * @param why the limits of which any one, taken away, would allow the stop; {@code SEVERAL} if no
 *     single one does; {@code OTHERS} alone if the rules allow it, but other stops bring more
 * @param valueWith most value of a plan with this stop, negative infinity if there is none or none
 *     was found
 */
public record LeftOut(Set<Why> why, double valueWith) {
  private static final long FEW_LABELS = 200_000;

  /** Copies the set. */
  public LeftOut {
    why = Set.copyOf(why);
  }

  /** What keeps a stop out. */
  public enum Why {
    /** No way leads there from the base, or home from there. */
    NO_WAY,
    /** The stay is longer than the hours of a day. */
    STAY,
    /** It asks for more walks than a day has. */
    WALKS,
    /** Its opening hours. */
    HOURS,
    /** The number of days. */
    DAYS,
    /** Battery and charge. */
    BATTERY,
    /** Life support. */
    LIFE_SUPPORT,
    /** Nights at camps only. */
    CAMPS,
    /** The home rule. */
    HOME_RULE,
    /** More than one limit. */
    SEVERAL,
    /** Other stops bring more. */
    OTHERS
  }

  /** Why a stop is not in the best plan. */
  public static LeftOut of(Sortie sortie, int place) {
    double none = Double.NEGATIVE_INFINITY;
    DayRules r = sortie.rules();
    SortieStop s = sortie.at(place);
    Legs legs = sortie.legs();
    if (legs.count(0, place) == 0 || legs.count(place, 0) == 0) {
      return new LeftOut(Set.of(Why.NO_WAY), none);
    }
    if (r.stopS(s.stayS(), s.walks()) > r.perDayS()) {
      return new LeftOut(Set.of(Why.STAY), none);
    }
    if (s.walks() > r.walks()) {
      return new LeftOut(Set.of(Why.WALKS), none);
    }
    Sortie alone = alone(sortie, place);
    if (isPossible(alone)) {
      SortiePlan with = SortieSolver.solve(forced(sortie, place), FEW_LABELS);
      return new LeftOut(Set.of(Why.OTHERS), with == null ? none : with.value());
    }
    Set<Why> why = EnumSet.noneOf(Why.class);
    double inf = Double.POSITIVE_INFINITY;
    Sortie allDay = alone.withStops(alone.stops().stream().map(LeftOut::always).toList());
    add(why, Why.HOURS, allDay);
    add(why, Why.DAYS, alone.with(r.withDays(3 * r.days() + 9)));
    add(why, Why.BATTERY, alone.with(limits(r, inf, r.lifeSupportS(), r.campsOnly())));
    add(why, Why.LIFE_SUPPORT, alone.with(limits(r, r.batteryJ(), inf, r.campsOnly())));
    add(why, Why.CAMPS, alone.with(limits(r, r.batteryJ(), r.lifeSupportS(), false)));
    add(why, Why.HOME_RULE, new Sortie(r, HomeRule.DRIVE_BACK, alone.stops(), legs));
    return new LeftOut(why.isEmpty() ? Set.of(Why.SEVERAL) : why, none);
  }

  private static void add(Set<Why> why, Why limit, Sortie without) {
    if (isPossible(without)) {
      why.add(limit);
    }
  }

  private static boolean isPossible(Sortie s) {
    return SortieSolver.solve(s, FEW_LABELS) != null;
  }

  private static DayRules limits(DayRules r, double batteryJ, double lifeS, boolean campsOnly) {
    return new DayRules(
        r.days(),
        r.perDayS(),
        r.driveS(),
        r.walks(),
        r.egressS(),
        r.ingressS(),
        batteryJ,
        r.reserveJ(),
        r.nightChargeJ(),
        r.hotelW(),
        lifeS,
        r.lifeReserveS(),
        campsOnly);
  }

  /** The question with this stop, which must be made, those before it, and camps. */
  private static Sortie alone(Sortie sortie, int place) {
    Set<Integer> kept = new HashSet<>();
    List<Integer> open = new ArrayList<>(List.of(place));
    while (!open.isEmpty()) {
      int k = open.remove(open.size() - 1);
      if (kept.add(k)) {
        open.addAll(sortie.at(k).after());
      }
    }
    List<SortieStop> stops = new ArrayList<>();
    for (int k = 1; k <= sortie.stops().size(); k++) {
      SortieStop s = sortie.at(k);
      boolean needed = kept.contains(k) || (sortie.rules().campsOnly() && s.camp());
      double value = k == place ? Math.max(1, s.value()) : 0;
      boolean must = kept.contains(k);
      stops.add(needed ? with(s, value, must, s.opensS(), s.closesS()) : with(s, 0, false, 0, -1));
    }
    return sortie.withStops(stops);
  }

  private static Sortie forced(Sortie sortie, int place) {
    List<SortieStop> stops = new ArrayList<>(sortie.stops());
    SortieStop s = sortie.at(place);
    stops.set(place - 1, with(s, s.value(), true, s.opensS(), s.closesS()));
    return sortie.withStops(stops);
  }

  private static SortieStop always(SortieStop s) {
    return s.closesS() < 0 ? s : with(s, s.value(), s.must(), 0, Double.POSITIVE_INFINITY);
  }

  private static SortieStop with(
      SortieStop s, double value, boolean must, double opensS, double closesS) {
    return new SortieStop(
        s.name(), value, s.stayS(), s.walks(), must, s.after(), opensS, closesS, s.camp(),
        s.ways());
  }
}
