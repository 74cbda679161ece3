package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Walk-back with refuges against a label-correcting search over cells and times that shares nothing
 * with the fronts: earlier is never worse, so each cell keeps the earliest moment from which every
 * place so far leaves time to walk to a refuge, and the least time that a way home from it asks for
 * wherever it is left on foot.
 */
class WalkInTimeTest {
  private static final int N = PlainTrips.N;
  private static final GridSpec SPEC = Fields.grid(N, N, 10, 0, 0);

  /** Seconds per metre by cell, infinite for barriers. */
  private final double[] drive = new double[N * N];

  private final double[] walk = new double[N * N];

  /** Slow blots, barriers and a ditch for walkers. */
  private void draw(Random random) {
    Arrays.fill(drive, 0.25);
    Arrays.fill(walk, 1);
    for (int k = 0; k < 40; k++) {
      int row = random.nextInt(N);
      int col = random.nextInt(N);
      // Two of them are wide ground that is slow on foot: quick ways through it come too late.
      int size = k < 2 ? 14 : 1 + random.nextInt(4);
      int kind = k < 2 ? 2 : random.nextInt(4);
      for (int r = row; r < Math.min(N, row + size); r++) {
        for (int c = col; c < Math.min(N, col + size); c++) {
          if (kind == 0) {
            drive[r * N + c] = Double.POSITIVE_INFINITY;
          } else if (kind == 1) {
            drive[r * N + c] = 0.6;
          } else if (kind == 2) {
            walk[r * N + c] = 6;
          } else {
            walk[r * N + c] = Double.POSITIVE_INFINITY;
          }
        }
      }
    }
    for (int r = 19; r < 22; r++) {
      for (int c = 19; c < 22; c++) {
        drive[r * N + c] = 0.25;
        walk[r * N + c] = 1;
      }
    }
  }

  private static TraversalCost field(double[] perM) {
    return Fields.level(SPEC, (x, y) -> 1 / perM[SPEC.cellOf(x, y)]);
  }

  private byte[] states(int base, int refuge, double timeS) {
    ReachRequest q =
        Fields.request(
            "r",
            "b",
            SPEC.xM(base % N),
            SPEC.yM(base / N),
            new Budget(timeS, null, null),
            HomeRule.WALK_BACK,
            List.of(),
            0,
            true);
    WalkHome home =
        Questions.walkHome(
            field(walk),
            1e6,
            0,
            List.of(new WalkHome.Refuge("hut", SPEC.xM(refuge % N), SPEC.yM(refuge / N))));
    try (Workers workers = new Workers(1)) {
      return ReachSolver.solve(
              q, Fields.level(field(drive)), home, List.of(), workers, Progress.NONE)
          .state()
          .values();
    }
  }

  private static boolean[] within(
      double[] drive, double[] walkS, double[] homeS, double timeS, double besideCells, int base) {
    double[] latest = new double[N * N];
    for (int i = 0; i < latest.length; i++) {
      latest[i] = timeS - walkS[i];
    }
    double[] out = PlainTrips.search(drive, latest, besideCells, base);
    boolean[] in = new boolean[N * N];
    for (int i = 0; i < in.length; i++) {
      in[i] = out[i] + homeS[i] <= timeS;
    }
    return in;
  }

  @Test
  void surelyIsNeverWrongAndHardlyAnythingIsLeftOpen() {
    Random random = new Random(21);
    int reached = 0;
    int open = 0;
    int missed = 0;
    int rim = 0;
    for (int k = 0; k < 12; k++) {
      draw(random);
      int base = 20 * N + 20;
      int refuge = random.nextInt(N) * N + random.nextInt(N);
      if (walk[refuge] == Double.POSITIVE_INFINITY) {
        walk[refuge] = 1;
      }
      double timeS = 150 + random.nextInt(200);
      double[] free = new double[N * N];
      Arrays.fill(free, Double.POSITIVE_INFINITY);
      double[] walkS = PlainTrips.search(walk, free, 0, base, refuge);
      double[] homeS = PlainTrips.needs(drive, walkS, 0, base);
      double[] walkLongerS = PlainTrips.search(walk, free, 0.1, base, refuge);
      double[] homeLongerS = PlainTrips.needs(drive, walkLongerS, 0.1, base);
      byte[] state = states(base, refuge, timeS);
      boolean[] more = within(drive, walkS, homeS, 1.03 * timeS + 5, 0, base);
      boolean[] less = within(drive, walkLongerS, homeLongerS, 0.95 * timeS - 10, 0.1, base);
      for (int i = 0; i < state.length; i++) {
        assertTrue(state[i] != ReachState.SURELY || more[i], "ground " + k + ", cell " + i);
        reached += state[i] == ReachState.SURELY ? 1 : 0;
        open += state[i] == ReachState.POSSIBLY ? 1 : 0;
        missed += less[i] && state[i] == 0 ? 1 : 0;
        rim += less[i] && state[i] != ReachState.SURELY ? 1 : 0;
      }
    }
    assertEquals(0, missed);
    assertTrue(reached > 9000 && open < 0.03 * reached, open + " open, " + reached + " reached");
    assertTrue(rim < 0.025 * reached, rim + " of " + reached + " not told that are well within");
  }
}
