package org.scarpway.geodata.tiff;

import java.util.ArrayList;
import java.util.List;
import org.geotools.api.referencing.FactoryException;
import org.geotools.referencing.CRS;
import org.scarpway.geodata.crs.WktTree;

/**
 * Converts between WKT 1 and GeoTIFF keys. A CRS named by an EPSG code is looked up in the coverage
 * library's copy of the EPSG register; all others are encoded parameter by parameter.
 */
public final class GeoKeyCrs {
  private static final int GEOGRAPHIC = 2048;
  private static final int GEOGRAPHIC_TEXT = 2049;
  private static final int DATUM = 2050;
  private static final int ANGLE_UNIT = 2054;
  private static final int ELLIPSOID = 2056;
  private static final int SEMI_MAJOR = 2057;
  private static final int SEMI_MINOR = 2058;
  private static final int INVERSE_FLATTENING = 2059;
  private static final int MERIDIAN_LON = 2061;
  private static final int PROJECTED = 3072;
  private static final int PROJECTION = 3074;
  private static final int METHOD = 3075;
  private static final int LENGTH_UNIT = 3076;
  private static final int LENGTH_UNIT_M = 3077;
  private static final int DEGREE = 9102;
  private static final double DEGREE_RAD = 0.0174532925199433;

  private GeoKeyCrs() {}

  /**
   * WKT 1 of the horizontal CRS; empty if the keys name none.
   *
   * @throws IllegalArgumentException if they name one that is not fully supported
   */
  public static String wkt(GeoKeys k) {
    int model = k.code(GeoKeys.MODEL, 0);
    if (model == 0 || model == GeoKeys.USER) {
      String claim = claim(k);
      if (!claim.isEmpty()) {
        throw new IllegalArgumentException(claim + " without a kind of model");
      }
      return "";
    }
    if (model == 2) {
      return geographic(k).toString();
    }
    if (model != 1) {
      throw new IllegalArgumentException("model type " + model);
    }
    int code = k.code(PROJECTED, GeoKeys.USER);
    return (code != GeoKeys.USER && code != 0 ? registered(k, code) : projected(k)).toString();
  }

  /**
   * Description of the CRS that the keys claim, for messages; empty if they claim none. Keys that
   * claim a CRS which no register contains must not be treated as keys without a CRS.
   */
  public static String claim(GeoKeys k) {
    for (int key : new int[] {PROJECTED, GEOGRAPHIC}) {
      int code = k.code(key, 0);
      if (code != 0 && code != GeoKeys.USER) {
        return "EPSG:" + code;
      }
    }
    return switch (k.code(GeoKeys.MODEL, 0)) {
      case 0, GeoKeys.USER -> "";
      case 1 -> "a projected system that is not spelled out";
      case 2 -> "a longitude-latitude system that is not spelled out";
      default -> "model type " + k.code(GeoKeys.MODEL, 0);
    };
  }

  private static WktTree registered(GeoKeys k, int code) {
    WktTree crs = epsg(code);
    double unitM = crs.require("UNIT").number(1);
    if (k.has(LENGTH_UNIT) && Math.abs(unitM(k) / unitM - 1) > 1e-9) {
      throw new IllegalArgumentException("EPSG:" + code + " in another unit than its own");
    }
    return crs;
  }

  private static WktTree projected(GeoKeys k) {
    expandUtm(k);
    boolean parallel = k.number(List.of(3078)) != null;
    GeoProjection p = GeoProjection.of(k.code(METHOD, 0), parallel);
    List<Object> parts = new ArrayList<>();
    String name = k.text(3073).isEmpty() ? k.text(1026) : k.text(3073);
    parts.add(name.isEmpty() ? "unnamed" : name);
    parts.add(geographic(k));
    parts.add(WktTree.of("PROJECTION", p.wktName));
    for (GeoProjection.Parameter parameter : p.parameters) {
      Double v = k.number(parameter.keys());
      if (v == null && parameter.otherwise() == null) {
        throw new IllegalArgumentException(p.wktName + " without " + parameter.wktName());
      }
      parts.add(
          WktTree.of("PARAMETER", parameter.wktName(), v == null ? parameter.otherwise() : v));
    }
    double unitM = unitM(k);
    parts.add(WktTree.of("UNIT", unitM == 1 ? "metre" : "unit of " + unitM + " m", unitM));
    return WktTree.of("PROJCS", parts.toArray());
  }

