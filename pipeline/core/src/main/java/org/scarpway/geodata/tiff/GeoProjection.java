package org.scarpway.geodata.tiff;

import java.util.List;
import java.util.Locale;

/**
 * The projections that are supported in GeoTIFF keys (OGC 19-008r4): name in WKT 1 (OGC 01-009),
 * value of key 3075, and the key of each WKT parameter. A group of keys lists the preferred key and
 * the others that files use for the same quantity.
 */
enum GeoProjection {
  TRANSVERSE_MERCATOR("Transverse_Mercator", 1, Fixed.SCALED),
  LAMBERT_CONIC_2SP(
      "Lambert_Conformal_Conic_2SP",
      8,
      List.of(
          new Parameter("standard_parallel_1", List.of(3078), null),
          new Parameter("standard_parallel_2", List.of(3079), null),
          new Parameter("latitude_of_origin", List.of(3085, 3081, 3089), 0.0),
          new Parameter("central_meridian", List.of(3084, 3080, 3088), 0.0),
          new Parameter("false_easting", List.of(3086, 3082, 3090), 0.0),
          new Parameter("false_northing", List.of(3087, 3083, 3091), 0.0))),
  LAMBERT_CONIC_1SP("Lambert_Conformal_Conic_1SP", 9, Fixed.SCALED),
  MERCATOR_2SP(
      "Mercator_2SP",
      7,
      List.of(
          new Parameter("standard_parallel_1", List.of(3078), null),
          Fixed.LON,
          Fixed.EAST,
          Fixed.NORTH)),
  MERCATOR_1SP("Mercator_1SP", 7, List.of(Fixed.LON, Fixed.SCALE, Fixed.EAST, Fixed.NORTH)),
  LAMBERT_AZIMUTHAL("Lambert_Azimuthal_Equal_Area", 10, Fixed.CENTRED),
  ALBERS(
      "Albers_Conic_Equal_Area",
      11,
      List.of(
          new Parameter("standard_parallel_1", List.of(3078), null),
          new Parameter("standard_parallel_2", List.of(3079), null),
          new Parameter("latitude_of_center", List.of(3081, 3089, 3085), 0.0),
          new Parameter("longitude_of_center", List.of(3080, 3088, 3084), 0.0),
          Fixed.EAST,
          Fixed.NORTH)),
  AZIMUTHAL_EQUIDISTANT("Azimuthal_Equidistant", 12, Fixed.CENTRED),
  STEREOGRAPHIC(
      "Stereographic",
      14,
      List.of(
          new Parameter("latitude_of_origin", List.of(3089, 3081), 0.0),
          new Parameter("central_meridian", List.of(3088, 3080), 0.0),
          Fixed.SCALE,
          Fixed.EAST,
          Fixed.NORTH)),
  POLAR_STEREOGRAPHIC(
      "Polar_Stereographic",
      15,
      List.of(
          new Parameter("latitude_of_origin", List.of(3081, 3089), null),
          new Parameter("central_meridian", List.of(3095, 3080, 3088), 0.0),
          Fixed.SCALE,
          Fixed.EAST,
          Fixed.NORTH)),
  OBLIQUE_STEREOGRAPHIC("Oblique_Stereographic", 16, Fixed.SCALED),
  EQUIRECTANGULAR(
      "Equirectangular",
      17,
      List.of(
          new Parameter("standard_parallel_1", List.of(3078), 0.0),
          new Parameter("central_meridian", List.of(3088, 3080), 0.0),
          new Parameter("latitude_of_origin", List.of(3089, 3081), 0.0),
          Fixed.EAST,
          Fixed.NORTH)),
  ORTHOGRAPHIC(
      "Orthographic",
      21,
      List.of(
          new Parameter("latitude_of_origin", List.of(3089, 3081), 0.0),
          new Parameter("central_meridian", List.of(3088, 3080), 0.0),
          Fixed.EAST,
          Fixed.NORTH)),
  SINUSOIDAL(
      "Sinusoidal",
      24,
      List.of(
          new Parameter("longitude_of_center", List.of(3088, 3080), 0.0), Fixed.EAST, Fixed.NORTH));

  /**
   * One parameter.
   *
   * @param otherwise default value, or null if the parameter is required
   */
  record Parameter(String wktName, List<Integer> keys, Double otherwise) {}

  private static final class Fixed {
    static final Parameter LAT = new Parameter("latitude_of_origin", List.of(3081, 3089), 0.0);
    static final Parameter LON = new Parameter("central_meridian", List.of(3080, 3088), 0.0);
    static final Parameter SCALE = new Parameter("scale_factor", List.of(3092, 3093), 1.0);
    static final Parameter EAST = new Parameter("false_easting", List.of(3082, 3090), 0.0);
    static final Parameter NORTH = new Parameter("false_northing", List.of(3083, 3091), 0.0);
    static final List<Parameter> SCALED = List.of(LAT, LON, SCALE, EAST, NORTH);
    static final List<Parameter> CENTRED =
        List.of(
            new Parameter("latitude_of_center", List.of(3089, 3081), 0.0),
            new Parameter("longitude_of_center", List.of(3088, 3080), 0.0),
            EAST,
            NORTH);
  }

  final String wktName;
  final int code;

  @SuppressWarnings("ImmutableEnumChecker") // made by List.of
  final List<Parameter> parameters;

  GeoProjection(String wktName, int code, List<Parameter> parameters) {
    this.wktName = wktName;
    this.code = code;
    this.parameters = parameters;
  }

  /**
   * @throws IllegalArgumentException if it is not supported in GeoTIFF keys
   */
  static GeoProjection named(String wktName) {
    for (GeoProjection p : values()) {
      if (p.wktName.equalsIgnoreCase(wktName)) {
        return p;
      }
    }
    throw new IllegalArgumentException("projection " + wktName);
  }

  /**
   * @throws IllegalArgumentException if the code is that of no supported projection
   */
  static GeoProjection of(int code, boolean standardParallel) {
    for (GeoProjection p : values()) {
      boolean fits = p != MERCATOR_2SP || standardParallel;
      if (p.code == code && fits) {
        return p;
      }
    }
    throw new IllegalArgumentException("projection code " + code);
  }

  /** True if both are WKT names of the same parameter. */
  static boolean sameParameter(String a, String b) {
    return plain(a).equals(plain(b));
  }

  private static String plain(String name) {
    return switch (name.toLowerCase(Locale.ROOT)) {
      case "longitude_of_center", "longitude_of_origin" -> "central_meridian";
      case "latitude_of_center" -> "latitude_of_origin";
      default -> name.toLowerCase(Locale.ROOT);
    };
  }
}
