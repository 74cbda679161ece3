package org.scarpway.light;

import org.scarpway.dem.HeightRows;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.stage.ScratchFile;

/**
 * Heights (m) of a grid by rows and by columns, so that a sweep in any direction passes over lines
 * that lie one behind the other. NaN where no height is known.
 */
public final class SweepGround {
  /** Rows that are turned into columns at a time. */
  private static final int STRIP_ROWS = 64;

  private final GridSpec spec;
  private final Floats byRows;
  private final Floats byColumns;

  private SweepGround(GridSpec spec, Floats byRows, Floats byColumns) {
    this.spec = spec;
    this.byRows = byRows;
    this.byColumns = byColumns;
  }

  /**
   * Copies the heights.
   *
   * @param file where the copies go; null for the heap
   */
  public static SweepGround of(HeightRows heights, ScratchFile file) {
    GridSpec spec = heights.spec();
    Floats rows = Floats.of(spec.cells(), file);
    Floats columns = Floats.of(spec.cells(), file);
    float[] strip = new float[STRIP_ROWS * spec.cols()];
    float[] column = new float[STRIP_ROWS];
    for (int from = 0; from < spec.rows(); from += STRIP_ROWS) {
      int n = Math.min(STRIP_ROWS, spec.rows() - from);
      heights.read(from, n, strip);
      rows.write(from * spec.cols(), strip, 0, n * spec.cols());
      for (int col = 0; col < spec.cols(); col++) {
        for (int k = 0; k < n; k++) {
          column[k] = strip[k * spec.cols() + col];
        }
        columns.write(col * spec.rows() + from, column, 0, n);
      }
    }
    return new SweepGround(spec, rows, columns);
  }

  /** Georeference of the heights. */
  public GridSpec spec() {
    return spec;
  }

  /** True if the height of a cell is known. */
  public boolean knows(int row, int col) {
    return !Double.isNaN(heightM(row, col));
  }

  /** Height (m) of a cell. */
  double heightM(int row, int col) {
    return byRows.get(row * spec.cols() + col);
  }

  /** Reads a row, or a column from the north. */
  void read(boolean column, int index, float[] into) {
    int n = column ? spec.rows() : spec.cols();
    (column ? byColumns : byRows).read(index * n, into, 0, n);
  }

  /**
   * Height (m) between cells: straight along the grid line that the point lies on.
   *
   * @param alongColumn true if the point lies on the line through the centres of column {@code
   *     line}, false on that of row {@code line}
   * @param at place on that line in cells, from the centre of the first one
   */
  double onLine(boolean alongColumn, int line, double at) {
    int n = alongColumn ? spec.rows() : spec.cols();
    int first = Math.max(0, Math.min(n - 2, (int) Math.floor(at)));
    double f = at - first;
    Floats lines = alongColumn ? byColumns : byRows;
    double a = lines.get(line * n + first);
    return f == 0 ? a : a * (1 - f) + lines.get(line * n + Math.min(n - 1, first + 1)) * f;
  }
}
