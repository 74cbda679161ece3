package org.scarpway.run.product;

import java.nio.file.Path;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/**
 * The cells of finished rasters that a report shows: all of them, or regularly subsampled ones of
 * ground larger than memory.
 */
public final class ShownCells {
  private static final int ROWS_AT_A_TIME = 64;

  private final GridSpec whole;
  private final int step;
  private final GridSpec spec;

  public ShownCells(GridSpec whole, int step) {
    this.whole = whole;
    this.step = step;
    this.spec = spec(whole, step);
  }

  /** Returns the grid of every {@code step}-th cell; remaining rows and columns are left out. */
  public static GridSpec spec(GridSpec whole, int step) {
    return new GridSpec(
        whole.rows() / step,
        whole.cols() / step,
        whole.cellXM() * step,
        whole.cellYM() * step,
        whole.westM(),
        whole.northM(),
        whole.crsWkt());
  }

  public FloatGrid floats(Path file) {
    float[] out = new float[spec.cells()];
    pick(file, CellKind.FLOAT32, (from, at, to) -> out[to] = from[at]);
    return new FloatGrid(spec, out);
  }

  public ByteGrid codes(Path file) {
    byte[] out = new byte[spec.cells()];
    pick(file, CellKind.UINT8, (from, at, to) -> out[to] = from[at]);
    return new ByteGrid(spec, out);
  }

  private interface Put<A> {
    void put(A from, int at, int to);
  }

  private <A> void pick(Path file, CellKind<A> kind, Put<A> put) {
    try (RasterRows<A> rows = RasterRows.open(file, kind)) {
      A strip = kind.array(ROWS_AT_A_TIME * whole.cols());
      int held = 0;
      int end = 0;
      for (int r = 0; r < spec.rows(); r++) {
        int row = r * step + step / 2;
        if (row >= end) {
          held = row;
          end = Math.min(whole.rows(), row + ROWS_AT_A_TIME);
          rows.read(held, end - held, strip);
        }
        for (int c = 0; c < spec.cols(); c++) {
          put.put(strip, (row - held) * whole.cols() + c * step + step / 2, r * spec.cols() + c);
        }
      }
    }
  }
}
