package org.scarpway.geodata.crs;

import java.math.BigDecimal;
import org.scarpway.geodata.projection.Ellipsoid;
import org.scarpway.geodata.projection.Method;
import org.scarpway.geodata.projection.ProjectionSpec;

/** Writes a coordinate reference system as OGC WKT 1 (OGC 01-009) and as a PROJ string. */
public final class CrsWriter {
  private CrsWriter() {}

  /** OGC WKT 1 without axes, in a form that GDAL and GeoTools interpret alike; empty if local. */
  public static String wkt(MapCrs crs) {
    if (crs.isLocal()) {
      return "";
    }
    GeographicPart g = crs.geographicPart();
    ProjectionSpec s = crs.spec();
    if (s == null) {
      return geographic(g, crs.authority());
    }
    StringBuilder w = new StringBuilder("PROJCS[").append(quote(crs.name())).append(',');
    w.append(geographic(g, g.authority()));
    w.append(",PROJECTION[\"").append(s.method().wktName()).append("\"]");
    switch (s.method()) {
      case STEREOGRAPHIC, OBLIQUE_STEREOGRAPHIC, TRANSVERSE_MERCATOR, LAMBERT_CONFORMAL_1SP -> {
        parameter(w, "latitude_of_origin", s.lat0Deg());
        parameter(w, "central_meridian", s.lon0Deg());
        parameter(w, "scale_factor", s.scale());
      }
      case EQUIRECTANGULAR -> {
        parameter(w, "standard_parallel_1", s.lat1Deg());
        if (s.lat0Deg() != 0) {
          parameter(w, "latitude_of_origin", s.lat0Deg());
        }
        parameter(w, "central_meridian", s.lon0Deg());
      }
      case MERCATOR, PSEUDO_MERCATOR -> {
        parameter(w, "central_meridian", s.lon0Deg());
        parameter(w, "scale_factor", s.scale());
      }
      case LAMBERT_CONFORMAL_2SP -> {
        parameter(w, "standard_parallel_1", s.lat1Deg());
        parameter(w, "standard_parallel_2", s.lat2Deg());
        parameter(w, "latitude_of_origin", s.lat0Deg());
        parameter(w, "central_meridian", s.lon0Deg());
      }
      case ALBERS -> {
        parameter(w, "standard_parallel_1", s.lat1Deg());
        parameter(w, "standard_parallel_2", s.lat2Deg());
        parameter(w, "latitude_of_center", s.lat0Deg());
        parameter(w, "longitude_of_center", s.lon0Deg());
      }
      case LAMBERT_AZIMUTHAL, AZIMUTHAL_EQUIDISTANT -> {
        parameter(w, "latitude_of_center", s.lat0Deg());
        parameter(w, "longitude_of_center", s.lon0Deg());
      }
      case SINUSOIDAL -> parameter(w, "longitude_of_center", s.lon0Deg());
    }
    double unit = crs.metresPerUnit();
    parameter(w, "false_easting", s.falseEastM() / unit);
    parameter(w, "false_northing", s.falseNorthM() / unit);
    w.append(",UNIT[").append(unit == 1 ? "\"metre\"" : "\"unit\"").append(',');
    w.append(number(unit)).append(']');
    if (s.method() == Method.PSEUDO_MERCATOR) {
      w.append(",EXTENSION[\"PROJ4\",").append(quote(projString(crs))).append(']');
    }
    return w.append(authority(crs.authority())).append(']').toString();
  }

  private static String geographic(GeographicPart g, String authority) {
    Ellipsoid e = g.body();
    return "GEOGCS["
        + quote(g.name())
        + ",DATUM["
        + quote(g.datum())
        + ",SPHEROID["
        + quote(g.spheroid())
        + ','
        + number(e.semiMajorM())
        + ','
        + number(e.inverseFlattening())
        + "]],PRIMEM["
        + quote(g.meridian())
        + ','
        + number(g.meridianDeg())
        + "],UNIT["
        + (g.degreesPerUnit() == 1 ? "\"degree\"" : "\"angle\"")
        + ','
        + number(g.degreesPerUnit() == 1 ? 0.0174532925199433 : Math.toRadians(g.degreesPerUnit()))
        + ']'
        + authority(authority)
        + ']';
  }

