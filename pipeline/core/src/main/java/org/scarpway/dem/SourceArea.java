package org.scarpway.dem;

import static org.scarpway.dem.GridPlan.shortly;

import org.scarpway.dem.DemRequest.Window;
import org.scarpway.geodata.crs.DatumShift;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.raster.RasterHeader.Affine;
import org.scarpway.stage.UserError;

/** The requested area in the source's own coordinates. */
final class SourceArea {
  private final HeightSource source;
  private final Window window;
  private final MapCrs crs;
  private final Affine grid;

  SourceArea(HeightSource source, Window window) {
    this.source = source;
    this.window = window;
    this.crs = source.crs();
    this.grid = source.grid();
  }

  /** Centre of the window, or of the raster if none is given, in the source's own coordinates. */
  double[] centre() {
    double midX = GridPlan.x(grid, source.cols() / 2.0, source.rows() / 2.0);
    double midY = GridPlan.y(grid, source.cols() / 2.0, source.rows() / 2.0);
    if (window == null) {
      return new double[] {midX, midY};
    }
    if (window.lonLat() && crs.isLocal()) {
      throw UserError.of(
          "dem.window",
          "centre as lon, lat on a local plane",
          "x, y in metres",
          "give the centre in the file's own coordinates");
    }
    double[] c = {window.x(), window.y()};
    if (window.lonLat()) {
      DatumShift shift = DatumShift.of(crs, window.x(), window.y());
      if (!shift.known()) {
        throw UserError.of(
            "dem.window",
            "centre as lon, lat, which cannot be found on "
                + source.name()
                + " ("
                + shift.note()
                + ")",
            "x, y of the raster's own system",
            "give the centre as [x, y]");
      }
      double[] own = {window.x(), window.y()};
      shift.fromWorld(own);
      c = crs.fromLonLatNear(own[0], own[1], midX);
    } else if (crs.isGeographic()) {
      double turn = crs.turnX();
      c[0] += turn * Math.rint((midX - c[0]) / turn);
    }
    if (!Double.isFinite(c[0]) || !Double.isFinite(c[1])) {
      throw outside();
    }
    return c;
  }

  /** Bounding box (west, south, east, north) of the area to be read, in the source's own units. */
  double[] box() {
    double[] all = wholeBox();
    if (window == null) {
      return all;
    }
    double[] c = centre();
    double unit = crs.metresPerUnit();
    double[] box = {
      Math.max(all[0], c[0] - window.widthM() / 2 / unit),
      Math.max(all[1], c[1] - window.heightM() / 2 / unit),
      Math.min(all[2], c[0] + window.widthM() / 2 / unit),
      Math.min(all[3], c[1] + window.heightM() / 2 / unit)
    };
    if (box[0] >= box[2] || box[1] >= box[3]) {
      throw outside();
    }
    return box;
  }

  private double[] wholeBox() {
    double[] b = {
      Double.POSITIVE_INFINITY,
      Double.POSITIVE_INFINITY,
      Double.NEGATIVE_INFINITY,
      Double.NEGATIVE_INFINITY
    };
    for (int k = 0; k < 4; k++) {
      double col = (k & 1) * source.cols();
      double row = (k >> 1) * source.rows();
      double x = GridPlan.x(grid, col, row);
      double y = GridPlan.y(grid, col, row);
      b[0] = Math.min(b[0], x);
      b[1] = Math.min(b[1], y);
      b[2] = Math.max(b[2], x);
      b[3] = Math.max(b[3], y);
    }
    return b;
  }

  UserError outside() {
    double[] b = wholeBox();
    StringBuilder extent = new StringBuilder();
    extent.append("x ").append(shortly(b[0])).append(" to ").append(shortly(b[2]));
    extent.append(", y ").append(shortly(b[1])).append(" to ").append(shortly(b[3]));
    if (!crs.isLocal()) {
      double[] m = crs.toLonLat((b[0] + b[2]) / 2, (b[1] + b[3]) / 2);
      extent.append(" (centre lon ").append(shortly(m[0])).append(", lat ").append(shortly(m[1]));
      extent.append(')');
    }
    return UserError.of(
        "dem.window",
        "centre "
            + shortly(window.x())
            + ", "
            + shortly(window.y())
            + " is outside "
            + source.name(),
        extent.toString(),
        "move the window onto the elevation model");
  }
}
