package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Workers;

class MinimumGapTest {
  private static GridSpec spec(int rows, int cols, double cellXM, double cellYM) {
    return new GridSpec(rows, cols, cellXM, cellYM, 0, rows * cellYM, "");
  }

  private static byte[] find(boolean[] blocked, GridSpec spec, double gapM, double turnM) {
    try (Workers workers = new Workers(2)) {
      return MinimumGap.find(blocked, spec, gapM, turnM, workers);
    }
  }

  private static boolean[] all(GridSpec spec) {
    boolean[] blocked = new boolean[spec.cells()];
    Arrays.fill(blocked, true);
    return blocked;
  }

  @Test
  void aStraightPassageIsAsWideAsItsCells() {
    GridSpec s = spec(90, 40, 0.5, 0.5);
    for (int cells = 1; cells <= 8; cells++) {
      for (boolean turned : new boolean[] {false, true}) {
        boolean[] blocked = all(s);
        for (int row = 0; row < 90; row++) {
          for (int k = 0; k < cells; k++) {
            blocked[turned ? (10 + k) * 40 + row % 40 : row * 40 + 10 + k] = false;
          }
        }
        int at = turned ? 10 * 40 + 20 : 45 * 40 + 10;
        double widthM = 0.5 * cells;
        assertEquals(0, find(blocked, s, widthM, 0)[at], cells + " cells");
        assertEquals(MinimumGap.NARROW, find(blocked, s, widthM + 0.01, 0)[at], cells + " cells");
      }
    }
  }

  @Test
  void cellsNeedNotBeSquare() {
    GridSpec s = spec(40, 40, 0.5, 0.8);
    boolean[] columns = all(s);
    boolean[] rows = all(s);
    for (int k = 0; k < 40; k++) {
      for (int w = 20; w < 23; w++) {
        columns[k * 40 + w] = false;
        rows[w * 40 + k] = false;
      }
    }
    assertEquals(0, find(columns, s, 1.5, 0)[20 * 40 + 21]);
    assertEquals(MinimumGap.NARROW, find(columns, s, 1.6, 0)[20 * 40 + 21]);
    assertEquals(0, find(rows, s, 2.4, 0)[21 * 40 + 20]);
    assertEquals(MinimumGap.NARROW, find(rows, s, 2.5, 0)[21 * 40 + 20]);
  }

  @Test
  void aWedgeIsOpenAsFarAsTheDiscGoes() {
    // Walls of half a right angle with the bisector: a disc of radius r stays r sqrt 2 from the
    // tip.
    int n = 200;
    GridSpec s = spec(n, n, 1, 1);
    boolean[] blocked = new boolean[n * n];
    for (int i = 0; i < blocked.length; i++) {
      double x = i % n - (n - 1) / 2.0;
      int y = i / n;
      blocked[i] = Math.abs(x) > y;
    }
    byte[] code = find(blocked, s, 20, 0);
    int firstOpen = 0;
    while (blocked[firstOpen * n + n / 2]) {
      firstOpen++;
    }
    while (code[firstOpen * n + n / 2] != 0) {
      firstOpen++;
    }
    // The disc's near point lies at r (sqrt 2 - 1) from the tip, here to within its staircase.
    assertEquals(10 * (Math.sqrt(2) - 1), firstOpen, 1.5);
  }

  @Test
  void sameAsLookingAtEveryDisc() {
    GridSpec s = spec(150, 41, 1, 1.3);
    Random random = new Random(4);
    boolean[] blocked = new boolean[s.cells()];
    for (int i = 0; i < blocked.length; i++) {
      blocked[i] = random.nextInt(11) == 0;
    }
    for (double gapM : new double[] {0, 0.9, 1.7, 3, 4.2, 6}) {
      byte[] got = find(blocked, s, gapM, 0);
      for (int i = 0; i < got.length; i++) {
        boolean narrow = !blocked[i] && !covered(blocked, s, i, gapM / 2);
        assertEquals(narrow ? MinimumGap.NARROW : 0, got[i], gapM + " m, cell " + i);
      }
    }
  }

