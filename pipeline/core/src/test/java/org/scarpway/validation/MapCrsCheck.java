package org.scarpway.validation;

import static org.scarpway.validation.Validation.near;

import org.junit.jupiter.api.Test;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.projection.Ellipsoid;
import org.scarpway.geodata.projection.ProjectionSpec;
import org.scarpway.grid.Body;

/**
 * Map coordinates on the Moon and Mars against published figures. Unit: m and degrees. Sources: IAU
 * codes as PROJ 9.1.1 lists them (Archinal et al. 2018, Celest. Mech. Dyn. Astr. 130:22); Snyder
 * 1987, USGS Prof. Paper 1395. Tolerances: half of the last digit that the source gives.
 */
class MapCrsCheck {
  private static final String IAU = "PROJ 9.1.1 IAU_2015 registry; Archinal et al. 2018";
  private static final String SNYDER = "Snyder 1987, USGS Prof. Paper 1395, ch. 21";
  private static final MapCrs SOUTH = polar("Moon", 1_737_400, 0, -90);
  private static final MapCrs NORTH = polar("Moon", 1_737_400, 0, 90);
  private static final MapCrs MARS_SOUTH = polar("Mars", 3_396_190, 0, -90);

  private static MapCrs polar(String body, double a, double inverseFlattening, double lat) {
    return CrsText.read(
        "PROJCS[\"p\",GEOGCS[\"g\",DATUM[\"d\",SPHEROID[\""
            + body
            + "\","
            + a
            + ","
            + inverseFlattening
            + "]],PRIMEM[\"Reference Meridian\",0],UNIT[\"degree\",0.0174532925199433]],"
            + "PROJECTION[\"Polar_Stereographic\"],PARAMETER[\"latitude_of_origin\","
            + lat
            + "],PARAMETER[\"central_meridian\",0],PARAMETER[\"scale_factor\",1],"
            + "PARAMETER[\"false_easting\",0],PARAMETER[\"false_northing\",0],UNIT[\"metre\",1],"
            + "AXIS[\"Easting\",EAST],AXIS[\"Northing\",NORTH]]");
  }

  private static void point(
      String id, String what, MapCrs crs, double lat, double lon, double x, double y) {
    double[] got = crs.fromLonLat(lon, lat);
    near("8-" + id + "-x", what + ", x (m)", IAU, "R", x, got[0], 5e-5);
    near("8-" + id + "-y", what + ", y (m)", IAU, "R", y, got[1], 5e-5);
    double[] back = crs.toLonLat(x, y);
    near("8-" + id + "-lon", what + ", longitude back (deg)", IAU, "R", lon, back[0], 5e-9);
    near("8-" + id + "-lat", what + ", latitude back (deg)", IAU, "R", lat, back[1], 5e-9);
  }

  @Test
  void polarPoints() {
    point("30135-a", "30135 at lat -85, lon 45", SOUTH, -85, 45, 107277.3225, 107277.3225);
    point("30135-b", "30135 at lat -80, lon 30", SOUTH, -80, 30, 152002.8040, 263276.5794);
    point("30130-a", "30130 at lat 85, lon 90", NORTH, 85, 90, 151713.0444, 0);
    point("49935-a", "49935 at lat -80, lon 30", MARS_SOUTH, -80, 30, 297128.1242, 514641.0074);
    point("30135-axis", "30135 at lat -85, lon 0", SOUTH, -85, 0, 0, 151713.0444);
  }

  /** Longitude comes first here whatever order a registry lists: the other order lands far away. */
  @Test
  void axisOrderTrap() {
    double[] swapped = SOUTH.fromLonLat(-85, 0);
    near("8-axis-trap-x", "lat and lon swapped, x (m)", IAU, "R", -3461577.34, swapped[0], 5e-3);
    near("8-axis-trap-y", "lat and lon swapped, y (m)", IAU, "R", 302848.77, swapped[1], 5e-3);
  }

  @Test
  void polarScale() {
    double[][] table = {
      {89, 1.00007616}, {85, 1.00190628}, {80, 1.00765427}, {75, 1.01733238}, {70, 1.03109120}
    };
    for (double[] row : table) {
      double lat = row[0];
      double step = 1e-4;
      double rho1 = NORTH.fromLonLat(90, lat - step)[0];
      double rho2 = NORTH.fromLonLat(90, lat + step)[0];
      double k = (rho1 - rho2) / (2 * step * NORTH.metresPerDegreeNorth(lat));
      near("8-stere-k-" + (int) lat, "scale k at lat " + lat, SNYDER, "C", row[1], k, 1e-8);
    }
    double arc = 5 * NORTH.metresPerDegreeNorth(87);
    near("8-arc-85", "arc from the pole to lat 85 (m)", SNYDER, "C", 151616.7521, arc, 5e-5);
  }

  @Test
  void metresPerDegree() {
    MapCrs moon = MapCrs.lonLat(Body.MOON);
    MapCrs mars = MapCrs.lonLat(Body.MARS);
    near(
        "8-deg-moon",
        "m per degree, Moon",
        IAU,
        "C",
        30323.3504,
        moon.metresPerDegreeEast(0),
        5e-5);
    near(
        "8-deg-mars",
        "m per degree of longitude, Mars",
        IAU,
        "C",
        59274.6975,
        mars.metresPerDegreeEast(0),
        5e-5);
  }

