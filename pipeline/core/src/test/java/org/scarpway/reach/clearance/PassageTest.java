package org.scarpway.reach.clearance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.function.IntBinaryOperator;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult.PinchPoint;
import org.scarpway.reach.trip.ReachSolver;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Widths of passages against ruled drawings of them, and what hangs on them against counting. */
class PassageTest {
  private static final int SIZE = 41;
  private static final int FINE = 97;

  /** A way comes within half a diagonal of a point; the width changes by twice that. */
  private static final double FINE_STEP = Math.sqrt(2) / 8;

  private static final GridSpec SPEC = Fields.grid(SIZE, SIZE, 1, 0, 0);

  private static float[] gaps(GridSpec spec, TraversalCost field, int base) {
    float[] gapM = new float[spec.cells()];
    try (Workers workers = new Workers(1)) {
      WidestPaths.spread(Clearance.of(field, workers), field, base, Floats.of(gapM), workers);
    }
    return gapM;
  }

  /** 0 where the rule says so, by row and column. */
  private static TraversalCost drawn(GridSpec spec, IntBinaryOperator open) {
    return Fields.level(spec, (x, y) -> open.applyAsInt(spec.rowOf(y), spec.colOf(x)));
  }

  private static int cell(int row, int col) {
    return row * SIZE + col;
  }

  @Test
  void straightPassagesMeasureTheirCells() {
    for (int n = 1; n <= 8; n++) {
      int wide = n;
      IntBinaryOperator eastWest = (r, c) -> c < 12 || c > 28 || (r >= 18 && r < 18 + wide) ? 1 : 0;
      float[] gap = gaps(SPEC, drawn(SPEC, eastWest), cell(20, 3));
      assertEquals(n, gap[cell(20, 38)], 1e-5, n + " cells, east to west");
      assertEquals(n, gap[cell(18, 20)], 1e-5, "beside the wall of the passage");
      gap = gaps(SPEC, drawn(SPEC, (r, c) -> eastWest.applyAsInt(c, r)), cell(3, 20));
      assertEquals(n, gap[cell(38, 20)], 1e-5, n + " cells, north to south");
    }
  }

  @Test
  void slantingPassagesMeasureFromCornerToCorner() {
    for (int n = 2; n <= 8; n++) {
      // n diagonals of cells: the steps of both sides face each other for odd n, else they are
      // staggered by one cell.
      int wide = n;
      IntBinaryOperator band =
          (r, c) -> r + c < 26 || r + c > 54 || (c - r >= 0 && c - r < wide) ? 1 : 0;
      double along = n % 2 == 0 ? 0.5 : 0;
      double expected = Math.sqrt((n - 1) * (n - 1) / 2.0 + along);
      float[] gap = gaps(SPEC, drawn(SPEC, band), cell(5, 5));
      assertEquals(expected, gap[cell(36, 36)], 1e-5, n + " diagonals");
      gap = gaps(SPEC, drawn(SPEC, (r, c) -> band.applyAsInt(r, SIZE - 1 - c)), cell(5, 35));
      assertEquals(expected, gap[cell(36, 4)], 1e-5, n + " diagonals, the other way");
    }
  }

  @Test
  void cellsThatTouchAtACornerAreNoPassage() {
    float[] gap = gaps(SPEC, drawn(SPEC, (r, c) -> r == c ? 0 : 1), cell(30, 2));
    assertTrue(Float.isNaN(gap[cell(2, 30)]));
  }

  /**
   * Random barriers: the widest way on points an eighth of a cell apart, clearances by looking at
   * every barrier, so no more than {@code FINE_STEP} short of the truth. Narrowest places agree;
   * the widest disc of a room may lie between half cells, so that a little less is told, never
   * more.
   */
  @Test
  void widestWaysAgreeWithAFineSearch() {
    GridSpec spec = Fields.grid(12, 12, 1, 0, 0);
    Random random = new Random(3);
    int cells = 0;
    int exact = 0;
    for (int k = 0; k < 6; k++) {
      boolean[] barrier = new boolean[144];
      for (int i = 0; i < 30; i++) {
        barrier[random.nextInt(144)] = true;
      }
      barrier[0] = false;
      TraversalCost field = drawn(spec, (r, c) -> barrier[r * 12 + c] ? 0 : 1);
      float[] gap = gaps(spec, field, 0);
      double[] fine = fineSearch(barrier);
      for (int cell = 0; cell < 144; cell++) {
        if (!barrier[cell]) {
          double got = Float.isNaN(gap[cell]) ? 0 : gap[cell];
          String where = "cell " + cell + " of ground " + k;
          assertTrue(got <= fine[cell] + FINE_STEP, where + ": " + got + " over " + fine[cell]);
          assertTrue(got >= fine[cell] - Math.sqrt(0.5), where + ": " + got);
          exact += Math.abs(got - fine[cell]) < FINE_STEP ? 1 : 0;
          cells++;
        }
      }
    }
    assertTrue(exact > 0.8 * cells, exact + " of " + cells);
  }

  private static int fineRow(int point) {
    return point / FINE;
  }

