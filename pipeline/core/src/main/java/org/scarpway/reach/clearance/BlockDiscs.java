package org.scarpway.reach.clearance;

import java.util.Arrays;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Ints;
import org.scarpway.stage.ScratchFile;

/**
 * The discs about the points of a block of the lattice, the widest first, without those that cover
 * no cell which wider discs about their neighbours do not cover as well.
 */
final class BlockDiscs {
  /**
   * Largest square of a radius, in units of half cells, at which the tolerance of radii admits no
   * further cell of square cells: below, cells are covered by comparing whole numbers.
   */
  private static final int WHOLE = 400_000;

  private final int firstRow;
  private final int endRow;
  private final int firstCol;
  private final int endCol;
  private final double halfXM;
  private final double halfYM;
  private final double diagonalM;
  private Ints points;
  private Floats widthsM;

  private BlockDiscs(Clearance clearance, int firstRow, int endRow, int firstCol, int endCol) {
    this.firstRow = firstRow;
    this.endRow = endRow;
    this.firstCol = firstCol;
    this.endCol = endCol;
    this.halfXM = clearance.spec().cellXM() / 2;
    this.halfYM = clearance.spec().cellYM() / 2;
    this.diagonalM = Math.hypot(halfXM, halfYM);
  }

  /**
   * @param carriedM diameter of the disc about each lattice point (m), 0 for none
   * @param file where the discs are stored, null for the heap
   */
  static BlockDiscs of(
      Clearance clearance,
      Floats carriedM,
      int firstRow,
      int firstCol,
      int side,
      ScratchFile file) {
    int endRow = Math.min(clearance.rows(), firstRow + side);
    int endCol = Math.min(clearance.cols(), firstCol + side);
    BlockDiscs b = new BlockDiscs(clearance, firstRow, endRow, firstCol, endCol);
    b.sort(b.find(carriedM, clearance.rows(), clearance.cols()), file);
    return b;
  }

  private long[] find(Floats carriedM, int rows, int cols) {
    // With the columns on either side.
    int from = Math.max(0, firstCol - 1);
    int n = Math.min(cols, endCol + 1) - from;
    Row above = null;
    Row here = firstRow == 0 ? null : new Row(carriedM, (firstRow - 1) * cols + from, n);
    Row below = new Row(carriedM, firstRow * cols + from, n);
    long[] keys = new long[1024];
    int found = 0;
    for (int row = firstRow; row < endRow; row++) {
      above = here;
      here = below;
      below = row + 1 < rows ? new Row(carriedM, (row + 1) * cols + from, n) : null;
      for (int col = firstCol - from; col < endCol - from; col++) {
        if (here.widthM[col] > 0 && coversMore(above, here, below, col)) {
          keys = found == keys.length ? Arrays.copyOf(keys, 2 * found) : keys;
          keys[found++] = DiscOrder.key(row * cols + from + col, here.widthM[col]);
        }
      }
    }
    return Arrays.copyOf(keys, found);
  }

  private void sort(long[] keys, ScratchFile file) {
    Arrays.sort(keys);
    points = Ints.of(keys.length, file);
    widthsM = Floats.of(keys.length, file);
    for (int i = 0; i < keys.length; i++) {
      points.set(i, DiscOrder.index(keys[i]));
      widthsM.set(i, DiscOrder.widthM(keys[i]));
    }
  }

  int count() {
    return points.size();
  }

  long key(int i) {
    return DiscOrder.key(points.get(i), widthsM.get(i));
  }

  /** Distance between the points and the centres of some cells (m). */
  double apartM(CoveredCells cells) {
    return cells.apartM(firstRow, endRow - 1, firstCol, endCol - 1);
  }

  /** Discs about some points of one row. */
  private final class Row {
    private final float[] widthM;

    /** Square of the radius in units of half cells, -1 where it is not taken as a whole number. */
    private final int[] square;

    private Row(Floats carriedM, int first, int n) {
      widthM = new float[n];
      square = new int[n];
      carriedM.read(first, widthM, 0, n);
      for (int i = 0; i < n; i++) {
        double halves = widthM[i] / 2 / halfXM;
        double exact = halves * halves;
        int whole = (int) Math.min(WHOLE, exact + 0.5);
        square[i] = halfXM == halfYM && Math.abs(exact - whole) < 0.06 ? whole : -1;
      }
    }
  }

  /**
   * True if the disc about a point may cover cells that the discs about its neighbours do not.
   *
   * @param above row above; null beyond the edge of the grid, as {@code below}
   */
  private boolean coversMore(Row above, Row here, Row below, int col) {
    float width = here.widthM[col];
    boolean atSlope = false;
    for (int c = Math.max(0, col - 1); c <= Math.min(here.widthM.length - 1, col + 1); c++) {
      double beyondM = c == col ? halfYM : diagonalM;
      if ((c != col && within(width, here.widthM[c], halfXM))
          || (above != null && within(width, above.widthM[c], beyondM))
          || (below != null && within(width, below.widthM[c], beyondM))) {
        return false;
      }
      atSlope |=
          here.widthM[c] < width
              || (above != null && above.widthM[c] < width)
              || (below != null && below.widthM[c] < width);
    }
    return atSlope && !withinTwo(above, here, below, col);
  }

  /** True if a disc lies within the disc of another point. */
  private static boolean within(float width, float other, double apartM) {
    return other / 2 >= width / 2 + apartM * (1 - 1e-6);
  }

  /**
   * True if the discs about a neighbour and a diagonal neighbour beside it together cover a disc.
   */
  private static boolean withinTwo(Row above, Row here, Row below, int col) {
    int square = here.square[col];
    if (square < 0 || above == null || below == null || col == 0 || col + 1 == here.square.length) {
      return false;
    }
    int north = above.square[col];
    int south = below.square[col];
    int west = here.square[col - 1];
    int east = here.square[col + 1];
    int northWest = above.square[col - 1];
    int northEast = above.square[col + 1];
    int southWest = below.square[col - 1];
    int southEast = below.square[col + 1];
    return withinTwo(square, north, northWest)
        || withinTwo(square, north, northEast)
        || withinTwo(square, south, southWest)
        || withinTwo(square, south, southEast)
        || withinTwo(square, west, northWest)
        || withinTwo(square, west, southWest)
        || withinTwo(square, east, northEast)
        || withinTwo(square, east, southEast);
  }

  /**
   * True if all three circles pass through one point b, and the middle p of the disc lies between
   * the rays from b to the middles q and r of the others. Then p = s q + t r as seen from b, with
   * s, t at least 0 and s + t below 1; so c * c &lt;= 2 c * p, which says that c lies in the disc,
   * implies c * c &lt;= 2 c * q or c * c &lt;= 2 c * r.
   *
   * @param beside square of the radius about the neighbour along a row or column
   * @param diagonal the same about the diagonal neighbour beside it
   */
  private static boolean withinTwo(int square, int beside, int diagonal) {
    // Steps from b to p along the direction to the neighbour, and across it to the diagonal one.
    int along = (beside - square - 1) >> 1;
    int across = (diagonal - beside - 1) >> 1;
    return across >= 0
        && along >= across
        && square + 2 * along + 1 == beside
        && beside + 2 * across + 1 == diagonal
        && (long) along * along + (long) across * across == square;
  }
}
