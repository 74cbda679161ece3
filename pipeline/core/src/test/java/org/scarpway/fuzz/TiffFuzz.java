package org.scarpway.fuzz;

import java.nio.file.Path;
import org.scarpway.geodata.raster.RasterHeader;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;

/** A GeoTIFF of any bytes on the pure-Java path: its header and its first cells. */
public final class TiffFuzz {
  private TiffFuzz() {}

  private static final RasterIo IO = RasterIos.pureJava();

  static void firstCells(Path file) {
    RasterHeader h = IO.header(file);
    int rows = Math.min(h.rows(), 4);
    int cols = Math.min(h.cols(), 64);
    IO.read(h, 0, 0, rows, cols, 0, new float[rows * cols]);
  }

  public static void fuzzerTestOneInput(byte[] content) {
    Target.read("ground.tif", content, TiffFuzz::firstCells);
  }
}