  private static double[] fineSearch(boolean[] barrier) {
    int n = FINE;
    double[] width = new double[n * n];
    for (int p = 0; p < n * n; p++) {
      double x = p % n / 8.0;
      double y = fineRow(p) / 8.0;
      double least = 12 * Math.sqrt(2);
      for (int b = 0; b < 144; b++) {
        if (barrier[b]) {
          double dx = Math.max(0, Math.max(b % 12 - x, x - b % 12 - 1));
          int row = b / 12;
          double dy = Math.max(0, Math.max(row - y, y - row - 1));
          least = Math.min(least, 2 * Math.hypot(dx, dy));
        }
      }
      width[p] = least;
    }
    double[] best = new double[n * n];
    // Discs that cover the middle of the first cell.
    for (int p = 0; p < n * n; p++) {
      double away = Math.hypot(p % n / 8.0 - 0.5, fineRow(p) / 8.0 - 0.5);
      best[p] = away <= width[p] / 2 ? width[p] : 0;
    }
    for (boolean changed = true; changed; ) {
      changed = false;
      for (int p = 0; p < n * n; p++) {
        for (int dr = -1; dr <= 1; dr++) {
          for (int dc = -1; dc <= 1; dc++) {
            int r = p / n + dr;
            int c = p % n + dc;
            if (r >= 0 && r < n && c >= 0 && c < n) {
              double through = Math.min(best[r * n + c], width[p]);
              if (through > best[p]) {
                best[p] = through;
                changed = true;
              }
            }
          }
        }
      }
    }
    double[] covered = new double[144];
    for (int cell = 0; cell < 144; cell++) {
      int row = cell / 12;
      for (int p = 0; p < n * n; p++) {
        double away = Math.hypot(p % n / 8.0 - cell % 12 - 0.5, fineRow(p) / 8.0 - row - 0.5);
        if (away <= best[p] / 2) {
          covered[cell] = Math.max(covered[cell], best[p]);
        }
      }
    }
    return covered;
  }

  private static List<PinchPoint> passages(TraversalCost field, double x, double y) {
    ReachRequest q =
        Fields.request(
            "r", "b", x, y, new Budget(null, null, null), HomeRule.DRIVE_BACK, List.of(), 0, false);
    ReachRequest.Target east = new ReachRequest.Target("east", 38.5, 20.5, 1, 0, 0);
    try (Workers workers = new Workers(2)) {
      return ReachSolver.solve(q, Fields.level(field), null, List.of(east), workers, Progress.NONE)
          .passages();
    }
  }

  @Test
  void everyPassageIsNamedOnceWithWhatHangsOnIt() {
    // Three rooms in a row; gaps of 4 and 2 cells through walls two cells thick.
    TraversalCost rooms =
        drawn(
            SPEC,
            (r, c) ->
                ((c == 12 || c == 13) && !(r >= 10 && r < 14))
                        || ((c == 26 || c == 27) && !(r >= 30 && r < 32))
                    ? 0
                    : 1);
    List<PinchPoint> found = passages(rooms, 5.5, 20.5);
    assertEquals(2, found.size(), found.toString());
    PinchPoint first = found.get(0);
    PinchPoint second = found.get(1);
    assertEquals(4, first.widthM(), 1e-5);
    assertEquals(2, second.widthM(), 1e-5);
    assertEquals(13, first.xM(), 1.01);
    assertEquals(SIZE - 12, first.yM(), 1e-9);
    assertEquals(27, second.xM(), 1.01);
    assertEquals(SIZE - 31, second.yM(), 1e-9);
    // Behind: everything east of the closed column, but for cells of the gap that are closed.
    int middle = 12 * SIZE + 2 * 2;
    int last = 13 * SIZE;
    assertEquals(middle + last, first.behindM2(), 4 * 2);
    assertEquals(last, second.behindM2(), 2 * 2);
    assertEquals(List.of("east"), second.targets());
    double surely = 12 * SIZE + 8 + middle + last;
    assertEquals(100 * second.behindM2() / surely, second.behindPct(), 0.5);
  }

  @Test
  void passagesWithAWayRoundHoldNothing() {
    TraversalCost twoGaps =
        drawn(SPEC, (r, c) -> c == 20 && !(r >= 5 && r < 8) && !(r >= 30 && r < 35) ? 0 : 1);
    assertEquals(List.of(), passages(twoGaps, 5.5, 20.5));
    TraversalCost open = drawn(SPEC, (r, c) -> 1);
    assertEquals(List.of(), passages(open, 5.5, 20.5));
  }

  @Test
  void widestFirstComesInOrder() {
    MaxWidthQueue queue = new MaxWidthQueue(null);
    Random random = new Random(1);
    float[] widths = new float[3000];
    for (int i = 0; i < widths.length; i++) {
      widths[i] = random.nextInt(500);
      queue.add(i, widths[i]);
    }
    int before = queue.poll();
    int taken = 1;
    while (!queue.isEmpty()) {
      int next = queue.poll();
      assertTrue(
          widths[before] > widths[next] || (widths[before] == widths[next] && before < next));
      before = next;
      taken++;
    }
    assertEquals(widths.length, taken);
  }
}
