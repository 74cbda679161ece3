package org.scarpway.sortie;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * After a failure anywhere, everybody who rides home in another vehicle is home in the hours of the
 * last day, in search and audit alike: one stop, one piece each way, sums by hand.
 */
class HomeByTheLastDayTest {
  private static final double DAY_S = 36_000;
  private static final double NONE = Double.POSITIVE_INFINITY;

  @Test
  void ridesHomeEndOnTheLastDay() {
    Random random = new Random(12);
    int made = 0;
    int late = 0;
    int found = 0;
    for (int round = 0; round < 400; round++) {
      boolean pair = round % 2 == 0;
      int days = 1 + random.nextInt(2);
      double driveS = 600 + 12_000 * random.nextDouble();
      double stayS = 600 + 9_000 * random.nextDouble();
      HomeRule home =
          new HomeRule(
              pair ? HomeRule.Kind.PAIR : HomeRule.Kind.BASE_RESCUE,
              7200 * random.nextDouble(),
              7200 * random.nextDouble(),
              3600 * random.nextDouble(),
              false);
      // The worst place of the only piece is the stop, the worst moment the end of the way home.
      double askedS =
          2 * driveS
              + stayS
              + (pair ? home.transferS() + driveS : home.alarmS() + home.loadS() + 2 * driveS);
      boolean today = askedS <= DAY_S;
      SortiePlan plan = SortieSolver.solve(sortie(1, driveS, stayS, home));
      assertEquals(today, plan.value() > 0, "round " + round);
      made += today ? 1 : 0;
      late += today ? 0 : 1;
      // A plan of two days that is driven on the first breaks the rule of one day only then.
      SortiePlan two = SortieSolver.solve(sortie(2, driveS, stayS, home));
      boolean first = two.acts().stream().allMatch(a -> a.day() == 0);
      if (two.value() > 0 && first && Math.abs(askedS - DAY_S) > 600) {
        Sortie one = sortie(1, driveS, stayS, home);
        assertEquals(
            today, PlanAudit.broken(one, two.visits(), two.acts()).isEmpty(), "audit " + round);
        found += today ? 0 : 1;
      }
      SortiePlan any = SortieSolver.solve(sortie(days, driveS, stayS, home));
      assertEquals(
          List.of(),
          PlanAudit.broken(sortie(days, driveS, stayS, home), any.visits(), any.acts()),
          "round " + round);
    }
    assertTrue(made > 50 && late > 50 && found > 20, made + ", " + late + ", " + found);
  }

  private static Sortie sortie(int days, double driveS, double stayS, HomeRule home) {
    DayRules rules = new DayRules(days, DAY_S, DAY_S, 9, 0, 0, NONE, 0, 0, 0, NONE, 0, false);
    WaysHome ways = new WaysHome(driveS, 0, 0, driveS, 0);
    Leg leg = new Leg(List.of(new Piece(driveS, 0, 0, true, ways)));
    SortieStop stop = new SortieStop("s", 1, stayS, 0, false, Set.of(), 0, NONE, true, ways);
    Legs legs =
        new Legs(List.of(List.of(List.of(), List.of(leg)), List.of(List.of(leg), List.of())));
    return new Sortie(rules, home, List.of(stop), legs);
  }
}
