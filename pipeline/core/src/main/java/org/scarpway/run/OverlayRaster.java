package org.scarpway.run;

import java.nio.file.Path;
import java.util.Arrays;
import org.scarpway.geodata.MapCrs;
import org.scarpway.geodata.RasterHeader;
import org.scarpway.geodata.RasterIo;
import org.scarpway.geodata.RedrawnMap;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/**
 * A raster of another quantity, such as rock coverage, taken onto the cells of the elevation model:
 * the value of the cell that holds each centre, NaN where there is none.
 */
final class OverlayRaster {
  private final GridSpec spec;
  private final RasterIo io;
  private final RasterHeader header;

  /** From the map of the ground to the raster's own, which may be drawn at another size. */
  private final double[] redrawn;

  private OverlayRaster(GridSpec spec, RasterIo io, RasterHeader header, double[] redrawn) {
    this.redrawn = redrawn;
    this.spec = spec;
    this.io = io;
    this.header = header;
  }

  static FloatGrid onto(GridSpec spec, Path file, RasterIo io) {
    return open(spec, file, io).rows(0, spec.rows());
  }

  static OverlayRaster open(GridSpec spec, Path file, RasterIo io) {
    RasterHeader h = io.header(file);
    MapCrs own = MapCrs.of(h.crsWkt());
    double[] redrawn = RedrawnMap.between(MapCrs.of(spec.crsWkt()), own);
    if (redrawn == null || h.transform().rotated()) {
      throw UserError.of(
          file.toString(),
          "its CRS '" + own.name() + "' or rotation differs from that of the ground analysed",
          "a north-up raster on '" + MapCrs.of(spec.crsWkt()).name() + "'",
          "reproject it");
    }
    return new OverlayRaster(spec, io, h, redrawn);
  }

  /** Values on some rows of the grid. */
  FloatGrid rows(int firstRow, int rows) {
    return window(firstRow, 0, rows, spec.cols());
  }

  /** Values on a window of the grid. */
  FloatGrid window(int firstRow, int firstCol, int rows, int cols) {
    RasterHeader.Affine t = header.transform();
    GridSpec part = spec.part(firstRow, firstCol, rows, cols);
    float[] out = new float[part.cells()];
    Arrays.fill(out, Float.NaN);
    float[] line = new float[header.cols()];
    int loaded = -1;
    for (int row = firstRow; row < firstRow + rows; row++) {
      int r = (int) Math.floor((redrawn[2] * spec.yM(row) + redrawn[3] - t.y0()) / t.yRow());
      if (r < 0 || r >= header.rows()) {
        continue;
      }
      if (r != loaded) {
        io.read(header, r, 0, 1, header.cols(), 0, line);
        loaded = r;
      }
      for (int col = 0; col < cols; col++) {
        double x = redrawn[0] * spec.xM(firstCol + col) + redrawn[1];
        int c = (int) Math.floor((x - t.x0()) / t.xCol());
        if (c >= 0 && c < header.cols()) {
          out[(row - firstRow) * cols + col] = line[c];
        }
      }
    }
    return new FloatGrid(part, out);
  }
}
