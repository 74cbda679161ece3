package org.scarpway.grid;

/**
 * Georeference of a north-up grid: {@code rows} x {@code cols} cells of {@code cellXM} (east) by
 * {@code cellYM} (north) metres, whose north-west corner is at ({@code westM}, {@code northM}) in
 * the metric coordinate reference system {@code crsWkt} (OGC WKT 1 text; empty if unknown). Row 0
 * is north; cell index = row * cols + col.
 *
 * @param rows number of rows, at least 1
 * @param cols number of columns, at least 1
 * @param cellXM size of a cell to the east (m), positive
 * @param cellYM size of a cell to the north (m), positive
 * @param westM east coordinate of the western edge (m)
 * @param northM north coordinate of the northern edge (m)
 * @param crsWkt OGC WKT 1 text of the coordinate reference system in metres; empty if unknown,
 *     never null
 */
public record GridSpec(
    int rows, int cols, double cellXM, double cellYM, double westM, double northM, String crsWkt) {

  /**
   * Checks the values.
   *
   * @throws IllegalArgumentException if there is no cell, if there are more cells than one array
   *     can hold, if a size is not positive and finite, if a corner is not finite, or if {@code
   *     crsWkt} is null
   */
  public GridSpec {
    if (rows < 1 || cols < 1) {
      throw new IllegalArgumentException(
          "grid needs at least 1 x 1 cells, got " + rows + " x " + cols);
    }
    if ((long) rows * cols > Integer.MAX_VALUE - 8) {
      throw new IllegalArgumentException(
          "grid of " + rows + " x " + cols + " cells does not fit one array (2^31 cells)");
    }
    if (!(cellXM > 0) || !(cellYM > 0) || Double.isInfinite(cellXM) || Double.isInfinite(cellYM)) {
      throw new IllegalArgumentException(
          "cell size must be positive and finite, got " + cellXM + " x " + cellYM + " m");
    }
    if (!Double.isFinite(westM) || !Double.isFinite(northM)) {
      throw new IllegalArgumentException(
          "grid corner must be finite, got " + westM + ", " + northM);
    }
    if (crsWkt == null) {
      throw new IllegalArgumentException("crsWkt must not be null; use an empty text if unknown");
    }
  }

  /** Number of cells, rows * cols. */
  public int cells() {
    return rows * cols;
  }

  /** East coordinate (m) of the centre of a column. */
  public double xM(int col) {
    return westM + (col + 0.5) * cellXM;
  }

  /** North coordinate (m) of the centre of a row. */
  public double yM(int row) {
    return northM - (row + 0.5) * cellYM;
  }

  /** East coordinate (m) of the eastern edge. */
  public double eastM() {
    return westM + cols * cellXM;
  }

  /** North coordinate (m) of the southern edge. */
  public double southM() {
    return northM - rows * cellYM;
  }

  /**
   * Column of the cell that contains the east coordinate (m); outside [0, cols) for a coordinate
   * off the grid.
   */
  public int colOf(double xM) {
    return (int) Math.floor((xM - westM) / cellXM);
  }

  /**
   * Row of the cell that contains the north coordinate (m); outside [0, rows) for one off the grid.
   */
  public int rowOf(double yM) {
    return (int) Math.floor((northM - yM) / cellYM);
  }

  /** True if the row and the column lie on the grid. */
  public boolean holds(int row, int col) {
    return row >= 0 && row < rows && col >= 0 && col < cols;
  }

  /** Index of the cell that contains a point (m), or -1 outside the grid. */
  public int cellOf(double xM, double yM) {
    int row = rowOf(yM);
    int col = colOf(xM);
    return holds(row, col) ? row * cols + col : -1;
  }

  /**
   * The georeference of a rectangular window of this grid.
   *
   * @param firstRow first row of the window
   * @param firstCol first column of the window
   * @param partRows number of rows, at least 1
   * @param partCols number of columns, at least 1
   */
  public GridSpec part(int firstRow, int firstCol, int partRows, int partCols) {
    return new GridSpec(
        partRows,
        partCols,
        cellXM,
        cellYM,
        westM + firstCol * cellXM,
        northM - firstRow * cellYM,
        crsWkt);
  }

  /** Plan area of a cell (m2). */
  public double cellAreaM2() {
    return cellXM * cellYM;
  }

  /** Geometric mean of the two cell sizes (m). */
  public double cellM() {
    return Math.sqrt(cellXM * cellYM);
  }

  /**
   * True if the cells have the same number, size and place, bit for bit; the texts of the
   * coordinate reference systems are not compared.
   */
  public boolean sameCellsAs(GridSpec other) {
    return rows == other.rows
        && cols == other.cols
        && cellXM == other.cellXM
        && cellYM == other.cellYM
        && westM == other.westM
        && northM == other.northM;
  }

  /**
   * Checks that grids have the cells of this one.
   *
   * @throws IllegalArgumentException for the first that does not
   */
  public void requireCellsOf(GridSpec... others) {
    for (GridSpec other : others) {
      if (!sameCellsAs(other)) {
        throw new IllegalArgumentException("layers must share one grid: " + this + ", " + other);
      }
    }
  }
}
