package org.scarpway.dem;

import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Workers;

/**
 * Fills narrow gaps by interpolation. A void cell is filled if the gap that contains it, counted
 * along its row or along its column, is at most {@code maxGapCells} wide and has heights at both
 * ends. Its height is the inverse-distance mean (Shepard 1968, <i>A two-dimensional interpolation
 * function for irregularly-spaced data</i>, ACM Nat. Conf., power 1) of the two or four ends: along
 * one line that is linear interpolation, and a plane is reproduced exactly. Nothing is
 * extrapolated: voids open to the edge of the grid on both axes remain.
 */
final class GapFill {
  private GapFill() {}

  /** Returns a new grid with the gaps filled; only original heights are used, never filled ones. */
  static FloatGrid fill(FloatGrid heightM, int maxGapCells, Workers workers) {
    GridSpec spec = heightM.spec();
    float[] in = heightM.values();
    float[] out = in.clone();
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          double[] sum = new double[2];
          for (int r = from; r < to; r++) {
            for (int c = 0; c < spec.cols(); c++) {
              int at = r * spec.cols() + c;
              if (Float.isNaN(in[at])) {
                sum[0] = 0;
                sum[1] = 0;
                add(in, at, 1, c, spec.cols(), maxGapCells, spec.cellXM(), sum);
                add(in, at, spec.cols(), r, spec.rows(), maxGapCells, spec.cellYM(), sum);
                if (sum[1] > 0) {
                  out[at] = (float) (sum[0] / sum[1]);
                }
              }
            }
          }
        });
    return new FloatGrid(spec, out);
  }

  /** Adds both ends of the gap along one line: weighted heights to sum[0], weights to sum[1]. */
  private static void add(
      float[] in,
      int at,
      int stride,
      int position,
      int length,
      int maxGapCells,
      double cellM,
      double[] sum) {
    int back = 1;
    while (back <= maxGapCells && position - back >= 0 && Float.isNaN(in[at - back * stride])) {
      back++;
    }
    if (back > maxGapCells || position - back < 0) {
      return;
    }
    int on = 1;
    while (back + on - 1 <= maxGapCells
        && position + on < length
        && Float.isNaN(in[at + on * stride])) {
      on++;
    }
    if (back + on - 1 > maxGapCells || position + on >= length) {
      return;
    }
    double wBack = 1 / (back * cellM);
    double wOn = 1 / (on * cellM);
    sum[0] += in[at - back * stride] * wBack + in[at + on * stride] * wOn;
    sum[1] += wBack + wOn;
  }
}
