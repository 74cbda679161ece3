package org.scarpway.terrain;

/**
 * Three measures (m) over the eight neighbours: mean absolute difference, topographic position
 * (height above their mean) and range (highest less lowest of all nine cells).
 *
 * <p>Source: Wilson M.F.J. et al. 2007, <i>Multiscale terrain analysis of multibeam bathymetry data
 * for habitat mapping on the continental slope</i>, Marine Geodesy 30:3-35. None is detrended. An
 * output array that is null is not computed.
 */
public final class WilsonRuggedness {
  private WilsonRuggedness() {}

  public static void fill(
      float[] heightM,
      int rows,
      int cols,
      int fromRow,
      int toRow,
      float[] meanDifferenceM,
      float[] positionM,
      float[] rangeM) {
    float[][] outs = {meanDifferenceM, positionM, rangeM};
    for (int row = fromRow; row < toRow; row++) {
      if (!Edges.leaveInteriorOfAll(outs, rows, cols, row, 1, 1)) {
        continue;
      }
      for (int col = 1; col < cols - 1; col++) {
        int i = row * cols + col;
        double z = heightM[i];
        double absolute = 0;
        double signed = 0;
        double high = 0;
        double low = 0;
        for (int k = 0; k < 9; k++) {
          double d = heightM[i + (k / 3 - 1) * cols + k % 3 - 1] - z;
          absolute += Math.abs(d);
          signed += d;
          high = Math.max(high, d);
          low = Math.min(low, d);
        }
        if (meanDifferenceM != null) {
          meanDifferenceM[i] = (float) (absolute / 8);
        }
        if (positionM != null) {
          positionM[i] = (float) (-signed / 8);
        }
        if (rangeM != null) {
          rangeM[i] = (float) (high - low);
        }
      }
    }
  }
}
