package org.scarpway.reach.corridor;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.clearance.PassagePlan;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachResult.PinchPoint;
import org.scarpway.reach.trip.ReachSolver;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * Pinch points against closing by brute force: every straight line from barrier to barrier is drawn
 * on the cells, these are blocked and the ground is filled again from the base. Random mazes with
 * ways of several widths and ways round, random blots, in all eight positions.
 */
class PinchPointTest {
  /** Wider lines are not tried by brute force. */
  private static final int WIDEST = 6;

  private static boolean[][] filled(PassagePlan p, boolean[][] closed) {
    boolean[][] seen = new boolean[p.rows()][p.cols()];
    int[] stack = new int[4 * p.rows() * p.cols() + 4];
    int depth = 0;
    stack[depth++] = p.baseRow() * p.cols() + p.baseCol();
    while (depth > 0) {
      int cell = stack[--depth];
      int r = cell / p.cols();
      int c = cell % p.cols();
      if (seen[r][c]) {
        continue;
      }
      seen[r][c] = true;
      int[][] around = {{r - 1, c}, {r + 1, c}, {r, c - 1}, {r, c + 1}};
      for (int[] a : around) {
        if (a[0] >= 0
            && a[0] < p.rows()
            && a[1] >= 0
            && a[1] < p.cols()
            && p.open()[a[0]][a[1]]
            && !closed[a[0]][a[1]]) {
          stack[depth++] = a[0] * p.cols() + a[1];
        }
      }
    }
    return seen;
  }

  /** Whether a straight line (in half cells) comes into a cell, its edge included. */
  private static boolean touches(int row, int col, int r0, int c0, int r1, int c1) {
    double from = 0;
    double to = 1;
    double[][] bounds = {{r0, r1 - r0, 2 * row, 2 * row + 2}, {c0, c1 - c0, 2 * col, 2 * col + 2}};
    for (double[] b : bounds) {
      if (b[1] == 0) {
        if (b[0] < b[2] || b[0] > b[3]) {
          return false;
        }
      } else {
        double t0 = (b[2] - b[0]) / b[1];
        double t1 = (b[3] - b[0]) / b[1];
        from = Math.max(from, Math.min(t0, t1));
        to = Math.min(to, Math.max(t0, t1));
      }
    }
    return from <= to + 1e-9;
  }

  /** Distance from a point (half cells) to the nearest barrier cell (cells). */
  private static double roomAt(PassagePlan p, double row, double col) {
    double least = Double.POSITIVE_INFINITY;
    for (int r = 0; r < p.rows(); r++) {
      for (int c = 0; c < p.cols(); c++) {
        if (!p.open()[r][c]) {
          double dy = Math.max(0, Math.max(r - row / 2, row / 2 - r - 1));
          double dx = Math.max(0, Math.max(c - col / 2, col / 2 - c - 1));
          least = Math.min(least, Math.hypot(dx, dy));
        }
      }
    }
    return least;
  }

  /**
   * The widest free disc on either side of a line that a disc as wide as the line comes to from its
   * middle; the smaller of the two.
   */
  private static double widestBeside(
      double[][] room, int row, int col, double width, boolean[][] lost, boolean[][] left) {
    boolean[][] seen = new boolean[room.length][room[0].length];
    int[] stack = new int[room.length * room[0].length];
    int depth = 0;
    seen[row][col] = true;
    stack[depth++] = row * room[0].length + col;
    double behind = 0;
    double before = 0;
    while (depth > 0) {
      int p = stack[--depth];
      int r = p / room[0].length;
      int c = p % room[0].length;
      if (in(lost, r, c)) {
        behind = Math.max(behind, 2 * room[r][c]);
      } else if (in(left, r, c)) {
        before = Math.max(before, 2 * room[r][c]);
      }
      for (int k = 0; k < 9; k++) {
        int y = r + k / 3 - 1;
        int x = c + k % 3 - 1;
        if (y >= 0
            && y < room.length
            && x >= 0
            && x < room[0].length
            && !seen[y][x]
            && 2 * room[y][x] >= width - 1e-9) {
          seen[y][x] = true;
          stack[depth++] = y * room[0].length + x;
        }
      }
    }
    return Math.min(behind, before);
  }

