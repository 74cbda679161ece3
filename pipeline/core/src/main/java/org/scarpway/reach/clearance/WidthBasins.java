package org.scarpway.reach.clearance;

/**
 * Basins of width in a block of lattice points: every point belongs to the peak that is found by
 * always stepping to the widest neighbour. No step leads to a narrower point, so the widest path to
 * a point is as wide as the one to its peak, or as the point itself if that is narrower. What
 * remains is the graph of the basins and the saddles between them.
 *
 * <p>Node 0 of the graph is the base; it adjoins the basins of all points whose discs cover it.
 */
final class WidthBasins {
  private final int firstRow;
  private final int firstCol;
  private final int rows;
  private final int cols;

  /** Length of a row of the arrays, which have a border of no ground. */
  private final int across;

  private final float[] ownM;

  /** Basin of each point from 1 on, 0 for no ground. */
  private final int[] basin;

  private final WidestForest saddles = new WidestForest();
  private int basins;

  private WidthBasins(int firstRow, int firstCol, int rows, int cols) {
    this.firstRow = firstRow;
    this.firstCol = firstCol;
    this.rows = rows;
    this.cols = cols;
    this.across = cols + 2;
    this.ownM = new float[(rows + 2) * across];
    this.basin = new int[ownM.length];
  }

  /**
   * @param topM greatest width that is told
   */
  static WidthBasins of(
      Clearance clearance, float topM, int base, int firstRow, int firstCol, int rows, int cols) {
    WidthBasins b = new WidthBasins(firstRow, firstCol, rows, cols);
    for (int r = 0; r < rows; r++) {
      int at = (r + 1) * b.across + 1;
      clearance.readWidthsM((firstRow + r) * clearance.cols() + firstCol, b.ownM, at, cols);
      for (int i = at; i < at + cols; i++) {
        b.ownM[i] = Math.min(topM, b.ownM[i]);
      }
    }
    b.climb();
    b.joinNeighbours();
    b.joinBase(clearance, base);
    return b;
  }

  private void climb() {
    int[] up = new int[ownM.length];
    for (int r = 1; r <= rows; r++) {
      for (int i = r * across + 1; i <= r * across + cols; i++) {
        if (ownM[i] > 0) {
          up[i] = widest(i);
        }
      }
    }
    for (int r = 1; r <= rows; r++) {
      for (int i = r * across + 1; i <= r * across + cols; i++) {
        if (ownM[i] > 0) {
          basin[i] = basinOf(up, i);
        }
      }
    }
  }

  /** The widest neighbour; among points as wide as this one, a neighbour of lower index. */
  private int widest(int i) {
    float widthM = ownM[i];
    int best = i;
    for (int row = i - across; row <= i + across; row += across) {
      for (int j = row - 1; j <= row + 1; j++) {
        if (ownM[j] > widthM || (ownM[j] == widthM && j < best)) {
          widthM = ownM[j];
          best = j;
        }
      }
    }
    return best;
  }

  private int basinOf(int[] up, int point) {
    int peak = point;
    while (basin[peak] == 0 && up[peak] != peak) {
      peak = up[peak];
    }
    int number = basin[peak] == 0 ? ++basins : basin[peak];
    for (int at = point; basin[at] == 0; at = up[at]) {
      basin[at] = number;
    }
    return number;
  }

  private void joinNeighbours() {
    for (int r = 1; r <= rows; r++) {
      for (int i = r * across + 1; i <= r * across + cols; i++) {
        if (basin[i] != 0) {
          join(i, i + 1);
          join(i, i + across - 1);
          join(i, i + across);
          join(i, i + across + 1);
        }
      }
    }
  }

  private void join(int i, int j) {
    if (basin[j] != 0 && basin[j] != basin[i]) {
      saddles.add(basin[i], basin[j], Math.min(ownM[i], ownM[j]));
    }
  }

  private void joinBase(Clearance clearance, int base) {
    double x = clearance.xM(clearance.centre(base));
    double y = clearance.yM(clearance.centre(base));
    for (int r = 0; r < rows; r++) {
      double dy = clearance.yM((firstRow + r) * clearance.cols()) - y;
      for (int c = 0; c < cols; c++) {
        int i = (r + 1) * across + c + 1;
        if (ownM[i] > 0 && Math.abs(dy) <= ownM[i] / 2) {
          double dx = clearance.xM(firstCol + c) - x;
          if (Math.abs(dx) <= ownM[i] / 2 && Math.hypot(dx, dy) <= ownM[i] / 2) {
            saddles.add(0, basin[i], ownM[i]);
          }
        }
      }
    }
  }

  /** Number of nodes: the basins and the base. */
  int nodes() {
    return basins + 1;
  }

  WidestForest saddles() {
    return saddles;
  }

  /** Node of a point of the block, 0 for no ground. */
  int nodeOf(int row, int col) {
    return basin[(row + 1) * across + col + 1];
  }

  /**
   * Width of the widest path from the base to each point of a row of the block.
   *
   * @param widest width of the widest path to each node
   * @param into receives the widths, 0 where there is no path
   */
  void readWidest(int row, float[] widest, float[] into) {
    int at = (row + 1) * across + 1;
    for (int c = 0; c < cols; c++) {
      into[c] = Math.min(ownM[at + c], widest[basin[at + c]]);
    }
  }
}
