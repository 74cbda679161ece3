package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.reach.question.WhyNot;
import org.scarpway.reach.question.WhyNot.Raise;
import org.scarpway.reach.question.WhyNot.Shortfall;
import org.scarpway.reach.question.WhyNot.Supply;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;

/** What is said to reach a place reaches it when it is asked, and what is said to be short is. */
class WhyNotSearchTest {
  private static final GridSpec SPEC = Fields.grid(81, 81, 1, -40.5, -40.5);
  private static final Reserves KEPT = new Reserves(10, 20, 15, 5);

  private static ReachRequest request(Budget budget, HomeRule home, double stayS) {
    return new ReachRequest(
        "r", "b", 0, 0, budget, home, List.of(), stayS, new Rescue(0, 0, 1, 0), KEPT, false);
  }

  private static ReachResult solve(
      ReachRequest r, TraversalInput g, WalkHome walk, List<Target> targets) {
    try (Workers workers = new Workers(2)) {
      return ReachSolver.solve(r, g, walk, targets, workers, Progress.NONE);
    }
  }

  private static List<WhyNot> thorough(
      ReachRequest r, TraversalInput g, WalkHome walk, ReachResult solved, List<Target> places) {
    BitSet surely = new BitSet();
    for (int i = 0; i < SPEC.cells(); i++) {
      surely.set(i, solved.state().values()[i] == ReachState.SURELY);
    }
    try (Workers workers = new Workers(2)) {
      return new WhyNotSearch(r, g, walk, surely, true, workers, Progress.NONE).of(places);
    }
  }