  /** Whether all cells about a point (half cells) are marked. */
  private static boolean in(boolean[][] cells, int row, int col) {
    for (int k = 0; k < 4; k++) {
      int r = Math.floorDiv(k < 2 ? row - 1 : row, 2);
      int c = Math.floorDiv(k % 2 == 0 ? col - 1 : col, 2);
      if (r >= 0 && r < cells.length && c >= 0 && c < cells[0].length && !cells[r][c]) {
        return false;
      }
    }
    return true;
  }

  private static boolean[][] line(PassagePlan p, int r0, int c0, int r1, int c1) {
    boolean[][] cells = new boolean[p.rows()][p.cols()];
    for (int r = 0; r < p.rows(); r++) {
      for (int c = 0; c < p.cols(); c++) {
        cells[r][c] = p.open()[r][c] && touches(r, c, r0, c0, r1, c1);
      }
    }
    return cells;
  }

  private static boolean[][] lost(boolean[][] joined, boolean[][] left, boolean[][] closed) {
    boolean[][] lost = new boolean[joined.length][joined[0].length];
    for (int r = 0; r < joined.length; r++) {
      for (int c = 0; c < joined[0].length; c++) {
        lost[r][c] = joined[r][c] && !left[r][c] && !closed[r][c];
      }
    }
    return lost;
  }

  /** A passage that was closed: its middle (half cells), its width and the cells lost. */
  private record Closed(double row, double col, double width, int lost) {}

  /** Every line between two points of barriers with a free disc between them, if it cuts off. */
  private static List<Closed> all(PassagePlan p) {
    List<int[]> edges = new ArrayList<>();
    double[][] room = new double[2 * p.rows() + 1][2 * p.cols() + 1];
    for (int r = 0; r <= 2 * p.rows(); r++) {
      for (int c = 0; c <= 2 * p.cols(); c++) {
        room[r][c] = roomAt(p, r, c);
        if (room[r][c] == 0) {
          edges.add(new int[] {r, c});
        }
      }
    }
    boolean[][] none = new boolean[p.rows()][p.cols()];
    boolean[][] joined = filled(p, none);
    List<Closed> closed = new ArrayList<>();
    for (int i = 0; i < edges.size(); i++) {
      for (int k = 0; k < i; k++) {
        int[] a = edges.get(i);
        int[] b = edges.get(k);
        double width = Math.hypot(a[0] - b[0], a[1] - b[1]) / 2;
        // The nearest points of two barriers lie an even number of half cells apart, both ways, or
        // can be moved along their edges so that they do.
        if (width == 0 || width > WIDEST || (a[0] + b[0]) % 2 != 0 || (a[1] + b[1]) % 2 != 0) {
          continue;
        }
        int row = (a[0] + b[0]) / 2;
        int col = (a[1] + b[1]) / 2;
        if (room[row][col] < width / 2 - 1e-9) {
          continue;
        }
        boolean[][] cells = line(p, a[0], a[1], b[0], b[1]);
        if (cells[p.baseRow()][p.baseCol()]) {
          continue;
        }
        boolean[][] left = filled(p, cells);
        boolean[][] lost = lost(joined, left, cells);
        int n = count(lost);
        if (n > 0
            && (width <= 0.25 * Math.sqrt(n)
                || widestBeside(room, row, col, width, lost, left) >= 1.5 * width)) {
          closed.add(new Closed(row, col, width, n));
        }
      }
    }
    return closed;
  }

  private static int count(boolean[][] cells) {
    int n = 0;
    for (boolean[] row : cells) {
      for (boolean c : row) {
        n += c ? 1 : 0;
      }
    }
    return n;
  }

  private static List<PinchPoint> told(PassagePlan p) {
    return solve(p).passages();
  }

  private static ReachResult solve(PassagePlan p) {
    GridSpec spec = Fields.grid(p.rows(), p.cols(), 1, 0, 0);
    ReachRequest q =
        Fields.request(
            "r",
            "b",
            spec.xM(p.baseCol()),
            spec.yM(p.baseRow()),
            new Budget(null, null, null),
            HomeRule.DRIVE_BACK,
            List.of(),
            0,
            false);
    try (Workers workers = new Workers(1)) {
      return ReachSolver.solve(
          q,
          Fields.level(
              Fields.level(spec, (x, y) -> p.open()[spec.rowOf(y)][spec.colOf(x)] ? 1 : 0)),
          null,
          List.of(),
          workers,
          Progress.NONE);
    }
  }

