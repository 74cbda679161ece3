package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.Collections;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** A front that ended at a budget and goes on is the front of the larger budget, bit for bit. */
class ContinuedFrontTest {
  private static final int GROUNDS = 24;

  /** Random rough ground, coarse enough that it holds many tiles' edges or lies in one. */
  private static TraversalCost ground(SplittableRandom random) {
    GridSpec spec =
        new GridSpec(20 + random.nextInt(130), 20 + random.nextInt(130), 5, 6, 0, 900, "");
    return FrontTest.rough(spec, random.nextLong());
  }

  private static BitSet domain(SplittableRandom random, int cells) {
    BitSet domain = new BitSet(cells);
    domain.set(0, cells);
    for (int k = 0; k < 3; k++) {
      int from = random.nextInt(cells);
      domain.clear(from, Math.min(cells, from + random.nextInt(cells / 4)));
    }
    return domain;
  }

  private static CostField labels(Front front, BitSet within) {
    if (within != null) {
      front.keepTo(within);
    }
    try (Workers workers = new Workers(2)) {
      workers.all(Collections.nCopies(2, () -> front.work(Progress.NONE)));
    }
    return front.labels();
  }

  static void assertSame(CostField expected, CostField got, String what) {
    int n = expected.costs().field().spec().cells();
    for (int cell = 0; cell < n; cell++) {
      int at = cell;
      assertEquals(expected.value(cell), got.value(cell), () -> what + " label " + at);
      assertEquals(expected.stepAt(cell), got.stepAt(cell), () -> what + " step " + at);
    }
  }

  @Test
  void whatGoesOnIsWhatHadNeverEnded() {
    SplittableRandom random = new SplittableRandom(41);
    int went = 0;
    for (int k = 0; k < GROUNDS; k++) {
      TraversalCost field = ground(random);
      int cells = field.spec().cells();
      Quantity quantity = Quantity.values()[random.nextInt(3)];
      Costs costs = new Costs(field, quantity, Direction.values()[random.nextInt(2)]);
      int source = random.nextInt(cells);
      BitSet within = random.nextInt(3) == 0 ? null : domain(random, cells);
      double all = Double.POSITIVE_INFINITY;
      CostField whole = labels(Front.from(costs, all, source), within);
      double most = 0;
      for (int cell = 0; cell < cells; cell++) {
        most = whole.reached(cell) ? Math.max(most, whole.value(cell)) : most;
      }
      // From less than the ground about the source, where costs are those of straight lines.
      double little = random.nextDouble() * random.nextDouble() * most;
      double more = random.nextInt(4) == 0 ? all : little + random.nextDouble() * most;
      CostField ended = labels(Front.from(costs, little, source), within);
      CostField wentOn = labels(Front.continuing(ended, more), within);
      CostField anew = labels(Front.from(costs, more, source), within);
      String what = quantity + " on ground " + k + " from " + little + " to " + more;
      assertSame(anew, wentOn, what);
      assertSame(whole, labels(Front.continuing(wentOn, all), within), what + " to the end");
      went += ended.reached(source) ? 1 : 0;
    }
    assertTrue(went > GROUNDS / 2, went + " fronts");
  }
}
