package org.scarpway.run;

import org.scarpway.dem.Dem;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/** The surroundings of a place, cut from the ground it lies on. */
final class DemCrop {
  private DemCrop() {}

  /**
   * Cells within {@code radiusM} of the point in both directions. A stage computed on the crop
   * gives the same values at the point as on all the ground if its windows are smaller than that.
   */
  static Dem around(Dem dem, double xM, double yM, double radiusM) {
    GridSpec spec = dem.heightM().spec();
    int row = spec.rowOf(yM);
    int col = spec.colOf(xM);
    int reachRows = (int) Math.ceil(radiusM / spec.cellYM());
    int reachCols = (int) Math.ceil(radiusM / spec.cellXM());
    int top = Math.max(0, row - reachRows);
    int left = Math.max(0, col - reachCols);
    int rows = Math.min(spec.rows(), row + reachRows + 1) - top;
    int cols = Math.min(spec.cols(), col + reachCols + 1) - left;
    float[] part = new float[rows * cols];
    for (int r = 0; r < rows; r++) {
      System.arraycopy(
          dem.heightM().values(), (top + r) * spec.cols() + left, part, r * cols, cols);
    }
    GridSpec cut =
        new GridSpec(
            rows,
            cols,
            spec.cellXM(),
            spec.cellYM(),
            spec.westM() + left * spec.cellXM(),
            spec.northM() - top * spec.cellYM(),
            spec.crsWkt());
    return new Dem(new FloatGrid(cut, part), dem.datumM(), dem.body(), dem.warnings());
  }
}