  /** Expands a UTM zone given by its EPSG projection code: 160zz north, 161zz south. */
  private static void expandUtm(GeoKeys k) {
    int code = k.code(PROJECTION, GeoKeys.USER);
    int zone = code % 100;
    if (k.has(METHOD) || code / 200 != 80 || zone < 1 || zone > 60) {
      return;
    }
    k.put(METHOD, GeoProjection.TRANSVERSE_MERCATOR.code);
    k.put(3080, 6.0 * zone - 183);
    k.put(3081, 0.0);
    k.put(3082, 500_000.0);
    k.put(3083, code / 100 == 161 ? 10_000_000.0 : 0.0);
    k.put(3092, 0.9996);
  }

  private static double unitM(GeoKeys k) {
    int code = k.code(LENGTH_UNIT, 9001);
    Double user = k.number(List.of(LENGTH_UNIT_M));
    return switch (code) {
      case 9001 -> 1;
      case 9002 -> 0.3048;
      case 9003 -> 12.0 / 39.37;
      case GeoKeys.USER -> {
        if (user == null || !(user > 0)) {
          throw new IllegalArgumentException("length unit without its size");
        }
        yield user;
      }
      default -> throw new IllegalArgumentException("length unit " + code);
    };
  }

  private static WktTree geographic(GeoKeys k) {
    int angle = k.code(ANGLE_UNIT, DEGREE);
    if (angle != DEGREE) {
      throw new IllegalArgumentException("angle unit " + angle);
    }
    int code = k.code(GEOGRAPHIC, GeoKeys.USER);
    int datum = k.code(DATUM, GeoKeys.USER);
    if (code != GeoKeys.USER && code != 0) {
      return epsg(code);
    }
    if (datum > 6000 && datum < 7000) {
      // In EPSG the code of a geographic CRS is that of its datum less 2000.
      return epsg(datum - 2000);
    }
    Double a = k.number(List.of(SEMI_MAJOR));
    Double b = k.number(List.of(SEMI_MINOR));
    Double inverse = k.number(List.of(INVERSE_FLATTENING));
    if (a == null || (b == null && inverse == null)) {
      throw new IllegalArgumentException("ellipsoid " + k.code(ELLIPSOID, 0) + " without its axes");
    }
    if (inverse == null) {
      inverse = a.equals(b) ? 0 : a / (a - b);
    }
    String names = k.text(GEOGRAPHIC_TEXT);
    Double meridian = k.number(List.of(MERIDIAN_LON));
    return WktTree.of(
        "GEOGCS",
        named(names, "GCS Name"),
        WktTree.of(
            "DATUM",
            named(names, "Datum"),
            WktTree.of("SPHEROID", named(names, "Ellipsoid"), a, inverse)),
        WktTree.of("PRIMEM", named(names, "Primem"), meridian == null ? 0.0 : meridian),
        WktTree.of("UNIT", "degree", DEGREE_RAD));
  }

  /**
   * Extracts one name from "GCS Name = ...|Datum = ...|", the form in which several names share one
   * key.
   */
  private static String named(String all, String what) {
    for (String part : all.split("\\|")) {
      if (part.startsWith(what + " = ")) {
        return part.substring(what.length() + 3).strip();
      }
    }
    return what.equals("GCS Name") && !all.isEmpty() && !all.contains(" = ") ? all : "unknown";
  }

  public static WktTree epsg(int code) {
    try {
      WktTree tree = WktTree.parse(CRS.decode("EPSG:" + code, true).toWKT()).without("AXIS");
      return tree.keyword().equals("COMPD_CS") ? tree.children().get(0) : tree;
    } catch (FactoryException e) {
      throw new IllegalArgumentException("EPSG:" + code + " is not known", e);
    } catch (UnsupportedOperationException e) {
      throw new IllegalArgumentException("EPSG:" + code + " has no WKT 1 form", e);
    }
  }

