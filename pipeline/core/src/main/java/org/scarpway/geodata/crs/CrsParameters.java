package org.scarpway.geodata.crs;

import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.scarpway.geodata.projection.Ellipsoid;
import org.scarpway.geodata.projection.Method;
import org.scarpway.geodata.projection.ProjectionSpec;

/** Maps a projection method name and its parameters, in the spellings in use, to a projection. */
final class CrsParameters {
  private static final Set<String> IGNORED =
      Set.of("semimajor", "semiminor", "auxiliaryspheretype");

  private CrsParameters() {}

  /**
   * Reduces a name to letters and digits: spellings differ in case, blanks, underscores and
   * brackets.
   */
  private static String plain(String name) {
    return name.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]", "");
  }

  /** Stores one parameter, in degrees, metres or unity. */
  static void put(
      Map<String, Double> values,
      String crsName,
      WktTree parameter,
      WktTree unit,
      double degreesPerUnit,
      double metresPerUnit) {
    String name = plain(parameter.word(0));
    if (IGNORED.contains(name)) {
      return;
    }
    String key =
        switch (name) {
          case "latitudeoforigin",
              "latitudeofnaturalorigin",
              "latitudeoffalseorigin",
              "latitudeofprojectioncentre",
              "latitudeofprojectioncenter",
              "latitudeofcentre",
              "latitudeofcenter" ->
              "lat0";
          case "centralmeridian",
              "longitudeoforigin",
              "longitudeofnaturalorigin",
              "longitudeoffalseorigin",
              "longitudeofprojectioncentre",
              "longitudeofprojectioncenter",
              "longitudeofcentre",
              "longitudeofcenter" ->
              "lon0";
          case "standardparallel1", "latitudeof1ststandardparallel", "latitudeofstandardparallel" ->
              "lat1";
          case "standardparallel2", "latitudeof2ndstandardparallel" -> "lat2";
          case "scalefactor", "scalefactoratnaturalorigin", "scalefactoratprojectioncentre" -> "k";
          case "falseeasting", "eastingatfalseorigin", "eastingatprojectioncentre" -> "x0";
          case "falsenorthing", "northingatfalseorigin", "northingatprojectioncentre" -> "y0";
          default ->
              throw UnsupportedCrs.of(crsName, "projection parameter '" + parameter.word(0) + "'");
        };
    double perUnit =
        switch (key) {
          case "x0", "y0" -> unit == null ? metresPerUnit : unit.number(1);
          case "k" -> unit == null ? 1 : unit.number(1);
          default -> unit == null ? degreesPerUnit : degrees(unit.number(1));
        };
    values.put(key, parameter.number(1) * perUnit);
  }

  private static double degrees(double radiansPerUnit) {
    double d = Math.toDegrees(radiansPerUnit);
    return Math.abs(d - 1) < 1e-9 ? 1 : d;
  }

  static ProjectionSpec spec(
      String crsName, String method, Map<String, Double> v, Ellipsoid body, String extension) {
    double lat0 = v.getOrDefault("lat0", 0.0);
    double lon0 = v.getOrDefault("lon0", 0.0);
    double lat1 = v.getOrDefault("lat1", 0.0);
    double lat2 = v.getOrDefault("lat2", 0.0);
    double k = v.getOrDefault("k", 1.0);
    double x0 = v.getOrDefault("x0", 0.0);
    double y0 = v.getOrDefault("y0", 0.0);
    if (!extension.isEmpty() && !extension.contains("+nadgrids=@null")) {
      throw UnsupportedCrs.of(crsName, "extension '" + extension + "'");
    }
    Method m = extension.isEmpty() ? methodNamed(crsName, method) : Method.PSEUDO_MERCATOR;
    switch (m) {
      case STEREOGRAPHIC -> {
        String name = plain(method);
        boolean stereographic = "stereographic".equals(name);
        if (!stereographic && !v.containsKey("lat0") && !v.containsKey("lat1")) {
          throw UnsupportedCrs.of(crsName, method + " without a latitude");
        }
        double lat = v.containsKey("lat1") ? lat1 : lat0;
        if (!stereographic && Math.abs(lat) < 90 - 1e-9) {
          if (Math.abs(k - 1) > 1e-12) {
            throw UnsupportedCrs.of(crsName, method + " with both a true latitude and a scale");
          }
          return ProjectionSpec.polarTrueAt(body, lat, lon0, x0, y0);
        }
        return new ProjectionSpec(m, stereographic ? lat0 : lat, lon0, 0, 0, k, x0, y0);
      }
      case OBLIQUE_STEREOGRAPHIC -> {
        Method form = Math.abs(lat0) > 90 - 1e-9 ? Method.STEREOGRAPHIC : m;
        return new ProjectionSpec(form, lat0, lon0, 0, 0, k, x0, y0);
      }
      case MERCATOR, PSEUDO_MERCATOR -> {
        if (lat0 != 0) {
          throw UnsupportedCrs.of(crsName, "Mercator with an origin off the equator");
        }
        double scale = lat1 == 0 ? k : k * body.parallelRatio(Math.toRadians(lat1));
        return new ProjectionSpec(m, 0, lon0, 0, 0, scale, x0, y0);
      }
      case LAMBERT_CONFORMAL_1SP, LAMBERT_CONFORMAL_2SP -> {
        return conformalConic(crsName, v, lat0, lon0, lat1, lat2, k, x0, y0);
      }
      case ALBERS -> {
        return new ProjectionSpec(
            m, lat0, lon0, lat1, v.containsKey("lat2") ? lat2 : lat1, 1, x0, y0);
      }
      case EQUIRECTANGULAR -> {
        return new ProjectionSpec(m, lat0, lon0, lat1, 0, 1, x0, y0);
      }
      case SINUSOIDAL -> {
        return new ProjectionSpec(m, 0, lon0, 0, 0, 1, x0, y0);
      }
      default -> {
        return new ProjectionSpec(m, lat0, lon0, 0, 0, k, x0, y0);
      }
    }
  }

  private static ProjectionSpec conformalConic(
      String crsName,
      Map<String, Double> v,
      double lat0,
      double lon0,
      double lat1,
      double lat2,
      double k,
      double x0,
      double y0) {
    if (v.containsKey("lat2") && Math.abs(lat1 - lat2) > 1e-12) {
      if (Math.abs(k - 1) > 1e-12) {
        throw UnsupportedCrs.of(crsName, "a conformal conic with two parallels and a scale");
      }
      return new ProjectionSpec(Method.LAMBERT_CONFORMAL_2SP, lat0, lon0, lat1, lat2, 1, x0, y0);
    }
    double parallel = v.containsKey("lat1") ? lat1 : lat0;
    if (Math.abs(parallel - lat0) > 1e-12) {
      if (Math.abs(k - 1) > 1e-12) {
        throw UnsupportedCrs.of(
            crsName, "a conformal conic with an origin off its scaled parallel");
      }
      return new ProjectionSpec(
          Method.LAMBERT_CONFORMAL_2SP, lat0, lon0, parallel, parallel, 1, x0, y0);
    }
    return new ProjectionSpec(
        Method.LAMBERT_CONFORMAL_1SP, lat0, lon0, parallel, parallel, k, x0, y0);
  }

  private static Method methodNamed(String crsName, String method) {
    return switch (plain(method)) {
      case "transversemercator", "gausskruger" -> Method.TRANSVERSE_MERCATOR;
      case "stereographic",
          "polarstereographic",
          "polarstereographicvarianta",
          "polarstereographicvariantb",
          "stereographicnorthpole",
          "stereographicsouthpole" ->
          Method.STEREOGRAPHIC;
      case "obliquestereographic", "doublestereographic" -> Method.OBLIQUE_STEREOGRAPHIC;
      case "equirectangular",
          "equidistantcylindrical",
          "equidistantcylindricalspherical",
          "platecarree" ->
          Method.EQUIRECTANGULAR;
      case "mercator", "mercator1sp", "mercator2sp", "mercatorvarianta", "mercatorvariantb" ->
          Method.MERCATOR;
      case "mercatorauxiliarysphere", "popularvisualisationpseudomercator" ->
          Method.PSEUDO_MERCATOR;
      case "lambertconformalconic", "lambertconformalconic1sp", "lambertconicconformal1sp" ->
          Method.LAMBERT_CONFORMAL_1SP;
      case "lambertconformalconic2sp", "lambertconicconformal2sp" -> Method.LAMBERT_CONFORMAL_2SP;
      case "albers", "albersconicequalarea", "albersequalarea" -> Method.ALBERS;
      case "lambertazimuthalequalarea", "lambertazimuthalequalareaspherical" ->
          Method.LAMBERT_AZIMUTHAL;
      // PROJ writes its azimuthal equidistant projection under the second name in WKT 2.
      case "azimuthalequidistant", "modifiedazimuthalequidistant" -> Method.AZIMUTHAL_EQUIDISTANT;
      case "sinusoidal" -> Method.SINUSOIDAL;
      default -> throw UnsupportedCrs.of(crsName, "projection '" + method + "'");
    };
  }

  /**
   * True if the text that Scarpway writes keeps the method of the original, so that the original's
   * registry code still describes it correctly for every reader.
   */
  static boolean keepsItsForm(Method m, String method) {
    return plain(m.wktName()).equals(plain(method));
  }
}
