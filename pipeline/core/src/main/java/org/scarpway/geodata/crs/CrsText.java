package org.scarpway.geodata.crs;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.scarpway.geodata.projection.Ellipsoid;
import org.scarpway.geodata.projection.ProjectionSpec;
import org.scarpway.stage.UserError;

/**
 * Parses coordinate reference system text: OGC WKT 1 (OGC 01-009) as written by GDAL, GeoTools and
 * Esri-style files, and the two-dimensional part of WKT 2 (ISO 19162). Anything it cannot interpret
 * is refused by name; it never guesses a projection.
 */
public final class CrsText {
  private static final Set<String> COMPOUND = Set.of("COMPD_CS", "COMPOUNDCRS");
  private static final Set<String> BOUND = Set.of("BOUNDCRS", "SOURCECRS");
  private static final Set<String> LOCAL = Set.of("LOCAL_CS", "ENGCRS", "ENGINEERINGCRS");
  private static final Set<String> PROJECTED = Set.of("PROJCS", "PROJCRS", "PROJECTEDCRS");
  private static final Set<String> GEOGRAPHIC =
      Set.of(
          "GEOGCS",
          "GEOGCRS",
          "GEOGRAPHICCRS",
          "GEODCRS",
          "GEODETICCRS",
          "BASEGEOGCRS",
          "BASEGEODCRS");
  private static final Set<String> UNITS = Set.of("UNIT", "LENGTHUNIT", "ANGLEUNIT", "SCALEUNIT");
  private static final Set<String> DATUMS =
      Set.of("DATUM", "ENSEMBLE", "GEODETICDATUM", "TRF", "DYNAMIC");

  private CrsText() {}

  /**
   * Parses OGC WKT 1 or WKT 2 text. An empty text is the local plane in metres.
   *
   * @throws UserError for a system that is not supported, naming it
   */
  public static MapCrs read(String wkt) {
    if (wkt.isBlank()) {
      return MapCrs.plane("local plane", 1);
    }
    try {
      return crs(WktTree.parse(wkt));
    } catch (IllegalArgumentException e) {
      throw new UserError(
          "coordinate reference system text: "
              + e.getMessage()
              + "; expected OGC WKT; assign a valid system to the file");
    }
  }

  private static MapCrs crs(WktTree node) {
    String kind = node.keyword();
    if (COMPOUND.contains(kind) || BOUND.contains(kind)) {
      for (WktTree inner : node.children()) {
        if (!UNITS.contains(inner.keyword()) && !"ID".equals(inner.keyword())) {
          return crs(inner);
        }
      }
    }
    if (LOCAL.contains(kind)) {
      return MapCrs.plane(node.word(0), lengthUnit(node));
    }
    if (GEOGRAPHIC.contains(kind)) {
      GeographicPart g = geographic(node, node.word(0));
      return MapCrs.geographic(node.word(0), g, authority(node));
    }
    if (PROJECTED.contains(kind)) {
      return projected(node);
    }
    throw UnsupportedCrs.of(
        node.word(0), "kind " + kind + " is not a map or longitude-latitude system");
  }

  private static GeographicPart geographic(WktTree node, String crsName) {
    WktTree datum = node.first(DATUMS);
    if (datum != null && "DYNAMIC".equals(datum.keyword())) {
      datum =
          node.children().stream()
              .filter(n -> DATUMS.contains(n.keyword()) && !"DYNAMIC".equals(n.keyword()))
              .findFirst()
              .orElse(null);
    }
    WktTree figure = datum == null ? null : datum.first(Set.of("SPHEROID", "ELLIPSOID"));
    if (figure == null) {
      throw UnsupportedCrs.of(crsName, "it names no ellipsoid");
    }
    double unitM = figure.first(UNITS) == null ? 1 : figure.first(UNITS).number(1);
    double a = figure.number(1) * unitM;
    double inverseFlattening = figure.number(2);
    if (!(a >= 1) || a > 1e9 || !(inverseFlattening == 0 || inverseFlattening > 1)) {
      throw UnsupportedCrs.of(
          crsName,
          "ellipsoid of " + a + " m and inverse flattening " + inverseFlattening + " is no body");
    }
    double degreesPerUnit = angleUnit(node);
    WktTree meridian = node.first(Set.of("PRIMEM", "PRIMEMERIDIAN"));
    double meridianDeg = meridian == null ? 0 : meridian.number(1);
    if (meridianDeg != 0 && degreesPerUnit != 1) {
      throw UnsupportedCrs.of(crsName, "a prime meridian of its own in a unit other than degrees");
    }
    boolean ocentric = node.word(0).toLowerCase(Locale.ROOT).contains("ocentric");
    for (WktTree axis : node.children()) {
      if ("AXIS".equals(axis.keyword())) {
        ocentric |= axis.word(0).toLowerCase(Locale.ROOT).startsWith("planetocentric");
        requireDirection(crsName, axis, Set.of("EAST", "NORTH", "UP"));
      }
    }
    Ellipsoid body = Ellipsoid.ofInverseFlattening(a, inverseFlattening);
    return new GeographicPart(
        node.word(0),
        datum.word(0),
        figure.word(0),
        body,
        meridian == null ? "Greenwich" : meridian.word(0),
        meridianDeg,
        degreesPerUnit,
        ocentric && !body.isSphere(),
        authority(node));
  }

