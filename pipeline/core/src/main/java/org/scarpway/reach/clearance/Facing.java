package org.scarpway.reach.clearance;

/**
 * Finds places where barriers face each other. A free lattice point from which two of the nearest
 * barrier points lie in opposite directions is the midpoint of a passage whose width is the
 * distance of these points. The shortest line across any passage has such a midpoint, and the
 * nearest points of two barriers always lie on the lattice, so no passage is missed.
 */
final class Facing {
  /** Tolerance of squared distances, which covers rounding. */
  private static final double SAME = 1e-5;

  private final Clearance clearance;
  private final double stepX2;
  private final double stepY2;

  private int row;
  private int col;
  private double radius2;

  /** Lattice steps from the given point to the barrier point on one side. */
  int dRow;

  int dCol;

  Facing(Clearance clearance) {
    this.clearance = clearance;
    double x = clearance.spec().cellXM() / 2;
    double y = clearance.spec().cellYM() / 2;
    this.stepX2 = x * x;
    this.stepY2 = y * y;
  }

  /** True if barriers face each other across a point; the step fields then hold the first pair. */
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

  /** Advances to the next pair across the same point; false if there is none. */
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
