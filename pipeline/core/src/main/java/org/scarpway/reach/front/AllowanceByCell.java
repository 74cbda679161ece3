package org.scarpway.reach.front;

/** An expansion bound computed cell by cell. */
abstract class AllowanceByCell implements ExpansionBound {
  private final Tiling tiling;

  AllowanceByCell(Tiling tiling) {
    this.tiling = tiling;
  }

  /**
   * Largest label with which the cell is expanded; infinity for any label, negative infinity for
   * none.
   */
  abstract double most(int cell);

  @Override
  public final void read(int tile, double[] into, int at, int stride) {
    int firstRow = tiling.firstRow(tile);
    int firstCol = tiling.firstCol(tile);
    int margin = TileGround.SEEN;
    int r0 = Math.max(-margin, -firstRow);
    int r1 = Math.min(tiling.high(tile) + margin, tiling.rows() - firstRow);
    int c0 = Math.max(-margin, -firstCol);
    int c1 = Math.min(tiling.broad(tile) + margin, tiling.cols() - firstCol);
    for (int r = r0; r < r1; r++) {
      int cell = (firstRow + r) * tiling.cols() + firstCol;
      for (int c = c0; c < c1; c++) {
        into[at + r * stride + c] = most(cell + c);
      }
    }
  }
}
