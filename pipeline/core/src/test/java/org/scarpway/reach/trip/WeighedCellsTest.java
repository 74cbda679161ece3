package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Weighted ways of a few cells are, to the last bit, those of fronts over all ground. */
class WeighedCellsTest {
  private static final GridSpec SPEC = Fields.grid(47, 53, 5, 0, 0);
  private static final int N = SPEC.cells();
  private static final int BASE = 23 * 53 + 26;

  private final SplittableRandom random = new SplittableRandom(77);
  private int compared;

  private record Question(
      ReachLimits limits,
      TraversalCost field,
      TraversalCost homeField,
      Floats heightM,
      TripFronts solved) {
    Refinement refinement() {
      return new Refinement(
          limits, field, homeField, true, heightM, BASE, solved.stops(), solved.within());
    }
  }

  private Question question(HomeRule rule, Workers workers) {
    TraversalCost field = FrontTest.rough(SPEC, random.nextLong());
    TraversalCost homeField =
        rule == HomeRule.PAIR ? field.withLoad(FrontTest.rough(SPEC, random.nextLong())) : field;
    Floats heightM = Floats.of(N, null);
    Floats homeS = Floats.of(N, null);
    Floats waitS = Floats.of(N, null);
    for (int i = 0; i < N; i++) {
      heightM.set(i, 20 * (float) random.nextDouble());
      homeS.set(i, random.nextInt(30) == 0 ? Float.NaN : 300 * (float) random.nextDouble());
      waitS.set(i, 0.7f * homeS.get(i));
    }
    homeS.set(BASE, 0);
    double timeS = 120 + 400 * random.nextDouble();
    double energyJ = (200 + 500 * random.nextDouble()) * 900;
    double distanceM = random.nextInt(2) == 0 ? Double.POSITIVE_INFINITY : 700;
    double aliveS = 3 * timeS;
    ReachLimits limits =
        new ReachLimits(
            rule, timeS, energyJ, distanceM, aliveS, 30, new Rescue(5, 5, 5, 0), Reserves.NONE);
    boolean fetched = rule == HomeRule.BASE_RESCUE;
    Stops stops =
        fetched || rule == HomeRule.WALK_BACK
            ? new Stops(limits, homeS, fetched ? waitS : null, List.of())
            : Stops.none(limits);
    ReachRequest request =
        Fields.request(
            "r", "b", 0, 0, new Budget(timeS, energyJ, null), rule, List.of(), 10, false);
    TripFronts solved =
        new TripFronts(
            request,
            limits,
            field,
            homeField,
            true,
            heightM,
            BASE,
            new double[] {10, 10},
            stops,
            workers,
            Progress.NONE);
    return new Question(limits, field, homeField, heightM, solved);
  }

  private static BitSet answered(Question q) {
    BitSet all = new BitSet();
    for (int cell = 0; cell < N; cell++) {
      all.set(cell, q.solved.answers(cell));
    }
    return all;
  }

  private BitSet some(BitSet all, int most) {
    int[] from = all.stream().toArray();
    BitSet some = new BitSet();
    for (int k = random.nextInt(most); k >= 0; k--) {
      some.set(from[random.nextInt(from.length)]);
    }
    return some;
  }

  private void assertSame(PathSums all, PathSums some, int cell, String what) {
    assertEquals(all.timeS(cell), some.timeS(cell), what);
    assertEquals(all.energyJ(cell), some.energyJ(cell), what);
    assertEquals(all.distanceM(cell), some.distanceM(cell), what);
    assertEquals(all.usedJ(cell), some.usedJ(cell), what);
    assertEquals(all.mostJ(cell), some.mostJ(cell), what);
    assertEquals(all.needS(cell), some.needS(cell), what);
    assertEquals(all.needJ(cell, 1000), some.needJ(cell, 1000), what);
    assertEquals(all.broken(cell), some.broken(cell), what);
    compared += all.timeS(cell) > 0 ? 1 : 0;
  }

  private void assertSame(Refinement all, Refinement some, BitSet cells, String what) {
    for (int cell = cells.nextSetBit(0); cell >= 0; cell = cells.nextSetBit(cell + 1)) {
      assertEquals(all.ruledOut(cell, 10), some.ruledOut(cell, 10), what + " cell " + cell);
      for (int k = 0; k < all.out().size(); k++) {
        assertSame(all.out().get(k), some.out().get(k), cell, what + " out " + cell);
      }
      for (int k = 0; k < all.home().size(); k++) {
        assertSame(all.home().get(k), some.home().get(k), cell, what + " home " + cell);
      }
    }
  }

  @Test
  void theWaysOfAFewCellsAreThoseOfAll() {
    try (Workers workers = new Workers(2)) {
      for (HomeRule rule : HomeRule.values()) {
        compared = 0;
        for (int k = 0; k < 5; k++) {
          Question q = question(rule, workers);
          BitSet answered = answered(q);
          Refinement all = q.refinement();
          Refinement some = q.refinement();
          BitSet asked = some(answered, 3);
          FoundWays known = random.nextInt(4) > 0 ? q.solved : null;
          for (double[] weights : all.rounds()) {
            all.weigh(weights, answered, null, workers, Progress.NONE);
            some.weigh(weights, asked, known, workers, Progress.NONE);
          }
          assertSame(all, some, asked, rule + " " + k);
          BitSet more = some(answered, 20);
          some.ask(more, workers);
          asked.or(more);
          assertSame(all, some, asked, rule + " " + k + " and more");
        }
        assertTrue(compared > 50, rule + ": " + compared + " ways");
      }
    }
  }
}
