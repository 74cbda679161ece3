package org.scarpway.sortie;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Value never falls with a day, hours, walks, battery, charge, life support or a stop more. */
class MoreIsNoLessTest {
  @Test
  void valueNeverFalls() {
    int risen = 0;
    for (int seed = 0; seed < 150; seed++) {
      Sortie s = SeededSorties.rich(5, seed);
      double value = value(s);
      DayRules r = s.rules();
      List<Sortie> more = new ArrayList<>();
      more.add(s.with(r.withDays(r.days() + 1)));
      more.add(s.with(r.withMoreBattery(3.6e6)));
      more.add(s.with(rules(r, r.perDayS() + 1800, r.walks(), r.nightChargeJ(), 0)));
      more.add(s.with(rules(r, r.perDayS(), r.walks() + 1, r.nightChargeJ(), 0)));
      more.add(s.with(rules(r, r.perDayS(), r.walks(), r.nightChargeJ() + 3.6e6, 0)));
      more.add(s.with(rules(r, r.perDayS(), r.walks(), r.nightChargeJ(), 7200)));
      for (int k = 0; k < more.size(); k++) {
        double other = value(more.get(k));
        assertTrue(other >= value, "seed " + seed + ", more of " + k + ": " + other);
        risen += other > value ? 1 : 0;
      }
      for (int k = 0; k < 5; k++) {
        if (!s.stops().get(k).must()) {
          assertTrue(value(without(s, k)) <= value, "seed " + seed + " without stop " + k);
        }
      }
    }
    assertTrue(risen > 30, risen + " risen");
  }

  /**
   * Forcing a stop in says what it costs; what is not possible is so for the limit that is told.
   */
  @Test
  void saysWhyAStopIsLeftOut() {
    int others = 0;
    int limits = 0;
    for (int seed = 0; seed < 60; seed++) {
      Sortie s = SeededSorties.rich(5, seed);
      SortiePlan plan = SortieSolver.solve(s);
      for (int place = 1; place <= 5; place++) {
        int p = place;
        if (plan == null || plan.visits().stream().anyMatch(v -> v.place() == p)) {
          continue;
        }
        LeftOut why = LeftOut.of(s, place);
        if (why.why().contains(LeftOut.Why.OTHERS)) {
          assertTrue(why.valueWith() <= plan.value(), "seed " + seed + " place " + place);
          others++;
        } else {
          assertEquals(Double.NEGATIVE_INFINITY, why.valueWith());
          limits++;
        }
      }
    }
    assertTrue(others > 10 && limits > 10, others + " by others, " + limits + " by limits");
  }

  @Test
  void namesTheLimit() {
    Sortie far = one(1, 30 * 3600, Double.POSITIVE_INFINITY);
    assertEquals(Set.of(LeftOut.Why.DAYS), LeftOut.of(far, 1).why());
    Sortie thirsty = one(9, 3600, 50 * 3600.0);
    assertEquals(Set.of(LeftOut.Why.BATTERY), LeftOut.of(thirsty, 1).why());
  }

  private static Sortie one(int days, double driveS, double batteryJ) {
    double inf = Double.POSITIVE_INFINITY;
    DayRules rules = new DayRules(days, 36_000, 36_000, 4, 0, 0, batteryJ, 0, 0, 0, inf, 0, false);
    List<Leg> way = List.of(Leg.even(driveS, driveS * 100));
    Legs legs = new Legs(List.of(List.of(List.of(), way), List.of(way, List.of())));
    return new Sortie(rules, HomeRule.DRIVE_BACK, List.of(SortieStop.free("A", 1, 60, 0)), legs);
  }

  private static double value(Sortie s) {
    SortiePlan plan = SortieSolver.solve(s);
    return plan == null ? Double.NEGATIVE_INFINITY : plan.value();
  }

  private static Sortie without(Sortie s, int k) {
    List<SortieStop> stops = new ArrayList<>(s.stops());
    SortieStop t = stops.get(k);
    stops.set(
        k,
        new SortieStop(
            t.name(), t.value(), t.stayS(), t.walks(), false, t.after(), 0, 0, t.camp(), t.ways()));
    return s.withStops(stops);
  }

  private static DayRules rules(
      DayRules r, double perDayS, int walks, double chargeJ, double moreLifeS) {
    return new DayRules(
        r.days(),
        perDayS,
        r.driveS(),
        walks,
        r.egressS(),
        r.ingressS(),
        r.batteryJ(),
        r.reserveJ(),
        chargeJ,
        r.hotelW(),
        r.lifeSupportS() + moreLifeS,
        r.lifeReserveS(),
        r.campsOnly());
  }
}
