package org.scarpway.reach.front;

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

/** A front repaired where the ground changed is that of the new ground to the last bit. */
class ChangedGroundTest {
  private static final int GROUNDS = 60;

  /** The ground with other headings, gradients and speeds in some of its cells. */
  static TraversalCost changed(TraversalCost field, TraversalCost other, BitSet cells, int what) {
    int n = field.spec().cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    for (int i = 0; i < n; i++) {
      boolean here = cells.get(i);
      TraversalCost from = here && what == 0 ? other : field;
      int bits = from.allowed(i);
      allowed[i] = here && what == 1 ? 0 : here && what == 2 ? -1 : bits;
      east[i] = from.gradEast(i);
      north[i] = from.gradNorth(i);
      cap[i] = from.speedCapMs(i) * (here && what == 3 ? 3 : 1);
    }
    return new TraversalCost(
        field.spec(), allowed, east, north, cap, new byte[n], FrontTest.regenerating());
  }

  private static CostField labels(Front front) {
    try (Workers workers = new Workers(2)) {
      workers.all(Collections.nCopies(2, () -> front.work(Progress.NONE)));
    }
    return front.labels();
  }

  private static BitSet some(SplittableRandom random, GridSpec spec) {
    BitSet cells = new BitSet();
    int high = 1 + random.nextInt(20);
    int broad = 1 + random.nextInt(20);
    int row = random.nextInt(spec.rows());
    int col = random.nextInt(spec.cols());
    for (int r = row; r < Math.min(spec.rows(), row + high); r++) {
      for (int c = col; c < Math.min(spec.cols(), col + broad); c++) {
        cells.set(r * spec.cols() + c, random.nextInt(4) > 0);
      }
    }
    return cells;
  }

  @Test
  void repairedAndAnewAreOne() {
    SplittableRandom random = new SplittableRandom(47);
    int repaired = 0;
    for (int k = 0; k < GROUNDS; k++) {
      GridSpec spec =
          new GridSpec(20 + random.nextInt(130), 20 + random.nextInt(130), 5, 6, 0, 900, "");
      TraversalCost field = FrontTest.rough(spec, random.nextLong());
      TraversalCost other = FrontTest.rough(spec, random.nextLong());
      BitSet cells = some(random, spec);
      TraversalCost now = changed(field, other, cells, k % 4);
      Quantity quantity = Quantity.values()[random.nextInt(3)];
      Direction direction = Direction.values()[random.nextInt(2)];
      int source = random.nextInt(spec.cells());
      double all = Double.POSITIVE_INFINITY;
      CostField ended = labels(Front.from(new Costs(field, quantity, direction), all, source));
      Costs costs = new Costs(now, quantity, direction);
      Front front = Front.onOtherGround(ended, costs, cells, all);
      if (front != null) {
        repaired++;
        CostField anew = labels(Front.from(costs, all, source));
        ContinuedFrontTest.assertSame(anew, labels(front), quantity + " on ground " + k);
      }
    }
    assertTrue(repaired > GROUNDS / 3, repaired + " fronts");
  }
}
