package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.ReachEnd;
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

/**
 * By rules that ask something of every stop, what ends a place is told by how much, and what is
 * said to reach it does when it is asked.
 */
class WhyNotStopsTest {
  private static final GridSpec SPEC = Fields.grid(61, 61, 1, -30.5, -30.5);
  private static final double NONE = Double.POSITIVE_INFINITY;
  private static final Reserves KEPT = new Reserves(10, 20, 15, 5);

  /** Ends that no amount of anything changes. */
  private static final Set<String> SHUT =
      Set.of(
          ReachEnd.NO_GO.label(),
          ReachEnd.CUT_OFF.label(),
          ReachEnd.NO_WAY_HOME.label(),
          ReachEnd.NO_WAY_ON_FOOT.label(),
          ReachEnd.NO_RESCUER.label(),
          ReachEnd.WALK_BACK.label(),
          ReachEnd.RESCUE.label());

  private static ReachRequest request(Budget budget, HomeRule home) {
    return new ReachRequest(
        "r", "b", 0, 0, budget, home, List.of(), 5, new Rescue(4, 6, 2, 0), KEPT, false);
  }

  private static ReachResult solve(
      ReachRequest r, TraversalInput g, WalkHome walk, List<Target> targets) {
    try (Workers workers = new Workers(2)) {
      return ReachSolver.solve(r, g, walk, targets, workers, Progress.NONE);
    }
  }

  private static WhyNot thorough(
      ReachRequest r, TraversalInput g, WalkHome walk, ReachResult solved, Target place) {
    BitSet surely = new BitSet();
    for (int i = 0; i < SPEC.cells(); i++) {
      surely.set(i, solved.state().values()[i] == ReachState.SURELY);
    }
    try (Workers workers = new Workers(2)) {
      return new WhyNotSearch(r, g, walk, surely, true, workers, Progress.NONE)
          .of(List.of(place))
          .get(0);
    }
  }

  private static Budget raised(Budget b, List<Raise> raises) {
    Double timeS = b.timeS();
    Double energyJ = b.energyJ();
    Double distanceM = b.distanceM();
    Double lifeS = b.lifeSupportS();
    for (Raise r : raises) {
      timeS = r.supply() == Supply.TIME ? (Double) r.whole() : timeS;
      energyJ = r.supply() == Supply.ENERGY ? (Double) r.whole() : energyJ;
      distanceM = r.supply() == Supply.DISTANCE ? (Double) r.whole() : distanceM;
      lifeS = r.supply() == Supply.LIFE_SUPPORT ? (Double) r.whole() : lifeS;
    }
    return new Budget(timeS, energyJ, distanceM, lifeS);
  }

  private static WalkHome walker(TraversalCost feet, double enduranceS, double mostM) {
    WalkHome.Limits limits = new WalkHome.Limits(NONE, mostM, null, null, NONE, NONE);
    return new WalkHome(feet, enduranceS, 1, limits, List.of(), List.of());
  }

  private static WalkHome raised(WalkHome walk, List<Raise> raises) {
    WalkHome w = walk;
    for (Raise r : raises) {
      if (r.supply() == Supply.WALK) {
        w = walker(w.field(), r.whole(), w.limits().distanceM());
      } else if (r.supply() == Supply.WALK_LENGTH) {
        w = walker(w.field(), w.enduranceS(), r.whole());
      }
    }
    return w;
  }

  @Test
  void everyPlaceIsToldWithWhatIsShortAndWhatReachesIt() {
    Random random = new Random(31);
    List<HomeRule> rules = List.of(HomeRule.WALK_BACK, HomeRule.PAIR, HomeRule.BASE_RESCUE);
    int[] missed = new int[3];
    int[] changed = new int[3];
    for (int k = 0; k < 18; k++) {
      int rule = k % 3;
      HomeRule home = rules.get(rule);
      TraversalCost field = FrontTest.rough(SPEC, 40 + k);
      TraversalCost loaded = field.withLoad(FrontTest.rough(SPEC, 80 + k));
      TraversalInput g =
          Fields.ground(
                  field,
                  Fields.heights(SPEC, 0.02, 0.01),
                  Fields.cart(1, 20, null, new Vehicle.Crew(2, 4, null, true)))
              .withLoaded(loaded);
      WalkHome walk =
          rule == 0
              ? walker(FrontTest.rough(SPEC, 60 + k), 6.0 + random.nextInt(15), 10.0 + k)
              : null;
      Budget budget =
          new Budget(
              25.0 + random.nextInt(40),
              random.nextBoolean() ? 20e3 + random.nextInt(30_000) : null,
              random.nextBoolean() ? 30.0 + random.nextInt(30) : null,
              random.nextBoolean() ? 30.0 + random.nextInt(60) : null);
      ReachRequest r = request(budget, home);
      List<Target> places = new ArrayList<>();
      for (int i = 0; i < 4; i++) {
        places.add(new Target("t" + i, random.nextInt(61) - 30, random.nextInt(61) - 30, 1, 5, 0));
      }
      ReachResult solved = solve(r, g, walk, places);
      for (TargetReach t : solved.targets()) {
        if (t.reached() || SHUT.contains(t.end())) {
          continue;
        }
        String what = home + " " + k + " " + t.target() + ": " + t.end() + "; " + t.whyNot();
        assertFalse(t.whyNot().shortfalls().isEmpty(), what);
        assertTrue(t.whyNot().shortfalls().stream().allMatch(s -> s.missing() > 0), what);
        missed[rule]++;
        WhyNot why = thorough(r, g, walk, solved, t.target());
        if (!why.enough().isEmpty()) {
          ReachRequest more = request(raised(budget, why.enough()), home);
          ReachResult again = solve(more, g, raised(walk, why.enough()), List.of(t.target()));
          assertTrue(again.targets().get(0).reached(), what + why);
          changed[rule]++;
        }
      }
    }
    for (int i = 0; i < 3; i++) {
      String counts = rules.get(i) + ": " + changed[i] + " of " + missed[i];
      assertTrue(missed[i] > 8 && changed[i] > 0.8 * missed[i], counts);
    }
  }