  @Test
  void latitudesOfMars() {
    MapCrs ocentric =
        CrsText.read(
            "GEOGCS[\"Mars (2015) / Ocentric\",DATUM[\"Mars (2015)\",SPHEROID[\"Mars (2015)\","
                + "3396190,169.894447223612]],PRIMEM[\"Reference Meridian\",0],"
                + "UNIT[\"degree\",0.0174532925199433],AXIS[\"Planetocentric latitude\",NORTH],"
                + "AXIS[\"Planetocentric longitude\",EAST]]");
    double[][] table = {{45, 44.661768}, {30, 29.707944}, {60, 59.706215}, {80, 79.883671}};
    for (double[] row : table) {
      double got = ocentric.fromLonLat(10, row[0])[1];
      String what = "planetocentric latitude of planetographic " + (int) row[0] + " (deg)";
      near("8-ocentric-" + (int) row[0], what, IAU, "C", row[1], got, 5e-7);
      near(
          "8-ographic-" + (int) row[0],
          "planetographic latitude back of " + (int) row[0] + " (deg)",
          IAU,
          "C",
          row[0],
          ocentric.toLonLat(10, row[1])[1],
          6e-7);
    }
    near("8-mars-b", "Mars semi-minor axis (m)", IAU, "C", 3376200, ocentric.semiMinorM(), 1e-3);
  }

  /** Snyder's numerical examples of the ellipsoid (Clarke 1866, International), pp. 269 to 342. */
  @Test
  void snydersExamples() {
    Ellipsoid clarke = Ellipsoid.ofInverseFlattening(6_378_206.4, 294.978698213898);
    Ellipsoid international = Ellipsoid.of(6_378_388, 6_356_911.946127946);
    double[] out = new double[2];
    ProjectionSpec ups = ProjectionSpec.polarTrueAt(international, -71, -100, 0, 0);
    ups.on(international).toPlane(Math.toRadians(150 + 100), Math.toRadians(-75), out);
    String book = "Snyder 1987, USGS Prof. Paper 1395, numerical examples (from memory)";
    near(
        "8-snyder-polar-x",
        "polar stereographic example, x (m)",
        book,
        "M",
        -1540033.6,
        out[0],
        0.06);
    near(
        "8-snyder-polar-y",
        "polar stereographic example, y (m)",
        book,
        "M",
        -560526.4,
        out[1],
        0.06);
    ProjectionSpec tm =
        new ProjectionSpec(
            org.scarpway.geodata.projection.Method.TRANSVERSE_MERCATOR, 0, -75, 0, 0, 0.9996, 0, 0);
    tm.on(clarke).toPlane(Math.toRadians(1.5), Math.toRadians(40.5), out);
    near("8-snyder-tm-x", "transverse Mercator example, x (m)", book, "M", 127106.5, out[0], 0.06);
    near("8-snyder-tm-y", "transverse Mercator example, y (m)", book, "M", 4484124.4, out[1], 0.06);
  }

  /** Length and azimuth of geodesics as the azimuthal equidistant map draws them. */
  @Test
  void geodesics() {
    Ellipsoid earth = Ellipsoid.ofInverseFlattening(6_378_137, 298.257223563);
    Ellipsoid moon = Ellipsoid.of(1_737_400, 1_737_400);
    Ellipsoid mars = Ellipsoid.ofInverseFlattening(3_396_190, 169.894447223612);
    String find = "GeographicLib 2.1.2, example of its documentation";
    String wgs = "GeographicLib 2.1.2; Karney 2013, J. Geod. 87:43-55";
    double azimuth =
        geodesic("P21-a", earth, find, "V", 40.6, -73.8, 51.6, -0.5, 5551759.400319, 5e-7);
    near("7-P21-a-azimuth", "its azimuth (deg)", find, "V", 51.198882846, azimuth, 5e-10);
    geodesic("P21-b", earth, wgs, "R", 0, 0, 0.5, 179.5, 19936288.578965, 5e-7);
    geodesic("P21-c", earth, wgs, "R", 0, 0, 0.5, 179.7, 19944127.420750, 5e-7);
    geodesic("P22-a", moon, wgs, "R", 0, 0, 0, 90, 2729101.538, 5e-4);
    geodesic("P22-b", moon, wgs, "R", -89, 0, -89, 90, 42882.6048, 5e-5);
    geodesic("P22-c", moon, wgs, "R", -85, 0, -85, 90, 214282.2115, 5e-5);
    geodesic("P23", mars, wgs, "R", 20, 30, 25, 40, 621485.3940, 5e-5);
  }

  /** Checks the length and returns the azimuth (deg). */
  private static double geodesic(
      String id,
      Ellipsoid body,
      String source,
      String flag,
      double lat1,
      double lon1,
      double lat2,
      double lon2,
      double lengthM,
      double toleranceM) {
    ProjectionSpec map =
        ProjectionSpec.about(
            org.scarpway.geodata.projection.Method.AZIMUTHAL_EQUIDISTANT, lon1, lat1);
    double[] out = new double[2];
    map.on(body).toPlane(Math.toRadians(lon2 - lon1), Math.toRadians(lat2), out);
    String what =
        "geodesic of " + lat1 + " " + lon1 + " to " + lat2 + " " + lon2 + " (lat lon deg), m";
    near("7-" + id + "-m", what, source, flag, lengthM, Math.hypot(out[0], out[1]), toleranceM);
    return Math.toDegrees(Math.atan2(out[0], out[1]));
  }
}
