package org.scarpway.reach.clearance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Lines across gaps against brute force: every point of the lattice of half cells on random ground,
 * every pair of points of barriers about it, and every cell clipped by the line between them.
 */
class LineAcrossTest {
  /** Random ground; its last cell is free. */
  private static final class Plan {
    private final GridSpec spec;
    private final boolean[] barred;
    private final BottleneckImpact closing;
    private final Clearance clearance;
    private final double halfX;
    private final double halfY;

    private Plan(GridSpec spec, long seed, double share) {
      Random random = new Random(seed);
      this.spec = spec;
      this.barred = new boolean[spec.cells()];
      for (int i = 0; i < barred.length - 1; i++) {
        barred[i] = random.nextDouble() < share;
      }
      this.halfX = spec.cellXM() / 2;
      this.halfY = spec.cellYM() / 2;
      TraversalCost field =
          Fields.level(spec, (x, y) -> barred[spec.rowOf(y) * spec.cols() + spec.colOf(x)] ? 0 : 1);
      try (Workers workers = new Workers(1)) {
        this.clearance = Clearance.of(field, workers);
      }
      this.closing = new BottleneckImpact(field, clearance, spec.cells() - 1);
    }

    /** From a point (half cells) to the nearest point of a barred cell (m). */
    private double roomM(int row, int col) {
      double least = Double.POSITIVE_INFINITY;
      for (int i = 0; i < barred.length; i++) {
        if (barred[i]) {
          int r = 2 * (i / spec.cols());
          int c = 2 * (i % spec.cols());
          double y = halfY * Math.max(0, Math.max(r - row, row - r - 2));
          double x = halfX * Math.max(0, Math.max(c - col, col - c - 2));
          least = Math.min(least, Math.sqrt(x * x + y * y));
        }
      }
      return least;
    }

    /** Cells that the closed stretch between two points (half cells) has a point in common with. */
    private BitSet touched(int[] a, int[] b) {
      BitSet cells = new BitSet();
      for (int i = 0; i < barred.length; i++) {
        int[] from = {2 * (i / spec.cols()), 2 * (i % spec.cols())};
        double in = 0;
        double out = 1;
        for (int k = 0; k < 2; k++) {
          int along = b[k] - a[k];
          if (along == 0) {
            boolean beside = a[k] < from[k] || a[k] > from[k] + 2;
            out = beside ? -1 : out;
          } else {
            double s = (double) (from[k] - a[k]) / along;
            double t = (double) (from[k] + 2 - a[k]) / along;
            in = Math.max(in, Math.min(s, t));
            out = Math.min(out, Math.max(s, t));
          }
        }
        cells.set(i, in <= out + 1e-12);
      }
      return cells;
    }

    /** Pairs of points of barriers that may be joined about a point; empty if none. */
    private List<int[][]> pairs(int row, int col, List<int[]> edges) {
      double roomM = roomM(row, col);
      double diagonalM = Math.sqrt(halfX * halfX + halfY * halfY);
      List<int[][]> facing = new ArrayList<>();
      List<int[][]> nearest = new ArrayList<>();
      double leastM = Double.POSITIVE_INFINITY;
      List<int[]> about =
          edges.stream()
              .filter(
                  e ->
                      Math.hypot(halfX * (e[1] - col), halfY * (e[0] - row))
                          <= roomM + diagonalM + 1e-9)
              .toList();
      for (int[] a : about) {
        for (int[] b : about) {
          double ax = halfX * (a[1] - col);
          double ay = halfY * (a[0] - row);
          double bx = halfX * (b[1] - col);
          double by = halfY * (b[0] - row);
          double toA = Math.sqrt(ax * ax + ay * ay);
          double toB = Math.sqrt(bx * bx + by * by);
          if (ax == -bx && ay == -by && toA <= roomM * (1 + 1e-6)) {
            facing.add(new int[][] {a, b});
          }
          double angle = Math.toDegrees(Math.acos(Math.max(-1, (ax * bx + ay * by) / toA / toB)));
          double apartM = Math.sqrt((ax - bx) * (ax - bx) + (ay - by) * (ay - by));
          if (angle >= 120 - 1e-9) {
            if (apartM < leastM - 1e-9) {
              nearest.clear();
              leastM = apartM;
            }
            if (apartM < leastM + 1e-9) {
              nearest.add(new int[][] {a, b});
            }
          }
        }
      }
      return facing.isEmpty() ? nearest : facing;
    }

    private int[] compare() {
      List<int[]> edges = new ArrayList<>();
      for (int row = 0; row <= 2 * spec.rows(); row++) {
        for (int col = 0; col <= 2 * spec.cols(); col++) {
          if (roomM(row, col) == 0) {
            edges.add(new int[] {row, col});
          }
        }
      }
      int closed = 0;
      int open = 0;
      for (int row = 0; row <= 2 * spec.rows(); row++) {
        for (int col = 0; col <= 2 * spec.cols(); col++) {
          if (roomM(row, col) > 0) {
            String where = row + ", " + col + " of " + spec;
            int[] across = closing.across(row * clearance.cols() + col);
            List<int[][]> pairs = pairs(row, col, edges);
            if (pairs.isEmpty()) {
              assertNull(across, where);
              open++;
            } else {
              BitSet cells = new BitSet();
              for (int cell : across) {
                cells.set(cell);
              }
              List<BitSet> wanted = pairs.stream().map(p -> touched(p[0], p[1])).toList();
              assertTrue(wanted.contains(cells), where + ": " + cells + " of " + wanted);
              closed++;
            }
          }
        }
      }
      return new int[] {closed, open};
    }
  }

  /**
   * Cells of 0.5 x 0.75 m, of 6 x 8 m (diagonals of 10 m, so that points lie just within reach).
   */
  @Test
  void linesAcrossAreTheShortestBetweenBarriersThatFaceEachOther() {
    int closed = 0;
    int open = 0;
    for (int seed = 0; seed < 6; seed++) {
      double share = 0.05 + 0.02 * seed;
      for (GridSpec s :
          List.of(
              new GridSpec(9, 11, 0.5, 0.75, 0, 6.75, ""),
              new GridSpec(10, 8, 8, 6, 0, 60, ""),
              new GridSpec(8, 10, 6, 8, 0, 64, ""))) {
        int[] n = new Plan(s, seed, share).compare();
        closed += n[0];
        open += n[1];
      }
    }
    assertTrue(closed > 1000 && open > 250, closed + " closed, " + open + " open");
  }

  @Test
  void aLineTakesEveryCellThatItTouches() {
    Plan plan = new Plan(new GridSpec(9, 11, 2, 3, 0, 27, ""), 1, 0.15);
    int cols = plan.clearance.cols();
    for (int dRow = -9; dRow <= 9; dRow++) {
      for (int dCol = -11; dCol <= 11; dCol++) {
        if (dRow != 0 || dCol != 0) {
          int[] a = {9 - dRow, 11 - dCol};
          int[] b = {9 + dRow, 11 + dCol};
          BitSet cells = new BitSet();
          for (int cell : plan.closing.between(a[0] * cols + a[1], b[0] * cols + b[1])) {
            cells.set(cell);
          }
          assertEquals(plan.touched(a, b), cells, dRow + ", " + dCol);
        }
      }
    }
  }
}