  /** The CRS as a PROJ string, for display; empty if local. */
  public static String projString(MapCrs crs) {
    if (crs.isLocal()) {
      return "";
    }
    GeographicPart g = crs.geographicPart();
    ProjectionSpec s = crs.spec();
    StringBuilder p = new StringBuilder("+proj=").append(s == null ? "longlat" : projName(s));
    if (s != null) {
      switch (s.method()) {
        case STEREOGRAPHIC, OBLIQUE_STEREOGRAPHIC, TRANSVERSE_MERCATOR, LAMBERT_CONFORMAL_1SP -> {
          term(p, "lat_0", s.lat0Deg());
          if (s.method() == Method.LAMBERT_CONFORMAL_1SP) {
            term(p, "lat_1", s.lat1Deg());
          }
          term(p, "lon_0", s.lon0Deg());
          term(p, "k_0", s.scale());
        }
        case EQUIRECTANGULAR -> {
          term(p, "lat_ts", s.lat1Deg());
          term(p, "lat_0", s.lat0Deg());
          term(p, "lon_0", s.lon0Deg());
        }
        case MERCATOR, PSEUDO_MERCATOR -> {
          term(p, "lon_0", s.lon0Deg());
          term(p, "k_0", s.scale());
        }
        case LAMBERT_CONFORMAL_2SP, ALBERS -> {
          term(p, "lat_0", s.lat0Deg());
          term(p, "lon_0", s.lon0Deg());
          term(p, "lat_1", s.lat1Deg());
          term(p, "lat_2", s.lat2Deg());
        }
        case LAMBERT_AZIMUTHAL, AZIMUTHAL_EQUIDISTANT -> {
          term(p, "lat_0", s.lat0Deg());
          term(p, "lon_0", s.lon0Deg());
        }
        case SINUSOIDAL -> term(p, "lon_0", s.lon0Deg());
      }
      term(p, "x_0", s.falseEastM());
      term(p, "y_0", s.falseNorthM());
    }
    term(p, "a", g.body().semiMajorM());
    boolean pseudo = s != null && s.method() == Method.PSEUDO_MERCATOR;
    term(p, "b", pseudo ? g.body().semiMajorM() : g.body().semiMinorM());
    if (g.meridianDeg() != 0) {
      term(p, "pm", g.meridianDeg());
    }
    if (s != null) {
      p.append(crs.metresPerUnit() == 1 ? " +units=m" : " +to_meter=");
      p.append(crs.metresPerUnit() == 1 ? "" : number(crs.metresPerUnit()));
    }
    return p.append(pseudo ? " +nadgrids=@null" : "").append(" +no_defs").toString();
  }

  private static String projName(ProjectionSpec s) {
    return s.method().projName();
  }

  private static void term(StringBuilder p, String key, double value) {
    p.append(" +").append(key).append('=').append(number(value));
  }

  private static void parameter(StringBuilder w, String name, double value) {
    w.append(",PARAMETER[\"").append(name).append("\",").append(number(value)).append(']');
  }

  /** "EPSG:32633" as an AUTHORITY node. */
  private static String authority(String code) {
    int colon = code.indexOf(':');
    return colon < 0
        ? ""
        : ",AUTHORITY["
            + quote(code.substring(0, colon))
            + ','
            + quote(code.substring(colon + 1))
            + ']';
  }

  private static String quote(String s) {
    return '"' + s.replace("\"", "\"\"") + '"';
  }

  /** The shortest decimal text that parses to the same double, without an exponent. */
  private static String number(double v) {
    double clean = v == 0 ? 0 : v;
    return new BigDecimal(Double.toString(clean)).stripTrailingZeros().toPlainString();
  }
}
