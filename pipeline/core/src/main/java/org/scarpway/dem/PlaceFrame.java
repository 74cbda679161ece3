package org.scarpway.dem;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/**
 * Transforms coordinates as users write them to metres on the analysis grid and back. A pair [x, y]
 * is in the raster's own CRS and unit (degrees, feet, metres); longitude and latitude are as {@link
 * WorldMap} defines them. The grid may be on another map than the raster, or in another unit.
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
   * @param midX x of the centre of the raster in its own CRS, where longitudes may exceed 360
   *     degrees
   */
  PlaceFrame(MapCrs raster, double midX, GridSpec grid) {
    this.raster = raster;
    this.midX = midX;
    this.grid = grid;
    this.world = WorldMap.of(grid);
    this.map = world.map();
    this.sameMap = !raster.isGeographic() && (raster.isLocal() || raster.inMetres().sameAs(map));
  }

  /** The transformation between longitude, latitude and the grid's map. */
  public WorldMap world() {
    return world;
  }

  /** The raster's own coordinate reference system. */
  public MapCrs raster() {
    return raster;
  }

  /** The analysis grid. */
  public GridSpec grid() {
    return grid;
  }

  /** True if the grid is on the raster's own map, possibly in another unit. */
  public boolean onRastersMap() {
    return sameMap;
  }

  /**
   * Transforms a point of the raster's own CRS to metres on the grid; NaN if it has no image there.
   */
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

  /** Transforms a point of the grid (m) to the raster's own CRS. */
  public double[] toRaster(double xM, double yM) {
    if (sameMap) {
      double unit = raster.metresPerUnit();
      return new double[] {xM / unit, yM / unit};
    }
    double[] lonLat = map.toLonLat(xM, yM);
    return raster.fromLonLatNear(lonLat[0], lonLat[1], midX);
  }

  /**
   * Transforms longitude and latitude (degrees) to metres on the grid.
   *
   * @param where position in the job, for the message if no transformation to the grid exists
   */
  public double[] fromLonLat(double lonDeg, double latDeg, String where) {
    if (!world.known()) {
      throw UserError.of(
          where,
          "longitude and latitude cannot be found on the elevation model ("
              + world.shift().note()
              + ")",
          "x and y of the raster's own system",
          "give the place as [x, y]");
    }
    return world.fromLonLat(lonDeg, latDeg);
  }

  /** True if a point (m) lies on the grid. */
  public boolean holds(double[] xyM) {
    return Double.isFinite(xyM[0] + xyM[1]) && grid.cellOf(xyM[0], xyM[1]) >= 0;
  }

  /** Transforms a place as the user wrote it to metres on the grid. */
  public double[] toGrid(double x, double y, boolean lonLat, String where) {
    return lonLat ? fromLonLat(x, y, where) : fromRaster(x, y);
  }

  /** Formats a place as the user wrote it, with the names of its coordinates. */
  public static String text(double x, double y, boolean lonLat) {
    return lonLat
        ? "lon " + shortly9(x) + ", lat " + shortly9(y)
        : "x " + shortly9(x) + ", y " + shortly9(y);
  }

  /** Formats a point of the grid (m) in the raster's own CRS, with its unit. */
  public String ownText(double xM, double yM) {
    double[] own = toRaster(xM, yM);
    if (raster.isGeographic()) {
      String unit = Math.abs(raster.turnX() - 360) < 1e-6 ? " deg" : " of '" + raster.name() + "'";
      return "x " + rounded(own[0], 6) + ", y " + rounded(own[1], 6) + unit;
    }
    String unit = lengthUnit(raster.metresPerUnit());
    return "x " + rounded(own[0], 1) + ", y " + rounded(own[1], 1) + unit;
  }

  private static String lengthUnit(double metres) {
    if (metres == 1) {
      return " m";
    }
    boolean feet = Math.abs(metres - 0.3048) < 1e-5;
    return feet ? " ft" : " units of " + shortly9(metres) + " m";
  }

  private static String rounded(double v, int decimals) {
    return Double.isFinite(v)
        ? BigDecimal.valueOf(v).setScale(decimals, RoundingMode.HALF_EVEN).toPlainString()
        : String.valueOf(v);
  }

  /** The allowed range of coordinates, in the same CRS as the rejected place. */
  public String range(boolean lonLat) {
    double[] box = box(lonLat);
    if (Double.isNaN(box[0] + box[2])
        || (box[2] - box[0] > 180 && (lonLat || raster.isGeographic()))) {
      return "a place on the elevation model, " + (lonLat ? "lat" : "y") + " in " + span(box, 1);
    }
    if (!lonLat && !raster.isGeographic()) {
      // The east and the south edge belong to the cells beyond them.
      return "x in ["
          + shortly9(box[0])
          + ", "
          + shortly9(box[2])
          + ") and y in ("
          + shortly9(box[1])
          + ", "
          + shortly9(box[3])
          + "] of '"
          + raster.name()
          + "'";
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
      // The centre first, then points along the outline.
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

  /** Nine significant digits: better than a metre in degrees, a centimetre in map units. */
  private static String shortly9(double v) {
    if (!Double.isFinite(v)) {
      return String.valueOf(v);
    }
    return new BigDecimal(v).round(new MathContext(9)).stripTrailingZeros().toPlainString();
  }
}