  /** 1 m/s on foot and on level ground: amounts are those of the straight line. */
  @Test
  void amountsOfAWalkAreThoseOfTheStraightLine() {
    TraversalInput g = Fields.level(Fields.level(SPEC, (x, y) -> 10));
    WalkHome walk = walker(Fields.level(SPEC, (x, y) -> 1), 16, 10);
    ReachRequest r = request(new Budget(1000.0, null, null), HomeRule.WALK_BACK);
    Target t = new Target("t", 20, 0, 1, 5, 0);
    ReachResult solved = solve(r, g, walk, List.of(t));
    WhyNot why = thorough(r, g, walk, solved, t);
    assertEquals(20 - 15, why.missing(Supply.WALK), 0.01);
    assertEquals(20 - 10, why.missing(Supply.WALK_LENGTH), 0.01);
    assertEquals(
        List.of(Supply.WALK, Supply.WALK_LENGTH),
        why.enough().stream().map(Raise::supply).toList());
    // Rounded up to three digits.
    assertEquals(20.05, why.enough().get(1).whole(), 0.051);
    assertEquals(ReachEnd.WALK_LENGTH.code(), solved.binding().values()[SPEC.cellOf(20, 0)]);
  }

  /** 20 m out and home at 1 m/s, 5 s of stay, 4 s of alarm, 2 s to load. */
  @Test
  void amountsOfARescueAreThoseOfTheStraightLine() {
    TraversalCost level = Fields.level(SPEC, (x, y) -> 1);
    TraversalInput g =
        Fields.ground(
                level,
                FloatGrid.empty(SPEC),
                Fields.cart(1, 20, null, new Vehicle.Crew(1, 2, null, true)))
            .withLoaded(level.withLoad(level));
    ReachRequest r = request(new Budget(60.0, null, null, 60.0), HomeRule.BASE_RESCUE);
    Target t = new Target("t", 20, 0, 1, 5, 0);
    ReachResult solved = solve(r, g, null, List.of(t));
    WhyNot why = thorough(r, g, null, solved, t);
    double neededS = 20 + 5 + 4 + 20 + 2 + 20;
    assertEquals(neededS - 54, why.missing(Supply.TIME), 0.02);
    assertEquals(neededS - 48, why.missing(Supply.LIFE_SUPPORT), 0.02);
    // The rescuer's own: 20 s out, then 2 s and 20 s for two crews.
    assertEquals(20 + 2 * 22 - 48, why.missing(Supply.RESCUER_LIFE), 0.02);
    assertEquals(2, why.enough().size());
    assertTrue(why.rescue().contains("of alarm"), why.rescue());
  }

  /** A limit is short if the place is beyond it whatever else there is, and only then. */
  @Test
  void whatIsShortIsShortByItself() {
    Random random = new Random(32);
    int listed = 0;
    int others = 0;
    for (int k = 0; k < 14; k++) {
      HomeRule home = k % 2 == 0 ? HomeRule.DRIVE_BACK : HomeRule.NONE;
      TraversalInput g =
          Fields.ground(
              FrontTest.rough(SPEC, 140 + k),
              Fields.heights(SPEC, 0.02, 0.01),
              Fields.cart(1, 20, null, null));
      Budget budget =
          new Budget(
              15.0 + random.nextInt(25), 10e3 + random.nextInt(20_000), 20.0 + random.nextInt(30));
      List<Target> places = new ArrayList<>();
      for (int i = 0; i < 5; i++) {
        places.add(new Target("t" + i, random.nextInt(61) - 30, random.nextInt(61) - 30, 1, 5, 0));
      }
      ReachResult solved = solve(request(budget, home), g, null, places);
      for (TargetReach t : solved.targets()) {
        if (t.reached() || t.whyNot().shortfalls().isEmpty()) {
          continue;
        }
        boolean own = t.whyNot().shortfalls().stream().noneMatch(s -> s.by().contains("one way"));
        for (Supply of : List.of(Supply.TIME, Supply.ENERGY, Supply.DISTANCE)) {
          boolean isShort =
              t.whyNot().shortfalls().stream().map(Shortfall::of).anyMatch(of::equals);
          Budget alone =
              new Budget(
                  of == Supply.TIME ? budget.timeS() : null,
                  of == Supply.ENERGY ? budget.energyJ() : null,
                  of == Supply.DISTANCE ? budget.distanceM() : null);
          boolean reached =
              solve(request(alone, home), g, null, List.of(t.target())).targets().get(0).reached();
          String what = home + " " + k + " " + of + " " + t.end() + " " + t.whyNot();
          if (own) {
            assertEquals(!isShort, reached, what);
            listed += isShort ? 1 : 0;
            others += isShort ? 0 : 1;
          }
        }
      }
    }
    assertTrue(listed > 15 && others > 15, listed + " " + others);
  }
}
