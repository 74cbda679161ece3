package org.scarpway.terrain;

/**
 * The cells of a footprint: all (dx, dy) with |dx| at most {@code halfCols}, |dy| at most {@code
 * halfRows} and |dx| + |dy| at most {@code halfDiagonal}, an octagon. {@link #disc} selects the
 * octagon that differs from a disc in the fewest cells: none for the smallest discs, and for large
 * ones its edge is within -3 % to +6 % of the radius. Unlike a disc, an octagon can be summed at a
 * cost per cell that is independent of its size, see {@link FootprintPlane}.
 */
public record Footprint(int halfCols, int halfRows, int halfDiagonal) {

  public Footprint {
    if (halfCols < 1
        || halfRows < 1
        || halfDiagonal < Math.max(halfCols, halfRows)
        || halfDiagonal > halfCols + halfRows) {
      throw new IllegalArgumentException(
          "footprint needs half sizes of at least 1 and a half diagonal between the larger of them"
              + " and their sum, got "
              + halfCols
              + ", "
              + halfRows
              + ", "
              + halfDiagonal);
    }
  }

  /** The 3 x 3 cells around a cell: the smallest footprint that determines a plane well. */
  public static final Footprint SMALLEST = new Footprint(1, 1, 2);

  /** The footprint closest to the cells whose centres lie within {@code radiusM}. */
  public static Footprint disc(double radiusM, double cellXM, double cellYM) {
    int discCols = (int) Math.floor(radiusM / cellXM * (1 + 1e-9));
    int discRows = (int) Math.floor(radiusM / cellYM * (1 + 1e-9));
    if (discCols < 1 || discRows < 1) {
      return SMALLEST;
    }
    int[] disc = new int[discRows + 2];
    for (int dy = 0; dy < disc.length; dy++) {
      double left = radiusM * radiusM * (1 + 1e-9) - dy * cellYM * dy * cellYM;
      disc[dy] = left < 0 ? -1 : (int) Math.floor(Math.sqrt(left) / cellXM);
    }
    boolean square = cellXM == cellYM;
    Footprint best = SMALLEST;
    long fewest = Long.MAX_VALUE;
    for (int hc = Math.max(1, discCols - 1); hc <= discCols + 1; hc++) {
      for (int hr = Math.max(1, discRows - 1); hr <= discRows + 1; hr++) {
        if (square && hr != hc) {
          continue;
        }
        for (int hd = Math.max(hc, hr); hd <= hc + hr; hd++) {
          Footprint f = new Footprint(hc, hr, hd);
          long differ = f.cellsThatDiffer(disc);
          if (differ < fewest) {
            fewest = differ;
            best = f;
          }
        }
      }
    }
    return best;
  }

  private long cellsThatDiffer(int[] discHalfWidth) {
    long differ = 0;
    for (int dy = 0; dy < discHalfWidth.length; dy++) {
      int mine = dy <= halfRows ? halfWidth(dy) : -1;
      differ += (dy == 0 ? 2L : 4L) * Math.abs(mine - discHalfWidth[dy]);
    }
    return differ;
  }

  /** Largest |dx| in the row {@code dy} away from the centre, |dy| at most {@link #halfRows}. */
  public int halfWidth(int dy) {
    return Math.min(halfCols, halfDiagonal - Math.abs(dy));
  }

  /** Rows up to this far from the centre have the full width. */
  int fullRows() {
    return Math.min(halfRows, halfDiagonal - halfCols);
  }

  public int cells() {
    int n = 0;
    for (int dy = -halfRows; dy <= halfRows; dy++) {
      n += 2 * halfWidth(dy) + 1;
    }
    return n;
  }

  /** Sum of dx2 over the cells. */
  public double sumDx2() {
    double sum = 0;
    for (int dy = -halfRows; dy <= halfRows; dy++) {
      double w = halfWidth(dy);
      sum += w * (w + 1) * (2 * w + 1) / 3;
    }
    return sum;
  }

  /** Sum of dy2 over the cells. */
  public double sumDy2() {
    double sum = 0;
    for (int dy = -halfRows; dy <= halfRows; dy++) {
      sum += (2.0 * halfWidth(dy) + 1) * dy * dy;
    }
    return sum;
  }

  /** Diameter (m) of the disc of equal area. */
  public double baselineM(double cellXM, double cellYM) {
    return 2 * Math.sqrt(cells() * cellXM * cellYM / Math.PI);
  }
}
