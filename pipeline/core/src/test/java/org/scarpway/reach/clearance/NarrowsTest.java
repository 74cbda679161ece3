package org.scarpway.reach.clearance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.stage.Ints;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Places where a barrier faces itself, against every point of the lattice of half cells and every
 * step from it on random ground; and the discs that come through there.
 */
class NarrowsTest {
  /** Ground that is drawn, its lattice and what hangs together on it. */
  private static final class Plan {
    private final GridSpec spec;
    private final boolean[] barred;
    private final int rows2;
    private final int cols2;
    private final double[] roomM;
    private final int[] piece;
    private final Clearance clearance;
    private final Narrows narrows;

    private Plan(GridSpec spec, boolean[] barred) {
      this.spec = spec;
      this.barred = barred;
      this.rows2 = 2 * spec.rows() + 1;
      this.cols2 = 2 * spec.cols() + 1;
      this.roomM = new double[rows2 * cols2];
      for (int p = 0; p < roomM.length; p++) {
        roomM[p] = roomM(row(p), p % cols2);
      }
      this.piece = pieces();
      TraversalCost field =
          Fields.level(spec, (x, y) -> barred[spec.rowOf(y) * spec.cols() + spec.colOf(x)] ? 0 : 1);
      try (Workers workers = new Workers(1)) {
        this.clearance = Clearance.of(field, workers);
      }
      this.narrows = Narrows.of(field, clearance, Ints.of(spec.cells() + 1, null));
    }

    private int row(int point) {
      return point / cols2;
    }

    private double roomM(int row, int col) {
      double least = Double.POSITIVE_INFINITY;
      for (int i = 0; i < barred.length; i++) {
        if (barred[i]) {
          int r = 2 * (i / spec.cols());
          int c = 2 * (i % spec.cols());
          double y = spec.cellYM() / 2 * Math.max(0, Math.max(r - row, row - r - 2));
          double x = spec.cellXM() / 2 * Math.max(0, Math.max(c - col, col - c - 2));
          least = Math.min(least, Math.sqrt(x * x + y * y));
        }
      }
      return least;
    }

    /** A name for all barred cells that touch, or touch the edge of the ground: names spread. */
    private int[] pieces() {
      int[] name = new int[barred.length];
      for (int i = 0; i < name.length; i++) {
        int r = i / spec.cols();
        int c = i % spec.cols();
        boolean edge = r == 0 || c == 0 || r == spec.rows() - 1 || c == spec.cols() - 1;
        name[i] = edge ? -1 : i;
      }
      for (boolean more = true; more; ) {
        more = false;
        for (int i = 0; i < name.length; i++) {
          for (int k = 0; k < 9 && barred[i]; k++) {
            int r = i / spec.cols() + k / 3 - 1;
            int c = i % spec.cols() + k % 3 - 1;
            int other = r * spec.cols() + c;
            if (spec.holds(r, c) && barred[other] && name[other] < name[i]) {
              name[i] = name[other];
              more = true;
            }
          }
        }
      }
      return name;
    }

    private int pieceAt(int row, int col) {
      for (int k = 0; k < 4; k++) {
        int r = Math.floorDiv(row - k / 2, 2);
        int c = Math.floorDiv(col - k % 2, 2);
        if (spec.holds(r, c) && barred[r * spec.cols() + c]) {
          return piece[r * spec.cols() + c];
        }
      }
      throw new AssertionError("no barrier at " + row + ", " + col);
    }

    private boolean barrierAt(int row, int col) {
      return row >= 0 && row < rows2 && col >= 0 && col < cols2 && roomM[row * cols2 + col] == 0;
    }

    /** Point, rows and columns of the step of all places, steps of either sign made one. */
    private Set<String> wanted() {
      TreeSet<String> places = new TreeSet<>();
      for (int row = 1; row < rows2 - 1; row++) {
        for (int col = 1; col < cols2 - 1; col++) {
          double room = roomM[row * cols2 + col];
          for (int dr = -rows2; dr <= rows2 && room > 0; dr++) {
            for (int dc = 0; dc <= cols2; dc++) {
              double stepM = Math.hypot(dr * spec.cellYM() / 2, dc * spec.cellXM() / 2);
              if ((dc > 0 || dr > 0)
                  && stepM <= room * (1 + 1e-6)
                  && barrierAt(row + dr, col + dc)
                  && barrierAt(row - dr, col - dc)
                  && pieceAt(row + dr, col + dc) == pieceAt(row - dr, col - dc)) {
                places.add(row * cols2 + col + " " + (dr * cols2 + dc));
              }
            }
          }
        }
      }
      return places;
    }

    /**
     * The most that comes from the middle of a place to ground as wide on one side of the line
     * across it, by filling at every width in turn.
     */
    private double towards(int point, int dRow, int dCol, int side) {
      double width = widthM(point);
      double diagonalM = Math.hypot(spec.cellXM(), spec.cellYM());
      int far = Math.max(Math.abs(dRow), Math.abs(dCol)) + 4;
      TreeSet<Double> widths = new TreeSet<>();
      for (int p = 0; p < roomM.length; p++) {
        if (widthM(p) <= width) {
          widths.add(widthM(p));
        }
      }
      for (double least : widths.descendingSet()) {
        if (least < width - diagonalM / 2) {
          break;
        }
        BitSet seen = new BitSet();
        seen.set(point);
        for (boolean more = true; more; ) {
          more = false;
          for (int p = seen.nextSetBit(0); p >= 0; p = seen.nextSetBit(p + 1)) {
            for (int k = 0; k < 9; k++) {
              int r = row(p) + k / 3 - 1;
              int c = p % cols2 + k % 3 - 1;
              int away = Math.max(Math.abs(r - row(point)), Math.abs(c - point % cols2));
              int turn = (r - row(point)) * dCol - (c - point % cols2) * dRow;
              int to = r * cols2 + c;
              if (r >= 0
                  && r < rows2
                  && c >= 0
                  && c < cols2
                  && away <= far
                  && side * turn > 0
                  && !seen.get(to)
                  && widthM(to) >= least) {
                seen.set(to);
                more = true;
                if (widthM(to) >= width) {
                  return least;
                }
              }
            }
          }
        }
      }
      return width;
    }

