package org.scarpway.reach.front;

import org.scarpway.grid.GridSpec;

/**
 * The division of a grid into square tiles; the last of each row and column is cut off by the edge.
 */
public final class Tiling {
  private final int rows;
  private final int cols;
  private final int side;
  private final int tileRows;
  private final int tileCols;
  private final Divisor byCols;
  private final Divisor bySide;

  private Tiling(int rows, int cols, int side) {
    this.rows = rows;
    this.cols = cols;
    this.side = side;
    this.tileRows = (rows + side - 1) / side;
    this.tileCols = (cols + side - 1) / side;
    this.byCols = new Divisor(cols);
    this.bySide = new Divisor(side);
  }

  public static Tiling of(GridSpec spec, int side) {
    return new Tiling(spec.rows(), spec.cols(), side);
  }

  public int rows() {
    return rows;
  }

  public int cols() {
    return cols;
  }

  public int side() {
    return side;
  }

  public int tileRows() {
    return tileRows;
  }

  public int tileCols() {
    return tileCols;
  }

  public int tiles() {
    return tileRows * tileCols;
  }

  /** Tile that holds a cell. */
  int tileOf(int cell) {
    int row = byCols.into(cell);
    return bySide.into(row) * tileCols + bySide.into(cell - row * cols);
  }

  /** Index of a cell in its tile, row by row. */
  int within(int cell) {
    int row = byCols.into(cell);
    int col = cell - row * cols;
    return (row - bySide.into(row) * side) * side + col - bySide.into(col) * side;
  }

  int firstRow(int tile) {
    return tile / tileCols * side;
  }

  int firstCol(int tile) {
    return tile % tileCols * side;
  }

  /** Number of rows of the tile. */
  int high(int tile) {
    return Math.min(side, rows - firstRow(tile));
  }

  /** Number of columns of the tile. */
  int broad(int tile) {
    return Math.min(side, cols - firstCol(tile));
  }

  /** The neighbouring tile, or -1 off the grid. */
  int beside(int tile, int dRow, int dCol) {
    int r = tile / tileCols + dRow;
    int c = tile % tileCols + dCol;
    return r < 0 || r >= tileRows || c < 0 || c >= tileCols ? -1 : r * tileCols + c;
  }
}