  /** Tries every centre of the half-cell lattice near a cell against every blocked square. */
  private static boolean covered(boolean[] blocked, GridSpec s, int cell, double radiusM) {
    double xM = (cell % s.cols() + 0.5) * s.cellXM();
    int row = cell / s.cols();
    double yM = (row + 0.5) * s.cellYM();
    int reach = 17; // 12 of the longer sides
    for (int j = -2 * reach; j <= 2 * reach; j++) {
      for (int k = -2 * reach; k <= 2 * reach; k++) {
        double cx = xM + k * s.cellXM() / 2;
        double cy = yM + j * s.cellYM() / 2;
        boolean inside =
            cx >= 0 && cy >= 0 && cx <= s.cols() * s.cellXM() && cy <= s.rows() * s.cellYM();
        if (inside
            && Math.hypot(cx - xM, cy - yM) <= 12 * 1.3
            && clear(blocked, s, cx, cy, Math.max(radiusM, Math.hypot(cx - xM, cy - yM)))) {
          return true;
        }
      }
    }
    return false;
  }

  private static boolean clear(boolean[] blocked, GridSpec s, double x, double y, double radiusM) {
    int nearCol = (int) (x / s.cellXM());
    int nearRow = (int) (y / s.cellYM());
    int reach = (int) Math.ceil(radiusM / Math.min(s.cellXM(), s.cellYM())) + 1;
    for (int row = Math.max(0, nearRow - reach); row <= nearRow + reach && row < s.rows(); row++) {
      for (int col = Math.max(0, nearCol - reach);
          col <= nearCol + reach && col < s.cols();
          col++) {
        if (blocked[row * s.cols() + col]) {
          double dx = Math.max(0, Math.max(col * s.cellXM() - x, x - (col + 1) * s.cellXM()));
          double dy = Math.max(0, Math.max(row * s.cellYM() - y, y - (row + 1) * s.cellYM()));
          if (Math.hypot(dx, dy) < radiusM - 1e-9) {
            return false;
          }
        }
      }
    }
    return true;
  }

  @Test
  void pocketsMustHoldTheTurningSpace() {
    GridSpec s = spec(40, 40, 1, 1);
    boolean[] blocked = all(s);
    room(blocked, 5, 5, 4, 4);
    room(blocked, 5, 20, 3, 9); // long enough one way
    room(blocked, 20, 0, 2, 3); // reaches the edge: not known to be closed
    room(blocked, 30, 10, 4, 4);
    room(blocked, 34, 14, 4, 4); // touches it at a corner only
    byte[] code = find(blocked, s, 0, 4);
    assertEquals(0, code[6 * 40 + 6]);
    byte[] wider = find(blocked, s, 0, 4.5);
    assertEquals(MinimumGap.POCKET, wider[6 * 40 + 6]);
    assertEquals(0, wider[6 * 40 + 25]);
    assertEquals(0, wider[20 * 40 + 1]);
    assertEquals(MinimumGap.POCKET, wider[31 * 40 + 11]);
    assertEquals(MinimumGap.POCKET, wider[35 * 40 + 15]);
    assertEquals(0, wider[0]);
  }

  /** Rooms anywhere on cells that are not square, against their own length and breadth. */
  @Test
  void aPocketIsAsLongAsItsCellsEitherWay() {
    Random random = new Random(12);
    for (int n = 0; n < 400; n++) {
      GridSpec s = spec(40, 40, 0.5 + random.nextDouble(), 0.5 + random.nextDouble());
      boolean[] blocked = all(s);
      int high = 1 + random.nextInt(8);
      int wide = 1 + random.nextInt(8);
      int row = random.nextInt(41 - high);
      int col = random.nextInt(41 - wide);
      room(blocked, row, col, high, wide);
      boolean atEdge = row == 0 || col == 0 || row + high == 40 || col + wide == 40;
      double longestM = Math.max(wide * s.cellXM(), high * s.cellYM());
      double leastM = Math.min(s.cellXM(), s.cellYM());
      for (double share : new double[] {0.99, 1, 1.01}) {
        double turnM = share * longestM;
        boolean pocket = !atEdge && share > 1 && turnM > leastM;
        byte want = pocket ? MinimumGap.POCKET : 0;
        String where = high + " x " + wide + " cells at " + row + ", " + col + ", " + share;
        byte[] code = find(blocked, s, 0, turnM);
        assertEquals(want, code[row * 40 + col], where);
        assertEquals(want, code[(row + high - 1) * 40 + col + wide - 1], where);
      }
    }
  }