  private static MapCrs projected(WktTree node) {
    String name = node.word(0);
    WktTree base = node.first(GEOGRAPHIC);
    WktTree conversion = node.first("CONVERSION");
    WktTree home = conversion == null ? node : conversion;
    WktTree method = home.first(Set.of("PROJECTION", "METHOD"));
    if (base == null || method == null) {
      throw UnsupportedCrs.of(name, "it names no " + (base == null ? "base system" : "projection"));
    }
    GeographicPart g = geographic(base, name);
    if (g.planetocentric()) {
      throw UnsupportedCrs.of(name, "a projection of planetocentric latitudes of a flattened body");
    }
    double unitM = lengthUnit(node);
    Map<String, Double> values = new HashMap<>();
    for (WktTree p : home.children()) {
      if ("PARAMETER".equals(p.keyword())) {
        CrsParameters.put(values, name, p, p.first(UNITS), g.degreesPerUnit(), unitM);
      }
    }
    ProjectionSpec spec;
    try {
      spec = CrsParameters.spec(name, method.word(0), values, g.body(), extension(node));
    } catch (IllegalArgumentException e) {
      throw UnsupportedCrs.of(name, e.getMessage());
    }
    // In a polar CRS both axes point to the other pole, so their directions carry no information.
    if (!spec.isPolar()) {
      for (WktTree axis : node.children()) {
        if ("AXIS".equals(axis.keyword())) {
          requireDirection(name, axis, Set.of("EAST", "NORTH", "UP"));
        }
      }
    }
    boolean sameForm = CrsParameters.keepsItsForm(spec.method(), method.word(0));
    return MapCrs.projected(name, g, spec, unitM, sameForm ? authority(node) : "");
  }

  private static String extension(WktTree node) {
    WktTree e = node.first("EXTENSION");
    return e == null ? "" : e.word(1);
  }

  private static void requireDirection(String crsName, WktTree axis, Set<String> allowed) {
    String direction = axis.word(1).toUpperCase(Locale.ROOT);
    if (!direction.isEmpty() && !"OTHER".equals(direction) && !allowed.contains(direction)) {
      throw UnsupportedCrs.of(crsName, "axis '" + axis.word(0) + "' counts to the " + direction);
    }
  }

  private static double lengthUnit(WktTree node) {
    return unit(node, Set.of("UNIT", "LENGTHUNIT"), 1);
  }

  private static double angleUnit(WktTree node) {
    double radians = unit(node, Set.of("UNIT", "ANGLEUNIT"), Math.toRadians(1));
    double degrees = Math.toDegrees(radians);
    // The usual 0.0174532925199433 is a rounded degree.
    return Math.abs(degrees - 1) < 1e-9 ? 1 : degrees;
  }

  /** The unit of a CRS: its own UNIT, or that of its first axis (WKT 2). */
  private static double unit(WktTree node, Set<String> keywords, double fallback) {
    WktTree unit = node.first(keywords);
    WktTree axis = node.first("AXIS");
    if (unit == null && axis != null) {
      unit = axis.first(keywords);
    }
    if (unit == null) {
      return fallback;
    }
    double size = unit.number(1);
    if (!(size > 0) || size > 1e7) {
      throw UnsupportedCrs.of(node.word(0), "unit '" + unit.word(0) + "' of size " + unit.word(1));
    }
    return size;
  }

  private static String authority(WktTree node) {
    WktTree a = node.first(Set.of("AUTHORITY", "ID"));
    return a == null || a.word(1).isEmpty() ? "" : a.word(0) + ":" + a.word(1);
  }
}
