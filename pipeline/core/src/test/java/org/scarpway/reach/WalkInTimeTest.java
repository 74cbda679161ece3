package org.scarpway.reach;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.PriorityQueue;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.ReachRequest.Budget;
import org.scarpway.reach.ReachRequest.HomeRule;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.MoveField;

/**
 * Walk-back with refuges against a label-correcting search over cells and times that shares nothing
 * with the fronts: earlier is never worse, so each cell keeps the earliest moment from which every
 * place so far leaves time to walk to a refuge.
 */
class WalkInTimeTest {
  private static final int N = 41;
  private static final GridSpec SPEC = Fields.grid(N, N, 10, 0, 0);

  /** Straight steps to cells up to so far away: headings are then as fine as the fronts'. */
  private static final int FAR = 4;

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

  /**
   * Earliest times from several cells, none later than allowed.
   *
   * @param latest by cell
   * @param besideCells room to barriers that a step needs
   */
  private static double[] search(double[] perM, double[] latest, double besideCells, int... from) {
    double[] best = new double[N * N];
    Arrays.fill(best, Double.POSITIVE_INFINITY);
    PriorityQueue<double[]> queue = new PriorityQueue<>((a, b) -> Double.compare(a[0], b[0]));
    for (int f : from) {
      best[f] = 0;
      queue.add(new double[] {0, f});
    }
    while (!queue.isEmpty()) {
      double[] first = queue.poll();
      int cell = (int) first[1];
      if (first[0] > best[cell]) {
        continue;
      }
      for (int dr = -FAR; dr <= FAR; dr++) {
        for (int dc = -FAR; dc <= FAR; dc++) {
          int r = cell / N + dr;
          int c = cell % N + dc;
          if ((dr != 0 || dc != 0) && r >= 0 && r < N && c >= 0 && c < N) {
            double at = along(perM, latest, cell, dr, dc, first[0], besideCells);
            if (at < best[r * N + c]) {
              best[r * N + c] = at;
              queue.add(new double[] {at, r * N + c});
            }
          }
        }
      }
    }
    return best;
  }

  /** Drives a straight step in small pieces; infinite where it is barred or too late. */
  private static double along(
      double[] perM, double[] latest, int cell, int dr, int dc, double start, double besideCells) {
    int pieces = 24 * Math.max(Math.abs(dr), Math.abs(dc));
    double lengthM = 10 * Math.hypot(dr, dc) / pieces;
    double at = start;
    int fromRow = cell / N;
    int fromCol = cell % N;
    for (int k = 0; k < pieces; k++) {
      double row = fromRow + dr * (k + 0.5) / pieces;
      double col = fromCol + dc * (k + 0.5) / pieces;
      int here = (int) Math.rint(row) * N + (int) Math.rint(col);
      at += perM[here] * lengthM;
      for (int side = 0; side < 4 && besideCells > 0; side++) {
        int r = (int) Math.rint(row + (side < 2 ? -besideCells : besideCells));
        int c = (int) Math.rint(col + (side % 2 == 0 ? -besideCells : besideCells));
        boolean inside = r >= 0 && r < N && c >= 0 && c < N;
        if (inside && perM[r * N + c] == Double.POSITIVE_INFINITY) {
          return Double.POSITIVE_INFINITY;
        }
      }
      if (!(at <= latest[here])) {
        return Double.POSITIVE_INFINITY;
      }
    }
    return at;
  }

  private static MoveField field(double[] perM) {
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
        new WalkHome(
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
    double[] out = search(drive, latest, besideCells, base);
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
      double[] walkS = search(walk, free, 0, base, refuge);
      double[] homeS = search(drive, free, 0, base);
      double[] walkLongerS = search(walk, free, 0.1, base, refuge);
      double[] homeLongerS = search(drive, free, 0.1, base);
      byte[] state = states(base, refuge, timeS);
      boolean[] more = within(drive, walkS, homeS, 1.03 * timeS + 5, 0, base);
      boolean[] less = within(drive, walkLongerS, homeLongerS, 0.95 * timeS - 10, 0.1, base);
      for (int i = 0; i < state.length; i++) {
        assertTrue(state[i] != ReachResult.SURELY || more[i], "ground " + k + ", cell " + i);
        reached += state[i] == ReachResult.SURELY ? 1 : 0;
        open += state[i] == ReachResult.POSSIBLY ? 1 : 0;
        missed += less[i] && state[i] == 0 ? 1 : 0;
        rim += less[i] && state[i] != ReachResult.SURELY ? 1 : 0;
      }
    }
    assertEquals(0, missed);
    assertTrue(reached > 9000 && open < 0.03 * reached, open + " open, " + reached + " reached");
    assertTrue(rim < 0.025 * reached, rim + " of " + reached + " not told that are well within");
  }
}