  /**
   * What closing a passage loses: its direction is not told, so of the lines that are about as long
   * there the one that loses what is told; null if there is none.
   */
  private static boolean[][] lostBy(PassagePlan p, PinchPoint t) {
    int row = (int) Math.round(2 * (p.rows() - t.yM()));
    int col = (int) Math.round(2 * t.xM());
    int far = (int) Math.ceil(t.widthM() + 0.71);
    boolean[][] joined = filled(p, new boolean[p.rows()][p.cols()]);
    for (int dr = 0; dr <= far; dr++) {
      for (int dc = -far; dc <= far; dc++) {
        if (Math.hypot(dr, dc) > t.widthM() - 1e-5 && Math.hypot(dr, dc) < t.widthM() + 0.71) {
          boolean[][] cells = line(p, row - dr, col - dc, row + dr, col + dc);
          boolean[][] lost = lost(joined, filled(p, cells), cells);
          if (count(lost) == Math.round(t.behindM2())) {
            return lost;
          }
        }
      }
    }
    return null;
  }

  @Test
  void whatIsToldIsLostAndNothingMuchGraverIsMissed() {
    Random random = new Random(11);
    int pinched = 0;
    for (int k = 0; k < 24; k++) {
      PassagePlan p =
          (k % 3 == 2 ? PassagePlan.blots(random) : PassagePlan.maze(random)).turned(k % 8);
      int whole = count(filled(p, new boolean[p.rows()][p.cols()]));
      double worst = all(p).stream().mapToDouble(Closed::lost).max().orElse(0);
      List<PinchPoint> told = told(p);
      double most = told.stream().mapToDouble(PinchPoint::behindM2).max().orElse(0);
      // The narrowest place of a passage stands for all that lose up to a tenth more.
      assertTrue(most >= 0.9 * worst || worst < 0.01 * whole, k + ": " + most + " of " + worst);
      for (PinchPoint t : told) {
        assertTrue(lostBy(p, t) != null, k + ": " + t);
        assertEquals(100 * t.behindM2() / whole, t.behindPct(), 1e-9);
      }
      pinched += told.isEmpty() ? 0 : 1;
    }
    assertTrue(pinched > 15, "pinched " + pinched);
  }

  /** One computation: what a pinch point is wide and what the ground behind it says. */
  @Test
  void groundBehindAPassageCarriesItsWidth() {
    Random random = new Random(12);
    int alone = 0;
    int same = 0;
    for (int k = 0; k < 200; k++) {
      PassagePlan p = PassagePlan.halves(random);
      if (!filled(p, new boolean[p.rows()][p.cols()])[12][30]) {
        continue;
      }
      ReachResult r = solve(p.turned(k % 8));
      double carried = 0;
      for (PinchPoint t : r.passages()) {
        carried = 0;
        boolean[][] lost = lostBy(p.turned(k % 8), t);
        for (int i = 0; i < lost.length * lost[0].length; i++) {
          int row = i / lost[0].length;
          int col = i % lost[0].length;
          double away = Math.hypot(row + 0.5 - lost.length + t.yM(), col + 0.5 - t.xM());
          // Discs from before the passage cover cells about it.
          if (lost[row][col] && away > t.widthM() + 1) {
            carried = Math.max(carried, r.gapWidthM().values()[i]);
          }
        }
        assertTrue(carried <= t.widthM() + 1e-5, k + ": " + carried + " behind " + t);
      }
      if (r.passages().size() == 1) {
        alone++;
        same += Math.abs(carried - r.passages().get(0).widthM()) < 1e-5 ? 1 : 0;
      }
    }
    assertTrue(alone > 100 && same > 0.97 * alone, same + " of " + alone);
  }

  @Test
  void mirroredAndTurnedGroundLosesTheSame() {
    Random random = new Random(13);
    for (int k = 0; k < 9; k++) {
      PassagePlan p = k % 3 == 2 ? PassagePlan.blots(random) : PassagePlan.maze(random);
      double[][] expected = figures(told(p));
      for (int turn = 1; turn < 8; turn++) {
        double[][] got = figures(told(p.turned(turn)));
        assertEquals(expected.length, got.length, k + " turned " + turn);
        for (int i = 0; i < got.length; i++) {
          assertArrayEquals(expected[i], got[i], 1e-5, k + " turned " + turn);
        }
      }
    }
  }

  private static double[][] figures(List<PinchPoint> told) {
    return told.stream().map(t -> new double[] {t.widthM(), t.behindM2()}).toArray(double[][]::new);
  }
}
