package org.scarpway.run.product;

import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.raster.RasterHeader;
import org.scarpway.grid.GridSpec;

/**
 * Cells of the ground on a raster that counts in the elevation model's own system, such as degrees,
 * where the ground lies on another map: the box of pixels about the corners of each cell. It holds
 * every pixel with its centre in the cell and, where the maps are turned against each other, some
 * around it.
 */
final class WarpedCells {
  /** Cells along the longest side between places that are looked at for the whole extent. */
  private static final int EXTENT_STEPS = 256;

  private final GridSpec spec;
  private final PlaceFrame frame;
  private final RasterHeader.Affine at;
  private final double unitsPerFrameUnit;
  private final double turnsX;

  private WarpedCells(GridSpec spec, PlaceFrame frame, RasterHeader header, MapCrs own) {
    MapCrs dem = frame.raster();
    this.spec = spec;
    this.frame = frame;
    this.at = header.transform();
    this.unitsPerFrameUnit = own.isGeographic() ? 1 : dem.metresPerUnit() / own.metresPerUnit();
    double[] middle =
        frame.toRaster(
            (spec.westM() + spec.eastM()) / 2, spec.northM() - spec.rows() * spec.cellYM() / 2);
    double ownMidX = at.x0() + header.cols() / 2.0 * at.xCol() + header.rows() / 2.0 * at.xRow();
    double turn = own.turnX();
    double apart = ownMidX - middle[0] * unitsPerFrameUnit;
    this.turnsX = turn > 0 ? turn * Math.rint(apart / turn) : 0;
  }

  /** Null where the raster is not in the elevation model's own system, be it in another unit. */
  static WarpedCells of(GridSpec spec, PlaceFrame frame, RasterHeader header) {
    MapCrs own = CrsText.read(header.crsWkt());
    MapCrs dem = frame.raster();
    boolean same =
        (own.isGeographic() || dem.isGeographic())
            ? own.sameAs(dem)
            : own.inMetres().sameAs(dem.inMetres());
    return same ? new WarpedCells(spec, frame, header, own) : null;
  }

  /** Row and column, in pixels, of a corner between cells; NaN where there is none. */
  private void pixel(double row, double col, double[] out) {
    double[] xy =
        frame.toRaster(spec.westM() + col * spec.cellXM(), spec.northM() - row * spec.cellYM());
    double dx = xy[0] * unitsPerFrameUnit + turnsX - at.x0();
    double dy = xy[1] * unitsPerFrameUnit - at.y0();
    double det = at.xCol() * at.yRow() - at.xRow() * at.yCol();
    out[0] = (at.xCol() * dy - at.yCol() * dx) / det;
    out[1] = (at.yRow() * dx - at.xRow() * dy) / det;
  }

  /**
   * First row, the one past the last, first column and the one past the last of each cell of a
   * window, which may lie off the raster.
   */
  int[] boxes(int firstRow, int firstCol, int rows, int cols) {
    int across = cols + 1;
    double[] r = new double[(rows + 1) * across];
    double[] c = new double[r.length];
    double[] out = new double[2];
    for (int i = 0; i < r.length; i++) {
      pixel(firstRow + i / across, firstCol + i % across, out);
      r[i] = out[0];
      c[i] = out[1];
    }
    int[] boxes = new int[4 * rows * cols];
    for (int i = 0; i < rows * cols; i++) {
      int nw = i / cols * across + i % cols;
      int sw = nw + across;
      pixel(firstRow + i / cols + 0.5, firstCol + i % cols + 0.5, out);
      stretch(r[nw], r[nw + 1], r[sw], r[sw + 1], out[0], boxes, 4 * i);
      stretch(c[nw], c[nw + 1], c[sw], c[sw + 1], out[1], boxes, 4 * i + 2);
    }
    return boxes;
  }

  /** Pixels with their centres between the least and the largest, or the one under the middle. */
  private static void stretch(
      double p, double q, double s, double t, double middle, int[] out, int at) {
    double least = Math.min(Math.min(p, q), Math.min(s, t));
    double most = Math.max(Math.max(p, q), Math.max(s, t));
    if (!Double.isFinite(most - least)) {
      out[at] = -1;
      return;
    }
    out[at] = (int) Math.ceil(least - 0.5);
    out[at + 1] = (int) Math.ceil(most - 0.5);
    if (out[at] >= out[at + 1]) {
      out[at] = (int) Math.floor(middle);
      out[at + 1] = out[at] + 1;
    }
  }

  /** Rows and columns, as those of a cell, that hold all cells; some more where maps are bent. */
  int[] extent() {
    int step = Math.max(1, Math.max(spec.rows(), spec.cols()) / EXTENT_STEPS);
    int down = (spec.rows() + step - 1) / step + 1;
    int across = (spec.cols() + step - 1) / step + 1;
    double[] least = {Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY};
    double[] most = {Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY};
    double[] widest = new double[2];
    double[] here = new double[2];
    double[] before = new double[2];
    for (int i = 0; i < down * across; i++) {
      int row = Math.min(spec.rows(), i / across * step);
      int col = Math.min(spec.cols(), i % across * step);
      System.arraycopy(here, 0, before, 0, 2);
      pixel(row, col, here);
      for (int k = 0; k < 2; k++) {
        if (Double.isFinite(here[k])) {
          least[k] = Math.min(least[k], here[k]);
          most[k] = Math.max(most[k], here[k]);
        }
        if (i % across > 0 && Double.isFinite(here[k] - before[k])) {
          widest[k] = Math.max(widest[k], Math.abs(here[k] - before[k]));
        }
      }
    }
    int[] all = new int[4];
    for (int k = 0; k < 2; k++) {
      double margin = 1 + Math.max(widest[0], widest[1]);
      all[2 * k] = (int) Math.floor(least[k] - margin);
      all[2 * k + 1] = (int) Math.ceil(most[k] + margin);
    }
    return all;
  }
}
