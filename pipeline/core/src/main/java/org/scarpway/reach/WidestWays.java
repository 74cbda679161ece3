package org.scarpway.reach;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.vehicle.MoveField;

/**
 * The widest disc that can be moved from the base so that it covers each cell, whatever the
 * headings: the narrowest passage on the widest way (maximum capacity paths: Hu 1961, <i>The
 * maximum capacity route problem</i>, Operations Research 9(6):898-900; from memory). And which
 * passage that is: a neck is the point that the disc had to shrink for, and behind it hang all
 * cells that carry its width, as well as further necks.
 *
 * <p>A cell close to a wall has the width of the room that it lies in, not its own distance to the
 * wall; only where the room itself narrows (a dead end) does it carry less.
 */
final class WidestWays {
  private final Clearance clearance;
  private final GridSpec spec;
  private final int rows;
  private final int cols;
  private final float[] widthM;
  private final int[] neck;
  private int[] neckPoint = new int[1024];
  private int[] neckBefore = new int[1024];
  private int necks;

  private WidestWays(Clearance clearance) {
    this.clearance = clearance;
    this.spec = clearance.spec();
    this.rows = clearance.rows();
    this.cols = clearance.cols();
    this.widthM = new float[rows * cols];
    this.neck = new int[rows * cols];
  }

  /**
   * @param gapM filled with the width per cell, NaN where there is no way; without barriers the
   *     length of the grid's diagonal
   * @param neckOf filled with the index of the neck per cell, -1 where there is no way
   */
  static Necks spread(Clearance clearance, MoveField field, int base, float[] gapM, int[] neckOf) {
    WidestWays w = new WidestWays(clearance);
    w.spread(base);
    w.collect(field, gapM, neckOf);
    return new Necks(Arrays.copyOf(w.neckPoint, w.necks), Arrays.copyOf(w.neckBefore, w.necks));
  }

  /** Necks in the order found. */
  static final class Necks {
    private final int[] point;
    private final int[] before;

    private Necks(int[] point, int[] before) {
      this.point = point;
      this.before = before;
    }

    int count() {
      return point.length;
    }

    /** Lattice point. */
    int point(int neck) {
      return point[neck];
    }

    /** Index of the neck that is passed before it, -1 for those about the base itself. */
    int before(int neck) {
      return before[neck];
    }
  }

  private float ownM(int point) {
    double topM = Math.hypot(spec.cols() * spec.cellXM(), spec.rows() * spec.cellYM());
    return Math.min((float) topM, clearance.widthAtM(point));
  }

  private void spread(int base) {
    WidestFirst queue = new WidestFirst();
    Arrays.fill(neck, -1);
    double x = clearance.xM(clearance.centre(base));
    double y = clearance.yM(clearance.centre(base));
    for (int p = 0; p < widthM.length; p++) {
      float own = ownM(p);
      if (own > 0 && Math.hypot(clearance.xM(p) - x, clearance.yM(p) - y) <= own / 2) {
        reach(p, own, newNeck(p, -1));
        queue.add(p, own);
      }
    }
    int[] level = new int[1024];
    int depth = 0;
    while (depth > 0 || !queue.isEmpty()) {
      int p = depth > 0 ? level[--depth] : queue.poll();
      int row = p / cols;
      int col = p % cols;
      for (int r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++) {
        for (int c = Math.max(0, col - 1); c <= Math.min(cols - 1, col + 1); c++) {
          int to = r * cols + c;
          float own = neck[to] >= 0 ? 0 : ownM(to);
          if (own >= widthM[p]) {
            reach(to, widthM[p], neck[p]);
            level = depth == level.length ? Arrays.copyOf(level, 2 * depth) : level;
            level[depth++] = to;
          } else if (own > 0) {
            reach(to, own, newNeck(to, neck[p]));
            queue.add(to, own);
          }
        }
      }
    }
  }

  private void reach(int point, float width, int neckIndex) {
    widthM[point] = width;
    neck[point] = neckIndex;
  }

  private int newNeck(int point, int before) {
    if (necks == neckPoint.length) {
      neckPoint = Arrays.copyOf(neckPoint, 2 * necks);
      neckBefore = Arrays.copyOf(neckBefore, 2 * necks);
    }
    neckPoint[necks] = point;
    neckBefore[necks] = before;
    return necks++;
  }

  private void collect(MoveField field, float[] gapM, int[] neckOf) {
    for (int cell = 0; cell < gapM.length; cell++) {
      int p = clearance.centre(cell);
      boolean reached = neck[p] >= 0 && field.allowed(cell) != 0;
      gapM[cell] = reached ? widthM[p] : Float.NaN;
      neckOf[cell] = reached ? neck[p] : -1;
    }
    // Discs about points further from the wall, the widest first; every cell is covered once.
    int[] next = new int[gapM.length + 1];
    for (int i = 0; i < next.length; i++) {
      next[i] = i;
    }
    WidestFirst discs = new WidestFirst();
    for (int p = 0; p < widthM.length; p++) {
      if (neck[p] >= 0 && coversMore(p)) {
        discs.add(p, widthM[p]);
      }
    }
    while (!discs.isEmpty()) {
      cover(discs.poll(), next, gapM, neckOf);
    }
  }

  /** Whether the disc about a point may cover what those about its neighbours do not. */
  private boolean coversMore(int p) {
    int row = p / cols;
    int col = p % cols;
    boolean atSlope = false;
    for (int r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++) {
      for (int c = Math.max(0, col - 1); c <= Math.min(cols - 1, col + 1); c++) {
        int to = r * cols + c;
        double apartM = Math.hypot((r - row) * spec.cellYM() / 2, (c - col) * spec.cellXM() / 2);
        if (to != p && widthM[to] / 2 >= widthM[p] / 2 + apartM * (1 - 1e-6)) {
          return false;
        }
        atSlope |= widthM[to] < widthM[p];
      }
    }
    return atSlope;
  }

  private void cover(int p, int[] next, float[] gapM, int[] neckOf) {
    double radiusM = widthM[p] / 2.0 * (1 + 1e-6);
    // Row and column of the point counted in cell centres.
    int latticeRow = p / cols;
    double atRow = latticeRow / 2.0 - 0.5;
    double atCol = p % cols / 2.0 - 0.5;
    int firstRow = (int) Math.max(0, Math.ceil(atRow - radiusM / spec.cellYM()));
    int lastRow = (int) Math.min(spec.rows() - 1.0, Math.floor(atRow + radiusM / spec.cellYM()));
    for (int r = firstRow; r <= lastRow; r++) {
      double dy = (r - atRow) * spec.cellYM();
      double half = Math.sqrt(Math.max(0, radiusM * radiusM - dy * dy)) / spec.cellXM();
      int first = r * spec.cols() + (int) Math.max(0, Math.ceil(atCol - half));
      int last = r * spec.cols() + (int) Math.min(spec.cols() - 1.0, Math.floor(atCol + half));
      for (int i = free(next, first); i <= last; i = free(next, i)) {
        if (gapM[i] < widthM[p]) {
          gapM[i] = widthM[p];
          neckOf[i] = neck[p];
        }
        next[i] = i + 1;
      }
    }
  }

  private static int free(int[] next, int i) {
    int root = i;
    while (next[root] != root) {
      root = next[root];
    }
    while (next[i] != root) {
      int after = next[i];
      next[i] = root;
      i = after;
    }
    return root;
  }
}