  @Test
  void rowsThatDecideAboutOthers() {
    // Pockets: the turning length and two rows; discs: two radii of at least 12 cells and two rows.
    GridSpec s = spec(10, 10, 2, 3);
    assertEquals(0, MinimumGap.haloRows(2, 2, s));
    assertEquals(4 + 2, MinimumGap.haloRows(0, 11, s));
    assertEquals(24 + 2, MinimumGap.haloRows(2.1, 0, s));
    // Half a gap of 90 m is more than 12 cells of 3 m.
    assertEquals(30 + 2, MinimumGap.haloRows(90, 0, s));
    assertEquals(30 + 2 + 1 + 2, MinimumGap.haloRows(90, 2.5, s));
  }

  @Test
  void aStripWithItsHaloIsEnough() {
    GridSpec s = spec(260, 50, 1, 1.2);
    Random random = new Random(6);
    boolean[] blocked = new boolean[s.cells()];
    for (int i = 0; i < blocked.length; i++) {
      blocked[i] = random.nextInt(4) == 0;
    }
    for (double[] room : new double[][] {{0, 7}, {2.3, 0}, {2.3, 7}, {5, 12}}) {
      byte[] whole = find(blocked, s, room[0], room[1]);
      int halo = MinimumGap.haloRows(room[0], room[1], s);
      for (int row = 0; row < 260; row += 37) {
        int top = Math.max(0, row - halo);
        int end = Math.min(260, row + 37 + halo);
        byte[] part =
            find(
                Arrays.copyOfRange(blocked, top * 50, end * 50),
                s.part(top, 0, end - top, 50),
                room[0],
                room[1]);
        for (int i = row * 50; i < Math.min(260, row + 37) * 50; i++) {
          assertEquals(whole[i], part[i - top * 50], room[0] + " " + room[1] + " cell " + i);
        }
      }
    }
  }

  private static void room(boolean[] blocked, int row, int col, int high, int wide) {
    for (int r = row; r < row + high; r++) {
      for (int c = col; c < col + wide; c++) {
        blocked[r * 40 + c] = false;
      }
    }
  }

  @Test
  void neverEasierForAWiderVehicleOrMoreBlockedGround() {
    GridSpec s = spec(130, 50, 1, 1);
    Random random = new Random(9);
    boolean[] blocked = new boolean[s.cells()];
    for (int i = 0; i < blocked.length; i++) {
      blocked[i] = random.nextInt(15) == 0;
    }
    byte[] last = new byte[s.cells()];
    for (double gapM = 0; gapM < 7; gapM += 0.4) {
      byte[] code = find(blocked, s, gapM, 0);
      for (int i = 0; i < code.length; i++) {
        assertTrue(code[i] != 0 || last[i] == 0, "gap " + gapM + " cell " + i);
      }
      last = code;
    }
    boolean[] more = blocked.clone();
    more[40 * 50 + 25] = true;
    byte[] before = find(blocked, s, 3, 5);
    byte[] after = find(more, s, 3, 5);
    for (int i = 0; i < before.length; i++) {
      assertTrue(more[i] || after[i] != 0 || before[i] == 0, "cell " + i);
    }
  }

  @Test
  void theSameForAnyNumberOfThreads() {
    GridSpec s = spec(300, 60, 1, 1);
    Random random = new Random(5);
    boolean[] blocked = new boolean[s.cells()];
    for (int i = 0; i < blocked.length; i++) {
      blocked[i] = random.nextInt(12) == 0;
    }
    try (Workers one = new Workers(1)) {
      assertArrayEquals(MinimumGap.find(blocked, s, 4, 6, one), find(blocked, s, 4, 6));
    }
  }
}