    /** As it is stored. */
    private double widthM(int point) {
      return clearance.widthAtM(point);
    }

    /**
     * Places and discs of the lattice itself; a cell's are its centre and three to the south-east.
     */
    private void lattice() {
      for (int p = 0; p < roomM.length; p++) {
        assertEquals(2 * roomM[p], clearance.widthAtM(p), 1e-5);
        assertEquals(spec.westM() + p % cols2 * spec.cellXM() / 2, clearance.xM(p), 1e-9);
        assertEquals(spec.northM() - row(p) * spec.cellYM() / 2, clearance.yM(p), 1e-9);
      }
      for (int cell = 0; cell < barred.length; cell++) {
        double widest = 0;
        int r = 2 * (cell / spec.cols()) + 1;
        int c = 2 * (cell % spec.cols()) + 1;
        for (int k = 0; k < 4; k++) {
          widest = Math.max(widest, 2 * roomM[(r + k / 2) * cols2 + c + k % 2]);
        }
        assertEquals(widest, clearance.widestM(cell), 1e-5);
        assertEquals(2 * roomM[r * cols2 + c], clearance.widthM(cell), 1e-5);
      }
    }

    private int compare(String what) {
      lattice();
      TreeSet<String> got = new TreeSet<>();
      for (int i = 0; i < narrows.count(); i++) {
        int point = narrows.point(i);
        got.add(point + " " + narrows.step(i));
        assertEquals(2 * roomM[point], narrows.widthM(i), 1e-5, what);
        int dRow = Math.floorDiv(narrows.step(i) + cols2 / 2, cols2);
        int dCol = narrows.step(i) - dRow * cols2;
        double wanted = Math.min(towards(point, dRow, dCol, 1), towards(point, dRow, dCol, -1));
        assertEquals(wanted, narrows.passableM(i), what + " at " + point);
      }
      assertEquals(wanted(), got, what);
      assertEquals(got.size(), narrows.count(), what);
      return got.size();
    }
  }

  @Test
  void placesAreAllWhereABarrierFacesItself() {
    Random random = new Random(5);
    int places = 0;
    for (int k = 0; k < 40; k++) {
      GridSpec spec =
          switch (k % 4) {
            case 0 -> Fields.grid(9, 12, 1, 0, 0);
            case 1 -> new GridSpec(11, 8, 0.5, 0.75, 7, 30.25, "");
            case 2 -> new GridSpec(10, 9, 4, 3, 0, 30, "");
            default -> Fields.grid(14, 7, 2, 0, 0);
          };
      boolean[] barred = new boolean[spec.cells()];
      double share = 0.08 + 0.04 * (k % 7);
      for (int i = 0; i < barred.length; i++) {
        barred[i] = random.nextDouble() < share;
      }
      places += new Plan(spec, barred).compare("ground " + k);
    }
    assertTrue(places > 500, places + " places");
  }

  /** Walls from edge to edge with one gap, both walls of a slanting band: known widths. */
  @Test
  void placesInAGapAndAlongASlantingBand() {
    for (int n = 2; n <= 6; n++) {
      GridSpec spec = Fields.grid(20, 20, 1, 0, 0);
      boolean[] band = new boolean[400];
      boolean[] gap = new boolean[400];
      for (int i = 0; i < 400; i++) {
        int r = i / 20;
        int c = i % 20;
        band[i] = c - r < 0 || c - r >= n;
        gap[i] = r == 9 && (c < 7 || c >= 7 + n);
      }
      Plan wall = new Plan(spec, gap);
      assertTrue(wall.compare("gap") > 0);
      double least = Double.POSITIVE_INFINITY;
      for (int i = 0; i < wall.narrows.count(); i++) {
        least = Math.min(least, wall.narrows.passableM(i));
      }
      assertEquals(n, least, 1e-5);
      // From step to step, or past steps that are staggered by one cell.
      Plan slanting = new Plan(spec, band);
      assertTrue(slanting.compare("band") > 0);
      double narrowest = Double.POSITIVE_INFINITY;
      for (int i = 0; i < slanting.narrows.count(); i++) {
        narrowest = Math.min(narrowest, slanting.narrows.widthM(i));
      }
      double staggered = n % 2 == 0 ? 0.5 : 0;
      assertEquals(Math.sqrt((n - 1) * (n - 1) / 2.0 + staggered), narrowest, 1e-5);
    }
  }

  /** Along the middle between both edges of a long lane. */
  @Test
  void placesMayBeMany() {
    GridSpec spec = Fields.grid(7, 700, 1, 0, 0);
    boolean[] barred = new boolean[spec.cells()];
    for (int i = 0; i < barred.length; i++) {
      int row = i / 700;
      barred[i] = row == 0 || row == 6;
    }
    Plan lane = new Plan(spec, barred);
    TreeSet<Integer> points = new TreeSet<>();
    for (int i = 0; i < lane.narrows.count(); i++) {
      assertEquals(5, lane.narrows.widthM(i), 1e-6);
      assertEquals(7, lane.row(lane.narrows.point(i)));
      points.add(lane.narrows.point(i));
    }
    // Every point of the middle but those on the edge of the grid.
    assertEquals(2 * 700 - 1, points.size());
    assertEquals(points.size(), lane.narrows.count());
  }
}
