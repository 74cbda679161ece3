package org.scarpway.reach.clearance;

import java.util.BitSet;

/**
 * Computes the diameter of the widest disc that passes a passage on the points of the lattice, as
 * the widest paths do. In a slanting passage the points beside its narrowest place lie off the
 * middle and leave slightly less room than that place itself.
 */
final class Squeeze {
  /** Share of the width below which points beside it belong to another, narrower passage. */
  private static final double OFF_MIDDLE = 0.5;

  private final Clearance clearance;
  private final int row;
  private final int col;
  private final int dRow;
  private final int dCol;

  private Squeeze(Clearance clearance, int point, int dRow, int dCol) {
    this.clearance = clearance;
    this.row = point / clearance.cols();
    this.col = point % clearance.cols();
    this.dRow = dRow;
    this.dCol = dCol;
  }

  /**
   * @param point lattice point in the middle between two barriers
   * @param dRow lattice steps down from there to one of the barriers; {@code dCol} to the right
   */
  static double widthM(Clearance clearance, int point, int dRow, int dCol) {
    Squeeze s = new Squeeze(clearance, point, dRow, dCol);
    return Math.min(s.towards(1), s.towards(-1));
  }

  /**
   * Diameter of the widest disc that comes from the middle to an equally wide point on one side
   * (m).
   */
  private float towards(int side) {
    int cols = clearance.cols();
    int start = row * cols + col;
    float width = clearance.widthAtM(start);
    float least = width;
    MaxWidthQueue queue = new MaxWidthQueue(null);
    BitSet seen = new BitSet();
    seen.set(start);
    queue.add(start, width);
    double diagonalM = Math.hypot(clearance.spec().cellXM(), clearance.spec().cellYM());
    while (!queue.isEmpty()) {
      int p = queue.poll();
      float here = clearance.widthAtM(p);
      if (here < width - OFF_MIDDLE * diagonalM) {
        break;
      }
      if (p != start && here >= width) {
        return least;
      }
      least = Math.min(least, here);
      for (int k = 0; k < 9; k++) {
        int r = p / cols + k / 3 - 1;
        int c = p % cols + k % 3 - 1;
        // Only points on that side of the line from barrier to barrier.
        long turn = (long) (r - row) * dCol - (long) (c - col) * dRow;
        if (r >= 0 && r < clearance.rows() && c >= 0 && c < cols && side * turn > 0) {
          int to = r * cols + c;
          if (!seen.get(to) && near(r, c)) {
            seen.set(to);
            queue.add(to, clearance.widthAtM(to));
          }
        }
      }
    }
    // The passage does not widen again nearby; the middle is as narrow as any part of it.
    return width;
  }

  /** True if a point is no further away than the barriers plus two cells. */
  private boolean near(int r, int c) {
    int away = Math.max(Math.abs(r - row), Math.abs(c - col));
    return away <= Math.max(Math.abs(dRow), Math.abs(dCol)) + 4;
  }
}
