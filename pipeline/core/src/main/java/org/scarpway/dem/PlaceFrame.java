package org.scarpway.dem;

import java.math.BigDecimal;
import java.math.MathContext;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/**
 * Places as people write them, in the metres of the grid that is analysed: [x, y] counts in the
 * raster's own system and unit (degrees, feet, metres), longitude and latitude as {@link WorldMap}
 * says. The grid may lie on another map than the raster, or count in another unit.
 */
public final class PlaceFrame {
  private static final int OUTLINE_STEPS = 16;

  private final MapCrs raster;
  private final GridSpec grid;
  private final WorldMap world;
  private final MapCrs map;
  private final boolean sameMap;
  private final double midX;

  /**
   * @param midX middle of the raster in its own system, which may count on from turn to turn
   */
  PlaceFrame(MapCrs raster, double midX, GridSpec grid) {
    this.raster = raster;
    this.midX = midX;
    this.grid = grid;
    this.world = WorldMap.of(grid);
    this.map = world.map();
    this.sameMap = !raster.isGeographic() && (raster.isLocal() || raster.inMetres().sameAs(map));
  }

  /** Longitude and latitude on the grid's map. */
  public WorldMap world() {
    return world;
  }

  /** The raster's own system. */
  public MapCrs raster() {
    return raster;
  }

  /** The grid that is analysed. */
  public GridSpec grid() {
    return grid;
  }

  /** Whether the grid lies on the raster's own map, be it in another unit. */
  public boolean onRastersMap() {
    return sameMap;
  }

  /** Metres on the grid of a place in the raster's own system; NaN where there is none. */
  public double[] fromRaster(double x, double y) {
    if (sameMap) {
      double unit = raster.metresPerUnit();
      return new double[] {x * unit, y * unit};
    }
    double degrees = raster.isGeographic() ? 360 / raster.turnX() : 0;
    if (Math.abs(y * degrees) > 90 || Math.abs(x * degrees) > 720) {
      return new double[] {Double.NaN, Double.NaN};
    }
    double[] lonLat = raster.toLonLat(x, y);
    return map.fromLonLat(lonLat[0], lonLat[1]);
  }

  /** A place of the grid in the raster's own system. */
  public double[] toRaster(double xM, double yM) {
    if (sameMap) {
      double unit = raster.metresPerUnit();
      return new double[] {xM / unit, yM / unit};
    }
    double[] lonLat = map.toLonLat(xM, yM);
    return raster.fromLonLatNear(lonLat[0], lonLat[1], midX);
  }

  /**
   * Metres on the grid of a place by longitude and latitude.
   *
   * @param where for the message if there is no way to the grid
   */
  public double[] fromLonLat(double lonDeg, double latDeg, String where) {
    if (!world.known()) {
      throw UserError.of(
          where,
          "longitude and latitude cannot be found on the elevation model ("
              + world.shift().told()
              + ")",
          "x and y of the raster's own system",
          "give the place as [x, y]");
    }
    return world.fromLonLat(lonDeg, latDeg);
  }

  /** Whether a point (m) lies on the grid. */
  public boolean holds(double[] xyM) {
    return Double.isFinite(xyM[0] + xyM[1]) && grid.cellOf(xyM[0], xyM[1]) >= 0;
  }

  /** Metres on the grid of a place as it is written. */
  public double[] toGrid(double x, double y, boolean lonLat, String where) {
    return lonLat ? fromLonLat(x, y, where) : fromRaster(x, y);
  }

  /** A place as it is written, with what its numbers are. */
  public static String text(double x, double y, boolean lonLat) {
    return lonLat
        ? "lon " + shortly9(x) + ", lat " + shortly9(y)
        : "x " + shortly9(x) + ", y " + shortly9(y);
  }

  /** Where places may lie, in the terms of the one that does not. */
  public String range(boolean lonLat) {
    double[] box = box(lonLat);
    if (Double.isNaN(box[0] + box[2])
        || (box[2] - box[0] > 180 && (lonLat || raster.isGeographic()))) {
      return "a place on the elevation model, " + (lonLat ? "lat" : "y") + " in " + span(box, 1);
    }
    return (lonLat ? "lon in " : "x in ")
        + span(box, 0)
        + (lonLat ? " and lat in " : " and y in ")
        + span(box, 1)
        + (lonLat ? " deg" : " of '" + raster.name() + "'");
  }

  private static String span(double[] box, int k) {
    return "[" + shortly9(box[k]) + ", " + shortly9(box[k + 2]) + "]";
  }

  private double[] box(boolean lonLat) {
    double[] box = {
      Double.POSITIVE_INFINITY,
      Double.POSITIVE_INFINITY,
      Double.NEGATIVE_INFINITY,
      Double.NEGATIVE_INFINITY
    };
    double[] mid = null;
    for (int i = 0; i <= 4 * OUTLINE_STEPS; i++) {
      // The middle first, then round the outline.
      double f = (i - 1) % OUTLINE_STEPS / (double) OUTLINE_STEPS;
      int side = (i - 1) / OUTLINE_STEPS;
      double u = i == 0 ? 0.5 : side == 0 ? f : side == 1 ? 1 : side == 2 ? 1 - f : 0;
      double v = i == 0 ? 0.5 : side == 0 ? 0 : side == 1 ? f : side == 2 ? 1 : 1 - f;
      double xM = grid.westM() + u * (grid.eastM() - grid.westM());
      double yM = grid.southM() + v * (grid.northM() - grid.southM());
      double[] at = lonLat ? world.toLonLat(xM, yM) : toRaster(xM, yM);
      if (i == 0) {
        mid = at;
      } else if (lonLat) {
        at[0] = mid[0] + Math.IEEEremainder(at[0] - mid[0], 360);
      }
      for (int k = 0; k < 2; k++) {
        box[k] = Math.min(box[k], at[k]);
        box[k + 2] = Math.max(box[k + 2], at[k]);
      }
    }
    return box;
  }

  /** Nine digits: a metre of a degree, a centimetre of a map. */
  private static String shortly9(double v) {
    if (!Double.isFinite(v)) {
      return String.valueOf(v);
    }
    return new BigDecimal(v).round(new MathContext(9)).stripTrailingZeros().toPlainString();
  }
}
