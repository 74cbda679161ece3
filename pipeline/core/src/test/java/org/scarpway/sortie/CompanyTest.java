package org.scarpway.sortie;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;

/** What two kinds of vehicle plan together, each of them can drive by itself. */
class CompanyTest {
  @Test
  void eachVehicleDrivesThePlanOfBoth() {
    int planned = 0;
    for (int seed = 0; seed < 150; seed++) {
      Sortie a = SeededSorties.rich(4, seed);
      DayRules ra = a.rules();
      DayRules rb =
          new DayRules(
              ra.days(),
              ra.perDayS(),
              ra.driveS(),
              ra.walks(),
              ra.egressS(),
              ra.ingressS(),
              ra.batteryJ() * 0.6,
              ra.reserveJ() * 0.5,
              ra.nightChargeJ() * 0.7,
              ra.hotelW() * 0.8,
              ra.lifeSupportS(),
              ra.lifeReserveS(),
              ra.campsOnly());
      Sortie both =
          new Sortie(Company.rules(ra, rb), a.home(), a.stops(), legs(a, ra, rb, true, true));
      SortiePlan plan = SortieSolver.solve(both);
      if (plan == null || a.home().kind() == HomeRule.Kind.PAIR) {
        continue;
      }
      Sortie first = new Sortie(ra, a.home(), a.stops(), legs(a, ra, rb, true, false));
      Sortie second = new Sortie(rb, a.home(), a.stops(), legs(a, ra, rb, false, true));
      String which = "seed " + seed;
      assertEquals(List.of(), PlanAudit.broken(first, plan.visits(), plan.acts()), which);
      assertEquals(List.of(), PlanAudit.broken(second, plan.visits(), plan.acts()), which);
      planned += plan.visits().size() > 1 ? 1 : 0;
    }
    assertTrue(planned > 30, planned + " planned");
  }

  @Test
  void twoOfAKindAreOne() {
    for (int seed = 0; seed < 60; seed++) {
      Sortie a = SeededSorties.rich(4, seed);
      DayRules r = a.rules();
      Sortie both = new Sortie(Company.rules(r, r), a.home(), a.stops(), pairs(a, r));
      SortiePlan one = SortieSolver.solve(a);
      SortiePlan two = SortieSolver.solve(both);
      assertEquals(one == null, two == null);
      if (one != null) {
        assertEquals(one.value(), two.value(), 1e-9, "seed " + seed);
      }
    }
  }

  private static Legs pairs(Sortie s, DayRules r) {
    return mapped(s, p -> Company.piece(p, p, r, r));
  }

  /** Legs of the first, of a slower and thriftier second at its pace, or of both. */
  private static Legs legs(Sortie s, DayRules ra, DayRules rb, boolean first, boolean second) {
    return mapped(
        s,
        a -> {
          Piece b =
              new Piece(a.timeS() * 1.1, a.energyJ() * 0.7, a.peakJ() * 0.7, a.camp(), a.ways());
          if (first && second) {
            return Company.piece(a, b, ra, rb);
          }
          double waitJ = first ? ra.hotelW() * (b.timeS() - a.timeS()) : 0;
          Piece own = first ? a : b;
          return new Piece(
              b.timeS(), own.energyJ() + waitJ, own.peakJ() + waitJ, own.camp(), own.ways());
        });
  }

  private static Legs mapped(Sortie s, UnaryOperator<Piece> to) {
    int n = s.legs().places();
    List<List<List<Leg>>> all = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      all.add(new ArrayList<>());
      for (int j = 0; j < n; j++) {
        List<Leg> ways = new ArrayList<>();
        for (int k = 0; k < s.legs().count(i, j); k++) {
          ways.add(new Leg(s.legs().way(i, j, k).pieces().stream().map(to).toList()));
        }
        all.get(i).add(ways);
      }
    }
    return new Legs(all);
  }
}
