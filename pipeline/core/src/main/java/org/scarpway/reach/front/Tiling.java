package org.scarpway.reach.front;

import org.scarpway.grid.GridSpec;

/**
 * The division of a grid into square tiles; the last of each row and column is cut off by the edge.
 */
public record Tiling(int rows, int cols, int side, int tileRows, int tileCols) {
  public static Tiling of(GridSpec spec, int side) {
    return new Tiling(
        spec.rows(),
        spec.cols(),
        side,
        (spec.rows() + side - 1) / side,
        (spec.cols() + side - 1) / side);
  }

  public int tiles() {
    return tileRows * tileCols;
  }

  /** Tile that holds a cell. */
  int tileOf(int cell) {
    int row = cell / cols;
    return row / side * tileCols + (cell - row * cols) / side;
  }

  /** Index of a cell in its tile, row by row. */
  int within(int cell) {
    int row = cell / cols;
    return row % side * side + (cell - row * cols) % side;
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
