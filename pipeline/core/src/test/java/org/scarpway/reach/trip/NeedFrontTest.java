package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Stencil;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Ways home of the least need, against a search that shares nothing with the fronts. */
class NeedFrontTest {
  private static final double NONE = Double.POSITIVE_INFINITY;
  private static final int N = PlainTrips.N;
  private static final GridSpec SPEC = Fields.grid(N, N, 10, 0, 0);
  private static final int BASE = 20 * N + 20;

  private static CostField spread(TraversalCost field, Stops stops, int base) {
    try (Workers workers = new Workers(1)) {
      return NeedFront.spread(field, stops, base, workers, Progress.NONE);
    }
  }

  private static Stops stops(double[] homeS, double tripS) {
    float[] s = new float[homeS.length];
    for (int i = 0; i < s.length; i++) {
      s[i] = (float) homeS[i];
    }
    ReachLimits limits = Fields.limits(HomeRule.WALK_BACK, tripS, NONE, NONE, NONE, 0);
    return new Stops(limits, Floats.of(s), null, List.of());
  }

  /** Blots from which it takes long to walk, slow ground and barriers. */
  @Test
  void needsAreTheLeastAndTheirWaysKeepToThem() {
    Random random = new Random(33);
    int around = 0;
    for (int k = 0; k < 2; k++) {
      double[] drive = new double[N * N];
      double[] walkS = new double[N * N];
      Arrays.fill(drive, 0.25);
      for (int blot = 0; blot < 30; blot++) {
        int row = random.nextInt(N);
        int col = random.nextInt(N);
        int size = 1 + random.nextInt(5);
        double perM = blot % 3 == 0 ? NONE : 0.6;
        double longS = 200 + random.nextInt(200);
        for (int r = row; r < Math.min(N, row + size); r++) {
          for (int c = col; c < Math.min(N, col + size); c++) {
            if (blot % 3 == 2) {
              walkS[r * N + c] = longS;
            } else {
              drive[r * N + c] = perM;
            }
          }
        }
      }
      for (int i = 0; i < walkS.length; i++) {
        int rows = Math.abs(i / N - 20);
        int cols = Math.abs(i % N - 20);
        walkS[i] += 4 * Math.hypot(rows, cols);
        if (rows < 2 && cols < 2) {
          drive[i] = 0.25;
          walkS[i] = 4 * Math.hypot(rows, cols);
        }
      }
      double[] least = PlainTrips.needs(drive, walkS, 0, BASE);
      double[] beside = PlainTrips.needs(drive, walkS, 0.1, BASE);
      TraversalCost field = Fields.level(SPEC, (x, y) -> 1 / drive[SPEC.cellOf(x, y)]);
      Stops stops = stops(walkS, 700);
      CostField labels = spread(field, stops, BASE);
      PathSums ways = PathSums.along(labels, Floats.of(new float[N * N]), false, stops);
      int kept = 0;
      int all = 0;
      for (int i = 0; i < walkS.length; i++) {
        if (labels.reached(i)) {
          String where = "ground " + k + ", cell " + i;
          assertTrue(labels.value(i) >= 0.97 * least[i] - 5, where);
          assertTrue(labels.value(i) <= 1.05 * beside[i] + 10, where);
          // The way takes as long as the search says at least, and hardly longer than was promised.
          assertTrue(ways.needS(i) >= 0.97 * least[i] - 5, where);
          kept += ways.needS(i) <= 1.02 * labels.value(i) + 3 ? 1 : 0;
          all++;
          int rows = i / N - 20;
          int cols = i % N - 20;
          around += ways.timeS(i) > 1.1 * 2.5 * Math.hypot(rows, cols) ? 1 : 0;
        }
      }
      assertTrue(all > 1000 && kept > 0.98 * all, kept + " of " + all);
    }
    assertTrue(around > 300, around + " ways round");
  }

  /**
   * A lane and a way round it: from the middle of the lane it takes an hour to walk. Within the
   * trip's time the way round is taken, 2.5 s a cell.
   */
  @Test
  void aPlaceFromWhichItTakesLongIsDrivenAround() {
    double[] drive = new double[N * N];
    double[] walkS = new double[N * N];
    Arrays.fill(drive, NONE);
    for (int col = 10; col <= 30; col++) {
      drive[20 * N + col] = 0.25;
      drive[14 * N + col] = 0.25;
    }
    for (int row = 14; row <= 20; row++) {
      drive[row * N + 10] = 0.25;
      drive[row * N + 30] = 0.25;
    }
    walkS[20 * N + 19] = 3600;
    walkS[20 * N + 20] = 3600;
    int base = 20 * N + 10;
    int far = 20 * N + 30;
    TraversalCost field = Fields.level(SPEC, (x, y) -> 1 / drive[SPEC.cellOf(x, y)]);
    Stops stops = stops(walkS, 1000);
    CostField round = spread(field, stops, base);
    PathSums ways = PathSums.along(round, Floats.of(new float[N * N]), false, stops);
    // 20 and twice 6 cells, corners cut.
    assertEquals(32 * 2.5, round.value(far), 8);
    assertEquals(32 * 2.5, ways.timeS(far), 8);
    assertEquals(8 * 2.5, ways.needS(20 * N + 18), 1e-3);
    assertTrue(!round.reached(20 * N + 19) && !round.reached(20 * N + 20));
    assertTrue(round.value(20 * N + 21) > 32 * 2.5);
    CostField wide = spread(field, stops(walkS, 1e5), base);
    assertEquals(3600, wide.value(20 * N + 19), 3);
  }

  /** Near the base a straight line is taken where it asks for no more than the label says. */
  @Test
  void aStraightLineIsTakenWhereNothingOnItTakesLong() {
    double[] drive = new double[N * N];
    Arrays.fill(drive, 0.25);
    double[] walkS = new double[N * N];
    TraversalCost field = Fields.level(SPEC, (x, y) -> 4);
    int straight = 0;
    CostField plain = spread(field, stops(walkS, NONE), BASE);
    for (int i = 0; i < walkS.length; i++) {
      int dr = i / N - 20;
      int dc = i % N - 20;
      boolean near = dr * dr + dc * dc <= 100;
      straight += plain.stepAt(i) == Stencil.STRAIGHT ? 1 : 0;
      if (near) {
        assertEquals(2.5 * Math.hypot(dr, dc), plain.value(i), 0.01 * plain.value(i) + 1e-6);
      } else {
        assertTrue(plain.stepAt(i) < Stencil.CODES, "cell " + i);
      }
    }
    // Of 317 cells; elsewhere the front is a rounding quicker.
    assertTrue(straight > 60, straight + " straight");
    // Six cells east of the base it takes 500 s to walk; beyond it no straight line leads there.
    walkS[20 * N + 26] = 500;
    CostField gully = spread(field, stops(walkS, NONE), BASE);
    for (int col = 27; col <= 30; col++) {
      assertTrue(gully.stepAt(20 * N + col) < Stencil.CODES);
      assertTrue(gully.value(20 * N + col) < 2.5 * (col - 20) + 10);
    }
  }
}
