package org.scarpway.reach.clearance;

import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.TraversalCost;

/**
 * A block of cells that discs cover, the widest first; every cell is covered once. The cells that
 * are left are bits in words, per row and summed up per band of rows, so that a disc that covers
 * nothing more costs little.
 */
final class CoveredCells {
  /** Rows in a band. */
  private static final int BAND = 8;

  private final Clearance clearance;
  private final GridSpec spec;
  private final int firstRow;
  private final int firstCol;
  private final int rows;
  private final int cols;
  private final int words;
  private float[] gapM;

  /** Cells that are left, in words per row. */
  private long[] left;

  /** Columns in which any cell of a band of rows is left, in words per band. */
  private long[] leftInBand;

  private int count;

  CoveredCells(Clearance clearance, int firstRow, int firstCol, int rows, int cols) {
    this.clearance = clearance;
    this.spec = clearance.spec();
    this.firstRow = firstRow;
    this.firstCol = firstCol;
    this.rows = rows;
    this.cols = cols;
    this.words = (cols + Long.SIZE - 1) / Long.SIZE;
  }

  /** Distance between the cells' centres and some lattice points (m). */
  double apartM(int fromRow, int lastRow, int fromCol, int lastCol) {
    int downTo = 2 * firstRow + 1 - lastRow;
    int upTo = fromRow - (2 * (firstRow + rows) - 1);
    int rightTo = 2 * firstCol + 1 - lastCol;
    int leftTo = fromCol - (2 * (firstCol + cols) - 1);
    double dy = Math.max(0, Math.max(downTo, upTo)) * spec.cellYM() / 2;
    double dx = Math.max(0, Math.max(rightTo, leftTo)) * spec.cellXM() / 2;
    return Math.sqrt(dx * dx + dy * dy);
  }

  /**
   * Starts with the discs about the cells' own centres.
   *
   * @param carriedM diameter of the disc about each lattice point (m), 0 for none
   * @param widestM diameter of the widest disc that will come
   */
  void begin(TraversalCost field, Floats carriedM, float widestM) {
    gapM = new float[rows * cols];
    left = new long[rows * words];
    leftInBand = new long[(rows + BAND - 1) / BAND * words];
    float[] points = new float[2 * cols];
    for (int r = 0; r < rows; r++) {
      int cell = (firstRow + r) * spec.cols() + firstCol;
      carriedM.read(clearance.centre(cell), points, 0, 2 * cols - 1);
      for (int c = 0; c < cols; c++) {
        boolean open = points[2 * c] > 0 && field.allowed(cell + c) != 0;
        gapM[r * cols + c] = open ? points[2 * c] : Float.NaN;
        if (open && points[2 * c] < widestM) {
          left[r * words + c / Long.SIZE] |= 1L << c;
          count++;
        }
      }
    }
    for (int band = 0; band * BAND < rows; band++) {
      sumUp(band);
    }
  }

  private void sumUp(int band) {
    for (int w = 0; w < words; w++) {
      long any = 0;
      for (int r = band * BAND; r < Math.min(rows, (band + 1) * BAND); r++) {
        any |= left[r * words + w];
      }
      leftInBand[band * words + w] = any;
    }
  }

  boolean anyLeft() {
    return count > 0;
  }

  /** Covers the cells within a disc about a lattice point that are left. */
  void cover(int point, float widthM) {
    double radiusM = widthM / 2.0 * (1 + 1e-6);
    // Row and column of the point in units of cells.
    int latticeRow = point / clearance.cols();
    double atRow = latticeRow / 2.0 - 0.5;
    double atCol = point % clearance.cols() / 2.0 - 0.5;
    int from = (int) Math.max(firstRow, Math.ceil(atRow - radiusM / spec.cellYM()));
    int last = (int) Math.min(firstRow + rows - 1.0, Math.floor(atRow + radiusM / spec.cellYM()));
    for (int r = from; r <= last; ) {
      int band = (r - firstRow) / BAND;
      int end = Math.min(last, firstRow + (band + 1) * BAND - 1);
      // The row that is nearest to the point is the longest.
      double half = halfCols(Math.max(0, Math.max(r - atRow, atRow - end)), radiusM);
      if (any(band * words, firstOf(atCol, half), lastOf(atCol, half))) {
        int before = count;
        for (; r <= end; r++) {
          double halfHere = halfCols(r - atRow, radiusM);
          coverRow(r - firstRow, firstOf(atCol, halfHere), lastOf(atCol, halfHere), widthM);
        }
        if (count < before) {
          sumUp(band);
        }
      }
      r = end + 1;
    }
  }

  /** Columns on either side of a disc's middle that belong to it. */
  private double halfCols(double rowsOff, double radiusM) {
    double dy = rowsOff * spec.cellYM();
    return Math.sqrt(Math.max(0, radiusM * radiusM - dy * dy)) / spec.cellXM();
  }

  private int firstOf(double atCol, double half) {
    return (int) Math.max(0, Math.ceil(atCol - half) - firstCol);
  }

  private int lastOf(double atCol, double half) {
    return (int) Math.min(cols - 1.0, Math.floor(atCol + half) - firstCol);
  }

  private boolean any(int start, int first, int last) {
    for (int c = first; c <= last; c = (c | (Long.SIZE - 1)) + 1) {
      if ((leftInBand[start + c / Long.SIZE] & bits(c, last)) != 0) {
        return true;
      }
    }
    return false;
  }

  /** The bits from a column to another, or to the end of its word. */
  private static long bits(int first, int last) {
    long from = -1L << first;
    return last > (first | (Long.SIZE - 1)) ? from : from & (-1L >>> ~last);
  }

  private void coverRow(int row, int first, int last, float widthM) {
    for (int c = first; c <= last; c = (c | (Long.SIZE - 1)) + 1) {
      int word = row * words + c / Long.SIZE;
      long covered = left[word] & bits(c, last);
      left[word] ^= covered;
      count -= Long.bitCount(covered);
      for (; covered != 0; covered &= covered - 1) {
        int cell = row * cols + c / Long.SIZE * Long.SIZE + Long.numberOfTrailingZeros(covered);
        if (gapM[cell] < widthM) {
          gapM[cell] = widthM;
        }
      }
    }
  }

  void write(Floats all) {
    for (int r = 0; r < rows; r++) {
      all.write((firstRow + r) * spec.cols() + firstCol, gapM, r * cols, cols);
    }
    gapM = null;
    left = null;
    leftInBand = null;
  }
}
