package org.scarpway.reach;

import org.scarpway.stage.Floats;

/**
 * A front of the quickest ways out goes on only from cells that are come to early enough for
 * everybody to be home in time if the vehicle stops there. To be somewhere earlier is never worse
 * there or later, so what it finds is the earliest that a way which keeps to the rule can be there,
 * and where it finds nothing no way does.
 */
final class StopInTime implements Allowance {
  private final Tiling tiling;
  private final Floats stopS;
  private final double timeS;

  /**
   * @param stopS from a stop in each cell until everybody is home, NaN where nobody gets there
   * @param timeS when everybody must be home
   */
  StopInTime(Tiling tiling, Floats stopS, double timeS) {
    this.tiling = tiling;
    this.stopS = stopS;
    this.timeS = timeS;
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
        into[at + r * stride + c] = latestS(cell + c);
      }
    }
  }

  private double latestS(int cell) {
    float needed = stopS.get(cell);
    return needed < Float.POSITIVE_INFINITY ? timeS - needed : Double.NEGATIVE_INFINITY;
  }
}