  private static List<Target> places(Random random, int n) {
    List<Target> all = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      double x = random.nextInt(81) - 40;
      double y = random.nextInt(81) - 40;
      all.add(new Target("t" + i, x, y, 1, 60 * (1 + random.nextInt(5)), 0));
    }
    return all;
  }

  private static Budget raised(Budget b, List<Raise> raises) {
    Double timeS = b.timeS();
    Double energyJ = b.energyJ();
    Double distanceM = b.distanceM();
    Double lifeS = b.lifeSupportS();
    for (Raise r : raises) {
      assertTrue(r.whole() > r.now(), r.toString());
      switch (r.supply()) {
        case TIME -> timeS = r.whole();
        case ENERGY -> energyJ = r.whole();
        case DISTANCE -> distanceM = r.whole();
        case LIFE_SUPPORT -> lifeS = r.whole();
        default -> {}
      }
    }
    return new Budget(timeS, energyJ, distanceM, lifeS);
  }

  private static WalkHome raised(WalkHome walk, List<Raise> raises) {
    WalkHome w = walk;
    for (Raise r : walk == null ? List.<Raise>of() : raises) {
      boolean longer = r.supply() == Supply.WALK_LENGTH;
      double enduranceS = r.supply() == Supply.WALK ? r.whole() : w.enduranceS();
      double farM = longer ? r.whole() : w.limits().distanceM();
      double none = Double.POSITIVE_INFINITY;
      WalkHome.Limits limits = new WalkHome.Limits(none, farM, null, null, none, none);
      w = new WalkHome(w.field(), enduranceS, w.reserveS(), limits, w.refuges(), w.notes());
    }
    return w;
  }

  @Test
  void whatIsSaidToSufficeDoes() {
    Random random = new Random(20261129);
    int raised = 0;
    int together = 0;
    int stays = 0;
    int refuges = 0;
    int walks = 0;
    for (int k = 0; k < 15; k++) {
      HomeRule home = HomeRule.values()[k % 5];
      TraversalInput g =
          Fields.ground(
              FrontTest.rough(SPEC, 100 + k),
              Fields.heights(SPEC, 0.02, 0.01),
              Fields.cart(1, 20, null, new Vehicle.Crew(2, 4, null, true)));
      WalkHome walk =
          home == HomeRule.WALK_BACK
              ? Questions.walkHome(
                  Fields.level(SPEC, (x, y) -> 0.8), 20 + random.nextInt(20), 5, List.of())
              : null;
      Budget budget =
          new Budget(
              60.0 + random.nextInt(250),
              random.nextBoolean() ? 20e3 + random.nextInt(40_000) : null,
              random.nextBoolean() ? 30.0 + random.nextInt(30) : null,
              random.nextBoolean() ? 100.0 + random.nextInt(300) : null);
      ReachRequest r = request(budget, home, 30);
      List<Target> places = places(random, 5);
      ReachResult solved = solve(r, g, walk, places);
      List<Target> missed =
          solved.targets().stream().filter(t -> !t.reached()).map(TargetReach::target).toList();
      List<WhyNot> reasons = thorough(r, g, walk, solved, missed);
      for (int i = 0; i < missed.size(); i++) {
        Target t = missed.get(i);
        WhyNot why = reasons.get(i);
        String what = home + " " + k + " " + t + " " + why;
        for (Shortfall s : why.shortfalls()) {
          assertTrue(s.missing() > 0, what);
        }
        if (!why.enough().isEmpty()) {
          ReachRequest more = request(raised(budget, why.enough()), home, 30);
          assertTrue(
              solve(more, g, raised(walk, why.enough()), List.of(t)).targets().get(0).reached(),
              what);
          raised++;
          together += why.enough().size() > 1 ? 1 : 0;
          walks += why.enough().get(0).supply() == Supply.WALK ? 1 : 0;
        }
        if (why.stayS() > 0) {
          assertTrue(why.stayS() < t.stayS(), what);
          assertTrue(
              solve(r, g, walk, List.of(t.withStay(why.stayS()))).targets().get(0).reached(), what);
          stays++;
        }
        if (why.refugeHelps()) {
          WalkHome with = walk.with(List.of(new WalkHome.Refuge("here", t.xM(), t.yM())));
          assertTrue(solve(r, g, with, List.of(t)).targets().get(0).reached(), what);
          refuges++;
        }
        if (home == HomeRule.NONE || home == HomeRule.DRIVE_BACK) {
          // The quick answer in the product is the thorough one.
          WhyNot quick =
              solved.targets().stream()
                  .filter(got -> got.target().equals(t))
                  .findFirst()
                  .orElseThrow()
                  .whyNot();
          assertEquals(why, quick, what);
        }
      }
    }
    String counts = raised + " " + together + " " + stays + " " + refuges + " " + walks;
    assertTrue(raised > 30 && together > 5 && stays > 5 && refuges > 0 && walks > 1, counts);
  }

  /** On level ground at 1 m/s the time and the length of a trip are twice the distance. */
  @Test
  void onLevelGroundTheShortfallIsThatOfTheStraightLine() {
    TraversalInput g = Fields.level(Fields.level(SPEC, (x, y) -> 1));
    ReachRequest r = request(new Budget(60.0, null, 50.0), HomeRule.DRIVE_BACK, 0);
    Target t = new Target("t", 30, 0, 1, 0, 0);
    WhyNot why = solve(r, g, null, List.of(t)).targets().get(0).whyNot();
    assertEquals(
        List.of(Supply.TIME, Supply.DISTANCE),
        why.shortfalls().stream().map(Shortfall::of).toList());
    assertEquals(60 - 54, why.missing(Supply.TIME), 0.01);
    assertEquals(60 - 47.5, why.missing(Supply.DISTANCE), 0.01);
    assertTrue(Double.isNaN(why.missing(Supply.ENERGY)));
    // 47.5 m there and back end 23.75 m away: the last cell centre within is 23 m away.
    assertEquals(7, why.nearest().distanceM(), 1e-9);
    assertEquals(270, why.nearest().azimuthDeg(), 1e-9);
    // Of whole amounts 60 / 0.9 s and 60 / 0.95 m, rounded up to three digits of h and km.
    assertEquals(2, why.enough().size());
    assertEquals(0.0186 * 3600, why.enough().get(0).whole(), 1e-6);
    assertEquals(63.2, why.enough().get(1).whole(), 0.101);
    assertNull(why.crossing());
  }

  /** A wall three cells thick is crossed straight: two whole steps and two halves. */
  @Test
  void theLeastClosedGroundIsTheThinnestPartOfTheWall() {
    TraversalCost walled =
        Fields.level(SPEC, (x, y) -> x >= 10 && x < (Math.abs(y - 20) < 1.5 ? 13 : 18) ? 0 : 1);
    TraversalInput g = Fields.level(walled);
    ReachRequest r = request(new Budget(null, null, null), HomeRule.DRIVE_BACK, 0);
    Target behind = new Target("behind", 30, -10, 1, 0, 0);
    Target inside = new Target("inside", 12, -10, 1, 0, 0);
    List<TargetReach> told = solve(r, g, null, List.of(behind, inside)).targets();
    WhyNot why = told.get(0).whyNot();
    assertEquals(3, why.crossing().lengthM(), 1e-9);
    assertEquals(3, why.crossing().cells().size());
    assertEquals(10, why.crossing().xM(), 1e-9);
    assertEquals(20, why.crossing().yM(), 1.01);
    assertEquals(2.5, told.get(1).whyNot().crossing().lengthM(), 1e-9);
    assertTrue(why.shortfalls().isEmpty() && why.enough().isEmpty());
    assertEquals("", why.changeText());
    assertFalse(why.refugeHelps());
  }

  @Test
  void theNearestReachedCellIsThatOfAllCells() {
    Random random = new Random(7);
    GridSpec spec = new GridSpec(23, 31, 2, 3, 100, 500, "");
    for (int k = 0; k < 200; k++) {
      BitSet reached = new BitSet();
      for (int n = random.nextInt(6); n >= 0; n--) {
        reached.set(random.nextInt(spec.cells()));
      }
      int place = random.nextInt(spec.cells());
      double least = Double.POSITIVE_INFINITY;
      for (int cell = reached.nextSetBit(0); cell >= 0; cell = reached.nextSetBit(cell + 1)) {
        least =
            Math.min(least, Math.hypot(2 * (cell % 31 - place % 31), 3 * (cell / 31 - place / 31)));
      }
      WhyNot.Nearest found = NearestReached.of(spec, reached, place);
      assertEquals(least, found.distanceM(), 1e-9);
      double a = Math.toRadians(found.azimuthDeg());
      assertEquals(found.xM(), spec.xM(place % 31) + least * Math.sin(a), 1e-6);
      assertEquals(found.yM(), spec.yM(place / 31) + least * Math.cos(a), 1e-6);
    }
    assertNull(NearestReached.of(spec, new BitSet(), 5));
  }
}
