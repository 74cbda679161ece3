package org.scarpway.geodata.raster;

import java.nio.file.Path;
import org.scarpway.stage.UserError;

/**
 * Checks that a raster states its georeference and the meaning of its cells, in both
 * implementations.
 */
final class RasterPlace {
  private RasterPlace() {}

  /**
   * The error for a raster without a georeference, or for an image with control points that must be
   * warped first.
   */
  static UserError missing(Path file, boolean controlPoints) {
    return UserError.of(
        file.toString(),
        controlPoints
            ? "is placed by ground control points only"
            : "does not say where its cells lie",
        "a cell size and a corner in the file",
        "warp or tag it first (gdalwarp, or gdal_translate -a_ullr)");
  }

  static void requireCells(Path file, double xCol, double xRow, double yCol, double yRow) {
    double area = xCol * yRow - xRow * yCol;
    if (!Double.isFinite(area) || area == 0) {
      throw UserError.of(
          file.toString(),
          "cell size is " + xCol + " x " + yRow,
          "cells with an area",
          "check the georeference of the file");
    }
  }

  static void requireScale(Path file, double scale, double offset) {
    if (!Double.isFinite(scale) || scale == 0 || !Double.isFinite(offset)) {
      throw UserError.of(
          file.toString(),
          "scale " + scale + ", offset " + offset,
          "a finite scale other than 0 and a finite offset",
          "correct the tags of the file");
    }
  }
}
