package org.scarpway.sortie;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The audit confirms every plan of the search, and finds every fault put into one. */
class PlanAuditTest {
  @Test
  void confirmsEveryPlan() {
    int plans = 0;
    for (int seed = 0; seed < 400; seed++) {
      Sortie s = SeededSorties.rich(5, seed);
      SortiePlan plan = SortieSolver.solve(s);
      if (plan != null) {
        int k = seed;
        assertEquals(List.of(), PlanAudit.broken(s, plan.visits(), plan.acts()), () -> "seed " + k);
        plans++;
      }
    }
    assertTrue(plans > 200, plans + " plans");
  }

  /** Limits a little below what the plan uses are broken by it. */
  @Test
  void findsEveryLimitBroken() {
    int[] found = new int[6];
    for (int seed = 0; seed < 200; seed++) {
      Sortie s = SeededSorties.rich(4, seed);
      SortiePlan plan = SortieSolver.solve(s);
      if (plan == null || plan.visits().isEmpty()) {
        continue;
      }
      double endS = plan.acts().get(plan.acts().size() - 1).toS();
      double mostJ = plan.acts().stream().mapToDouble(Act::worstJ).max().orElse(0);
      double[] drivenS = new double[s.rules().days()];
      double[] usedS = new double[s.rules().days()];
      int[] walks = new int[s.rules().days()];
      for (Act a : plan.acts()) {
        if (a.what() != Doing.NIGHT) {
          usedS[a.day()] = Math.max(usedS[a.day()], a.toS() - a.day() * DayRules.DAY_S);
          drivenS[a.day()] += a.what() == Doing.DRIVE ? a.toS() - a.fromS() : 0;
          walks[a.day()] += a.walks();
        }
      }
      DayRules r = s.rules();
      double longestS = Collections.max(boxed(usedS));
      double mostDrivenS = Collections.max(boxed(drivenS));
      int mostWalks = Arrays.stream(walks).max().orElse(0);
      int days = (int) (endS / DayRules.DAY_S) + 1;
      List<DayRules> tighter = new ArrayList<>();
      tighter.add(
          days > 1
              ? rules(r, days - 1, r.perDayS(), r.driveS(), 99, r.batteryJ(), r.lifeSupportS())
              : null);
      tighter.add(
          rules(r, r.days(), longestS - 60, r.driveS(), 99, r.batteryJ(), r.lifeSupportS()));
      tighter.add(
          rules(r, r.days(), r.perDayS(), mostDrivenS - 60, 99, r.batteryJ(), r.lifeSupportS()));
      tighter.add(
          mostWalks > 0
              ? rules(
                  r,
                  r.days(),
                  r.perDayS(),
                  r.driveS(),
                  mostWalks - 1,
                  r.batteryJ(),
                  r.lifeSupportS())
              : null);
      tighter.add(
          rules(
              r,
              r.days(),
              r.perDayS(),
              r.driveS(),
              99,
              r.reserveJ() + mostJ - 3600,
              r.lifeSupportS()));
      tighter.add(
          rules(
              r,
              r.days(),
              r.perDayS(),
              r.driveS(),
              99,
              r.batteryJ(),
              r.lifeReserveS() + endS - 60));
      for (int k = 0; k < tighter.size(); k++) {
        if (tighter.get(k) != null) {
          Sortie t = s.with(tighter.get(k));
          assertFalse(
              PlanAudit.broken(t, plan.visits(), plan.acts()).isEmpty(),
              "seed " + seed + " limit " + k);
          found[k]++;
        }
      }
    }
    for (int f : found) {
      assertTrue(f > 20, Arrays.toString(found));
    }
  }

  /** A timetable with a line missing, moved, or two stops exchanged is no timetable. */
  @Test
  void findsEveryFaultOfATimetable() {
    Random r = new Random(5);
    int tried = 0;
    for (int seed = 0; seed < 100; seed++) {
      Sortie s = SeededSorties.plain(6, 5, seed);
      SortiePlan plan = SortieSolver.solve(s);
      List<Act> acts = plan.acts();
      int k = r.nextInt(acts.size());
      List<Act> missing = new ArrayList<>(acts);
      missing.remove(k);
      assertFalse(PlanAudit.broken(s, plan.visits(), missing).isEmpty(), "missing, seed " + seed);
      List<Act> moved = new ArrayList<>(acts);
      moved.set(k, shifted(acts.get(k), 60));
      assertFalse(PlanAudit.broken(s, plan.visits(), moved).isEmpty(), "moved, seed " + seed);
      if (plan.visits().size() > 2) {
        List<Visit> exchanged = new ArrayList<>(plan.visits());
        Collections.swap(exchanged, 0, 1);
        assertFalse(PlanAudit.broken(s, exchanged, acts).isEmpty(), "exchanged, seed " + seed);
        tried++;
      }
    }
    assertTrue(tried > 50, tried + " exchanged");
  }

  private static Act shifted(Act a, double s) {
    return new Act(
        a.what(),
        a.from(),
        a.to(),
        a.way(),
        a.fromS() + s,
        a.toS() + s,
        a.alongS(),
        a.fromJ(),
        a.toJ(),
        a.worstJ(),
        a.walks());
  }

  private static List<Double> boxed(double[] a) {
    List<Double> list = new ArrayList<>();
    for (double v : a) {
      list.add(v);
    }
    return list;
  }

  private static DayRules rules(
      DayRules r, int days, double dayS, double driveS, int walks, double batteryJ, double lifeS) {
    return new DayRules(
        days,
        dayS,
        driveS,
        walks,
        r.egressS(),
        r.ingressS(),
        batteryJ,
        r.reserveJ(),
        r.nightChargeJ(),
        r.hotelW(),
        lifeS,
        r.lifeReserveS(),
        r.campsOnly());
  }
}