  /**
   * Encodes a CRS as keys, parameter by parameter.
   *
   * @throws IllegalArgumentException if they would not be read back as the same system
   */
  public static GeoKeys keys(String wkt) {
    GeoKeys k = new GeoKeys();
    k.put(GeoKeys.RASTER, 1);
    if (wkt.isEmpty()) {
      return k;
    }
    WktTree crs = WktTree.parse(wkt);
    if (!crs.keyword().equals("PROJCS")) {
      throw new IllegalArgumentException(crs.keyword() + " where a projected system is needed");
    }
    if (crs.first("EXTENSION") != null) {
      throw new IllegalArgumentException("a projection that WKT 1 has no name for");
    }
    WktTree geographic = crs.require("GEOGCS");
    WktTree datum = geographic.require("DATUM");
    WktTree spheroid = datum.require("SPHEROID");
    double a = spheroid.number(1);
    double inverse = spheroid.number(2);
    WktTree meridian = geographic.first("PRIMEM");
    if (Math.abs(geographic.require("UNIT").number(1) - DEGREE_RAD) > 1e-12) {
      throw new IllegalArgumentException("angles in another unit than degrees");
    }
    if (crs.require("UNIT").number(1) != 1) {
      throw new IllegalArgumentException("lengths in another unit than metres");
    }
    k.put(GeoKeys.MODEL, 1);
    k.put(1026, crs.text(0));
    k.put(GEOGRAPHIC, GeoKeys.USER);
    k.put(
        GEOGRAPHIC_TEXT,
        "GCS Name = "
            + geographic.text(0)
            + "|Datum = "
            + datum.text(0)
            + "|Ellipsoid = "
            + spheroid.text(0)
            + "|Primem = "
            + (meridian == null ? "" : meridian.text(0))
            + "|");
    k.put(DATUM, GeoKeys.USER);
    k.put(ANGLE_UNIT, DEGREE);
    k.put(ELLIPSOID, GeoKeys.USER);
    k.put(SEMI_MAJOR, a);
    if (inverse == 0) {
      k.put(SEMI_MINOR, a);
    } else {
      k.put(INVERSE_FLATTENING, inverse);
    }
    k.put(MERIDIAN_LON, meridian == null ? 0 : meridian.number(1));
    k.put(PROJECTED, GeoKeys.USER);
    k.put(PROJECTION, GeoKeys.USER);
    k.put(LENGTH_UNIT, 9001);
    project(k, crs);
    requireSame(crs, WktTree.parse(wkt(k)));
    return k;
  }

  private static void project(GeoKeys k, WktTree crs) {
    GeoProjection p = GeoProjection.named(crs.require("PROJECTION").text(0));
    k.put(METHOD, p.code);
    for (GeoProjection.Parameter parameter : p.parameters) {
      Double v = parameter(crs, parameter.wktName());
      if (v == null && parameter.otherwise() == null) {
        throw new IllegalArgumentException(p.wktName + " without " + parameter.wktName());
      }
      k.put(parameter.keys().get(0), (double) (v == null ? parameter.otherwise() : v));
    }
    for (WktTree given : crs.children()) {
      if (given.keyword().equals("PARAMETER")
          && given.number(1) != 0
          && p.parameters.stream()
              .noneMatch(x -> GeoProjection.sameParameter(x.wktName(), given.text(0)))) {
        throw new IllegalArgumentException(p.wktName + " with " + given.text(0));
      }
    }
    double lat = p == GeoProjection.POLAR_STEREOGRAPHIC ? k.number(List.of(3081)) : 90;
    if (Math.abs(lat) != 90 && k.number(List.of(3092)) != 1) {
      // The keys cannot state to which of the two the latitude belongs.
      throw new IllegalArgumentException(
          "polar stereographic with a standard parallel and a scale factor");
    }
  }

  private static Double parameter(WktTree crs, String name) {
    for (WktTree p : crs.children()) {
      if (p.keyword().equals("PARAMETER") && GeoProjection.sameParameter(p.text(0), name)) {
        return p.number(1);
      }
    }
    return null;
  }

  /** Throws unless semi-axes, meridian, projection and every parameter read back unchanged. */
  private static void requireSame(WktTree wanted, WktTree got) {
    WktTree a = wanted.require("GEOGCS").require("DATUM").require("SPHEROID");
    WktTree b = got.require("GEOGCS").require("DATUM").require("SPHEROID");
    boolean same =
        a.number(1) == b.number(1)
            && a.number(2) == b.number(2)
            && wanted
                .require("PROJECTION")
                .text(0)
                .equalsIgnoreCase(got.require("PROJECTION").text(0));
    for (WktTree p : wanted.children()) {
      if (p.keyword().equals("PARAMETER")) {
        Double back = parameter(got, p.text(0));
        same &= back == null ? p.number(1) == 0 : back == p.number(1);
      }
    }
    if (!same) {
      throw new IllegalArgumentException("it is read back as " + got);
    }
  }
}
