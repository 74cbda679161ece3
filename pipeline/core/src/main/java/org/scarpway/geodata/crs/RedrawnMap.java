package org.scarpway.geodata.crs;

import org.scarpway.geodata.projection.Method;
import org.scarpway.geodata.projection.ProjectionSpec;

/**
 * A rescaled map: the same projection with another scale factor, or another standard parallel for
 * an equirectangular map, so that a raster's cells keep their heights and get new coordinates.
 */
public final class RedrawnMap {
  private RedrawnMap() {}

  /**
   * Returns the map with x and y divided by the factors, in metres; null if no parameter of the
   * projection can do that. Maps with a scale factor can be rescaled by equal factors only,
   * equirectangular ones along x only.
   *
   * @param aboutXM x (m on the map) of the point that keeps its coordinates
   */
  public static MapCrs smaller(MapCrs map, double byX, double byY, double aboutXM, double aboutYM) {
    ProjectionSpec s = map.spec();
    double east = s.falseEastM() / byX + aboutXM * (1 - 1 / byX);
    double north = s.falseNorthM() / byY + aboutYM * (1 - 1 / byY);
    ProjectionSpec to =
        switch (s.method()) {
          case STEREOGRAPHIC,
              OBLIQUE_STEREOGRAPHIC,
              TRANSVERSE_MERCATOR,
              MERCATOR,
              LAMBERT_CONFORMAL_1SP ->
              byX == byY ? drawn(s, s.lat1Deg(), s.scale() / byX, east, north) : null;
          case EQUIRECTANGULAR -> {
            double cos = Math.cos(Math.toRadians(s.lat1Deg())) / byX;
            yield byY == 1 && cos <= 1 && cos > 0.01
                ? drawn(s, Math.toDegrees(Math.acos(cos)), s.scale(), east, north)
                : null;
          }
          default -> null;
        };
    return to == null
        ? null
        : MapCrs.projected(map.name() + ", true to scale here", map.geographicPart(), to, 1, "");
  }

  /**
   * The affine relation between coordinates of a map and of the same map rescaled: x' = a x + b and
   * y' = c y + d as {a, b, c, d}; null if the two are different maps.
   */
  public static double[] between(MapCrs from, MapCrs other) {
    if (from.sameAs(other)) {
      return new double[] {1, 0, 1, 0};
    }
    if (!from.isProjected() || !other.isProjected()) {
      return null;
    }
    ProjectionSpec s = from.spec();
    ProjectionSpec to = other.spec();
    double unit = from.metresPerUnit();
    double y = to.scale() / s.scale();
    double x = y;
    double lat1Deg = s.lat1Deg();
    if (to.method() == Method.EQUIRECTANGULAR) {
      lat1Deg = to.lat1Deg();
      x *= Math.cos(Math.toRadians(lat1Deg)) / Math.cos(Math.toRadians(s.lat1Deg()));
    }
    ProjectionSpec same = drawn(s, lat1Deg, to.scale(), to.falseEastM(), to.falseNorthM());
    boolean redrawn =
        MapCrs.projected(from.name(), from.geographicPart(), same, unit, "").sameAs(other);
    return redrawn
        ? new double[] {
          x,
          (to.falseEastM() - x * s.falseEastM()) / unit,
          y,
          (to.falseNorthM() - y * s.falseNorthM()) / unit
        }
        : null;
  }

  private static ProjectionSpec drawn(
      ProjectionSpec s, double lat1Deg, double scale, double falseEastM, double falseNorthM) {
    return new ProjectionSpec(
        s.method(), s.lat0Deg(), s.lon0Deg(), lat1Deg, s.lat2Deg(), scale, falseEastM, falseNorthM);
  }
}
