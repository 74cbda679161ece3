package org.scarpway.reach;

import java.util.BitSet;

/** A front goes on from the cells of a set only. */
final class InsideOnly implements Allowance {
  private final Tiling tiling;
  private final BitSet inside;

  InsideOnly(Tiling tiling, BitSet inside) {
    this.tiling = tiling;
    this.inside = inside;
  }

  @Override
  public void read(int tile, double[] into, int at, int stride) {
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
        into[at + r * stride + c] =
            inside.get(cell + c) ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
      }
    }
  }
}
