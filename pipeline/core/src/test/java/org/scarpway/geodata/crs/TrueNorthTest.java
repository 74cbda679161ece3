package org.scarpway.geodata.crs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.gdal.osr.CoordinateTransformation;
import org.gdal.osr.SpatialReference;
import org.gdal.osr.osrConstants;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.scarpway.geodata.crs.MapCrsAgainstOthersTest.Case;

/** The direction of true north on maps against PROJ, and against closed forms near poles. */
class TrueNorthTest {
  private static double apartDeg(double a, double b) {
    return Math.abs(Math.IEEEremainder(a - b, 360));
  }

  private static MapCrs map(String proj) {
    return CrsText.read(
        MapCrsAgainstOthersTest.wkt(MapCrsAgainstOthersTest.fromProj(proj), "WKT1_GDAL"));
  }

  /**
   * Meridian convergence of PROJ 9.1.1 (pyproj 3, Proj.get_factors), which counts the other way.
   */
  @Test
  void convergenceIsThatOfProj() {
    String south = "+proj=stere +lat_0=-90 +lon_0=0 +R=1737400";
    Object[][] published = {
      {"+proj=utm +zone=33 +ellps=WGS84", 11.9, 78.2, -3.034612772336488},
      {south, 37.6, -86.1, -37.6},
      {south, -170.0, -89.99, 170.0},
      {"+proj=stere +lat_0=90 +lon_0=30 +R=1737400", 37.6, 86.1, 7.6},
      {"+proj=tmerc +lat_0=45.2 +lon_0=7.3 +ellps=WGS84", 7.8, 45.6, 0.35724082313853145},
      {
        "+proj=aea +lat_1=29.5 +lat_2=45.5 +lat_0=23 +lon_0=-96 +ellps=GRS80",
        -120.0,
        47.0,
        -14.46966645771764
      },
      {"+proj=laea +lat_0=52 +lon_0=10 +ellps=GRS80", 0.0, 60.0, -8.516792387409884}
    };
    for (Object[] p : published) {
      MapCrs map = map((String) p[0]);
      double[] at = map.fromLonLat((double) p[1], (double) p[2]);
      double got = TrueNorth.azimuthDeg(map, at[0], at[1]);
      assertEquals(0, apartDeg(-(double) p[3], got), 1e-6, p[0] + " gives " + got);
    }
  }

  static List<Case> maps() {
    return MapCrsAgainstOthersTest.cases().filter(c -> !c.proj().contains("longlat")).toList();
  }

  /** A short way along the meridian, placed on the map by PROJ alone. */
  @ParameterizedTest
  @MethodSource("maps")
  void northIsWhereProjPutsTheMeridian(Case c) {
    MapCrs ours = map(c.proj());
    SpatialReference theirs = MapCrsAgainstOthersTest.fromProj(c.proj());
    SpatialReference ground = theirs.CloneGeogCS();
    ground.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    CoordinateTransformation t =
        CoordinateTransformation.CreateCoordinateTransformation(ground, theirs);
    Random random = new Random(11);
    for (int n = 0; n < 60; n++) {
      double lon = c.west() + (c.east() - c.west()) * random.nextDouble();
      double lat = c.south() + (c.north() - c.south()) * random.nextDouble();
      double step = Math.min(2e-3, (90 - Math.abs(lat)) / 20);
      double[] at = t.TransformPoint(lon, lat);
      double[] to = t.TransformPoint(lon, lat + step);
      double[] from = t.TransformPoint(lon, lat - step);
      double want = Math.toDegrees(Math.atan2(to[0] - from[0], to[1] - from[1]));
      double got = TrueNorth.azimuthDeg(ours, at[0], at[1]);
      assertTrue(
          apartDeg(want, got) < 1e-4, c + " at " + lon + ", " + lat + ": " + want + ", got " + got);
    }
  }

  /** On polar stereographic maps meridians are straight lines through the pole (Snyder 1987). */
  @Test
  void nextToPolesNorthIsAlongTheRay() {
    Random random = new Random(12);
    for (boolean south : new boolean[] {true, false}) {
      MapCrs map = map("+proj=stere +lat_0=" + (south ? -90 : 90) + " +lon_0=20 +R=1737400");
      for (int n = 0; n < 500; n++) {
        double turn = 2 * Math.PI * random.nextDouble();
        double radiusM = Math.pow(10, -1 + 6 * random.nextDouble());
        double x = radiusM * Math.sin(turn);
        double y = radiusM * Math.cos(turn);
        // Away from the south pole, towards the north pole.
        double want = Math.toDegrees(turn) + (south ? 0 : 180);
        double got = TrueNorth.azimuthDeg(map, x, y);
        assertTrue(apartDeg(want, got) < 1e-6, radiusM + " m, " + want + " got " + got);
      }
      assertTrue(Double.isNaN(TrueNorth.azimuthDeg(map, 0, 0)), "no north at a pole");
    }
  }

  /** Longitudes jump from 180 to -180; directions do not. */
  @Test
  void theDateLineIsNoSeam() {
    MapCrs map = map("+proj=tmerc +lat_0=0 +lon_0=179 +ellps=WGS84");
    double[] at = map.fromLonLat(180, 60);
    // Snyder 1987: tan of the convergence is tan of the longitude off the meridian by sin of the
    // latitude on the sphere; the ellipsoid adds less than 1e-3 degrees here.
    double want = -Math.toDegrees(Math.atan(Math.tan(Math.toRadians(1)) * Math.sin(Math.PI / 3)));
    assertEquals(want, TrueNorth.azimuthDeg(map, at[0], at[1]), 1e-3);
    double before = TrueNorth.azimuthDeg(map, at[0] - 1, at[1]);
    double after = TrueNorth.azimuthDeg(map, at[0] + 1, at[1]);
    assertEquals(before, after, 1e-4);
  }

  @Test
  void aPlaneWithoutBodyTellsNone() {
    assertTrue(Double.isNaN(TrueNorth.azimuthDeg(CrsText.read(""), 5, 5)));
    assertTrue(Double.isNaN(TrueNorth.azimuthDeg(LonLat.NONE, 5, 5)));
  }
}
