package org.scarpway.reach.clearance;

/**
 * Where barriers face each other: a free lattice point from which two of the nearest points of
 * barriers lie in opposite directions is the middle of a passage, as wide as these are apart. The
 * shortest line across any passage has such a middle, and the points of barriers nearest to each
 * other always lie on the lattice, so none is missed.
 */
final class Facing {
  /** Squares of distances that differ by less are the same but for rounding. */
  private static final double SAME = 1e-5;

  private final Clearance clearance;
  private final double stepX2;
  private final double stepY2;

  private int row;
  private int col;
  private double radius2;

  /** Steps of the lattice from the point asked for to the contact on one side. */
  int dRow;

  int dCol;

  Facing(Clearance clearance) {
    this.clearance = clearance;
    double x = clearance.spec().cellXM() / 2;
    double y = clearance.spec().cellYM() / 2;
    this.stepX2 = x * x;
    this.stepY2 = y * y;
  }

  /**
   * Whether barriers face each other across a point; then the steps to the first pair are known.
   */
  boolean at(int point) {
    float width = clearance.widthAtM(point);
    if (!(width > 0) || width == Float.POSITIVE_INFINITY) {
      return false;
    }
    row = point / clearance.cols();
    col = point % clearance.cols();
    radius2 = width / 2.0 * (width / 2.0);
    return from(0);
  }

  /** Whether others do across the same point. */
  boolean next() {
    return (dRow > 0 && dCol > 0 && facing(-dRow, dCol)) || from(dCol + 1);
  }

  private boolean from(int firstCol) {
    int most = (int) Math.floor(Math.sqrt(radius2 / stepX2) * (1 + SAME));
    for (int c = firstCol; c <= most; c++) {
      double left = Math.max(0, radius2 - c * c * stepX2);
      int r = (int) Math.rint(Math.sqrt(left / stepY2));
      if (Math.abs(c * c * stepX2 + r * r * stepY2 - radius2) <= SAME * radius2
          && (facing(r, c) || (c > 0 && facing(-r, c)))) {
        return true;
      }
    }
    return false;
  }

  private boolean facing(int r, int c) {
    if (!barrier(row + r, col + c) || !barrier(row - r, col - c)) {
      return false;
    }
    dRow = r;
    dCol = c;
    return true;
  }

  private boolean barrier(int row, int col) {
    return row >= 0
        && row < clearance.rows()
        && col >= 0
        && col < clearance.cols()
        && clearance.widthAtM(row * clearance.cols() + col) == 0;
  }
}
