package org.scarpway.geodata.crs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Vector;
import java.util.stream.Stream;
import org.gdal.osr.CoordinateTransformation;
import org.gdal.osr.SpatialReference;
import org.gdal.osr.osrConstants;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.api.referencing.operation.MathTransform;
import org.geotools.geometry.GeneralPosition;
import org.geotools.referencing.CRS;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.scarpway.grid.Body;
import org.scarpway.validation.Validation;

/**
 * Map coordinates compared with PROJ (through GDAL), point by point, over every projection, on
 * spheres and ellipsoids; and the text that Scarpway writes read by GDAL and by GeoTools.
 */
class MapCrsAgainstOthersTest {
  private static final String MOON = " +R=1737400";
  private static final String MARS = " +a=3396190 +b=3376200";
  private static final String EARTH = " +ellps=GRS80";

  /** PROJ string and the box of the points: west, south, east, north. */
  record Case(String proj, double west, double south, double east, double north) {
    @Override
    public String toString() {
      return proj;
    }
  }

  static Stream<Case> cases() {
    List<Case> all = new ArrayList<>();
    for (String body : List.of(MOON, MARS, EARTH)) {
      all.add(new Case("+proj=longlat" + body, -170, -80, 170, 80));
      all.add(new Case("+proj=stere +lat_0=-90 +lon_0=0 +k=1" + body, -179, -89.9999, 179, -60));
      all.add(
          new Case(
              "+proj=stere +lat_0=90 +lon_0=30 +k=0.994 +x_0=2000000" + body,
              -179,
              60,
              179,
              89.99));
      all.add(
          new Case("+proj=stere +lat_0=-90 +lat_ts=-71 +lon_0=-45" + body, -179, -89, 179, -60));
      all.add(new Case("+proj=stere +lat_0=26.1 +lon_0=3.6 +k=0.9999" + body, -10, 10, 20, 40));
      all.add(
          new Case(
              "+proj=sterea +lat_0=52.2 +lon_0=5.4 +k=0.9999079 +x_0=155000" + body,
              0,
              45,
              12,
              58));
      all.add(
          new Case("+proj=tmerc +lat_0=0 +lon_0=15 +k=0.9996 +x_0=400000" + body, 9, -70, 21, 84));
      all.add(new Case("+proj=tmerc +lat_0=-85 +lon_0=30 +k=1" + body, 0, -89.9, 60, -80));
      all.add(new Case("+proj=eqc +lat_ts=30 +lon_0=180" + body, 20, -80, 340, 80));
      all.add(new Case("+proj=merc +lon_0=0 +k=1" + body, -170, -80, 170, 80));
      all.add(new Case("+proj=merc +lat_ts=20 +lon_0=100" + body, -70, -80, 270, 80));
      all.add(
          new Case(
              "+proj=lcc +lat_1=39.2 +lat_2=38.03 +lat_0=37.6 +lon_0=-78.5 +x_0=3500000" + body,
              -90,
              20,
              -60,
              60));
      all.add(
          new Case(
              "+proj=lcc +lat_1=-46.5 +lat_0=-46.5 +lon_0=2 +k_0=0.99987742" + body,
              -8,
              -60,
              12,
              -30));
      all.add(
          new Case(
              "+proj=aea +lat_1=29.5 +lat_2=45.5 +lat_0=23 +lon_0=-96" + body, -120, 0, -70, 70));
      all.add(
          new Case(
              "+proj=laea +lat_0=52 +lon_0=10 +x_0=4321000 +y_0=3210000" + body, -20, 20, 40, 80));
      all.add(new Case("+proj=laea +lat_0=-90 +lon_0=0" + body, -179, -89.99, 179, -50));
      all.add(new Case("+proj=aeqd +lat_0=52 +lon_0=10" + body, -20, 20, 40, 80));
      all.add(new Case("+proj=aeqd +lat_0=90 +lon_0=10" + body, -179, 50, 179, 89.99));
      all.add(new Case("+proj=sinu +lon_0=180" + body, 20, -80, 340, 80));
    }
    all.add(new Case("+proj=utm +zone=33" + EARTH, 12, -79, 18, 83));
    all.add(
        new Case(
            "+proj=tmerc +lat_0=40 +lon_0=-75 +k=0.9999 +x_0=150000 +units=us-ft" + EARTH,
            -76,
            39,
            -74,
            41));
    return all.stream();
  }

  @ParameterizedTest
  @MethodSource("cases")
  void coordinatesAreThoseOfProj(Case c) {
    SpatialReference theirs = fromProj(c.proj());
    MapCrs ours = CrsText.read(wkt(theirs, "WKT1_GDAL"));
    compare(c, theirs, ours, "WKT1_GDAL");
    for (String form : List.of("WKT1_ESRI", "WKT2_2019")) {
      MapCrs same = CrsText.read(wkt(theirs, form));
      assertTrue(
          same.sameAs(ours),
          form + ": " + CrsWriter.projString(same) + ", " + CrsWriter.projString(ours));
    }
  }

  @ParameterizedTest
  @MethodSource("cases")
  void gdalReadsOurTextAlike(Case c) {
    MapCrs ours = CrsText.read(wkt(fromProj(c.proj()), "WKT1_GDAL"));
    SpatialReference back = new SpatialReference(CrsWriter.wkt(ours));
    back.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    compare(c, back, ours, "our own");
    assertTrue(CrsText.read(CrsWriter.wkt(ours)).sameAs(ours), CrsWriter.wkt(ours));
    compare(c, fromProj(CrsWriter.projString(ours)), ours, "our PROJ string");
  }

  private static void compare(Case c, SpatialReference theirs, MapCrs ours, String form) {
    SpatialReference ground = theirs.CloneGeogCS();
    ground.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    CoordinateTransformation t =
        CoordinateTransformation.CreateCoordinateTransformation(ground, theirs);
    // PROJ's meridian arc of these two is a shorter series: 4e-5 m off on Mars, 4e-6 m on Earth.
    boolean arc = c.proj().contains("+proj=sinu") || c.proj().contains("+proj=aeqd +lat_0=90");
    // Near the pole its equal-area map takes the difference of two nearly equal numbers.
    boolean nearPole = c.proj().contains("+proj=laea +lat_0=-90");
    double toleranceM = arc ? 1e-4 : nearPole ? 1e-5 : 1e-6;
    double perUnitM = ours.isGeographic() ? 30_000 : ours.metresPerUnit();
    double[] back = new double[2];
    for (int i = 0; i <= 4; i++) {
      for (int j = 0; j <= 4; j++) {
        double lon = c.west() + (c.east() - c.west()) * i / 4;
        double lat = c.south() + (c.north() - c.south()) * j / 4;
        double[] want = t.TransformPoint(lon, lat);
        double[] got =
            ours.isGeographic() ? ours.fromLonLatNear(lon, lat, lon) : ours.fromLonLat(lon, lat);
        String at = c + " from " + form + " at " + lon + ", " + lat;
        assertEquals(want[0], got[0], toleranceM / perUnitM, at + ", x");
        assertEquals(want[1], got[1], toleranceM / perUnitM, at + ", y");
        ours.toLonLat(got[0], got[1], back);
        double turns = (back[0] - lon) / 360;
        assertEquals(0, (turns - Math.rint(turns)) * Math.cos(Math.toRadians(lat)), 1e-12, at);
        assertEquals(lat, back[1], 1e-10, at + ", latitude back");
      }
    }
  }

  /** All but azimuthal equidistant and sinusoidal, which differ or lack in GeoTools. */
  static Stream<Case> mapsOfGeoTools() {
    return cases()
        .filter(c -> !c.proj().contains("aeqd") && !c.proj().contains("sinu"))
        .filter(c -> !c.proj().contains("longlat"));
  }

  @ParameterizedTest
  @MethodSource("mapsOfGeoTools")
  void geoToolsReadsOurTextAlike(Case c) throws Exception {
    MapCrs ours = CrsText.read(wkt(fromProj(c.proj()), "WKT1_GDAL"));
    String base = CrsWriter.wkt(ours).substring(CrsWriter.wkt(ours).indexOf("GEOGCS["));
    CoordinateReferenceSystem ground =
        CRS.parseWKT(base.substring(0, base.indexOf(",PROJECTION[")));
    MathTransform t = CRS.findMathTransform(ground, CRS.parseWKT(CrsWriter.wkt(ours)), true);
    // Its own limits of accuracy are narrow: near the centre of the map only.
    for (double part : new double[] {0.45, 0.5, 0.55}) {
      double lon = c.west() + (c.east() - c.west()) * part;
      double lat = c.south() + (c.north() - c.south()) * part;
      double[] got = ours.fromLonLat(lon, lat);
      var want = t.transform(new GeneralPosition(lon > 180 ? lon - 360 : lon, lat), null);
      assertEquals(want.getOrdinate(0), got[0], 1e-3, c + " x of GeoTools");
      assertEquals(want.getOrdinate(1), got[1], 1e-3, c + " y of GeoTools");
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "EPSG:4326",
        "EPSG:32633",
        "EPSG:3031",
        "EPSG:3413",
        "EPSG:5041",
        "EPSG:2154",
        "EPSG:3035",
        "EPSG:28992",
        "EPSG:5070",
        "EPSG:2263",
        "EPSG:31467",
        "EPSG:3857",
        "EPSG:26910",
        "IAU_2015:30100",
        "IAU_2015:30130",
        "IAU_2015:30135",
        "IAU_2015:30110",
        "IAU_2015:49900",
        "IAU_2015:49910",
        "IAU_2015:49930",
        "IAU_2015:49935"
      })
  void registryCodesAreThoseOfProj(String code) {
    SpatialReference theirs = new SpatialReference();
    assertEquals(0, theirs.SetFromUserInput(code));
    theirs.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    SpatialReference ground = theirs.CloneGeogCS();
    ground.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    CoordinateTransformation t =
        CoordinateTransformation.CreateCoordinateTransformation(theirs, ground);
    for (String form : List.of("WKT1_GDAL", "WKT1_ESRI", "WKT2_2019")) {
      MapCrs ours = CrsText.read(wkt(theirs, form));
      double x = ours.isGeographic() ? 4.5 : 400_123 / ours.metresPerUnit();
      double y = ours.isGeographic() ? 50.5 : 500_456 / ours.metresPerUnit();
      double[] want = t.TransformPoint(x, y);
      double[] got = ours.toLonLat(x, y);
      // PROJ turns authalic latitudes back by a short series: 1.5e-8 deg on EPSG:3035.
      double toleranceDeg = "EPSG:3035".equals(code) ? 2e-8 : 1e-10;
      assertEquals(want[0], got[0], toleranceDeg, code + " " + form + " longitude");
      assertEquals(want[1], got[1], toleranceDeg, code + " " + form + " latitude");
    }
  }

  @Test
  void localSystemsOfEveryBodyAreThoseOfProj() {
    int n = 0;
    for (Body b : List.of(Body.MOON, Body.MARS, Body.EARTH, new Body("egg", 300e3, 297e3, 0.2))) {
      for (double lat : new double[] {-90, -85, -30, 0, 44, 89, 90}) {
        MapCrs local = MapCrs.local(b.name(), b.semiMajorM(), b.semiMinorM(), 177, lat);
        SpatialReference theirs = new SpatialReference(CrsWriter.wkt(local));
        theirs.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
        SpatialReference ground = theirs.CloneGeogCS();
        ground.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
        double[] want =
            CoordinateTransformation.CreateCoordinateTransformation(theirs, ground)
                .TransformPoint(12_345, 6_789);
        double[] got = local.toLonLat(12_345, 6_789);
        double turns = (want[0] - got[0]) / 360;
        assertEquals(0, (turns - Math.rint(turns)) * 360, 1e-9, local + " longitude");
        assertEquals(want[1], got[1], 1e-11, local + " latitude");
        n++;
      }
    }
    Validation.holds(
        "8-local-tm-against-proj",
        "local transverse Mercator on 4 figures at 7 latitudes equals PROJ to 1e-11 deg ("
            + n
            + ")",
        "PROJ 9 through GDAL",
        "R",
        true);
  }

  static SpatialReference fromProj(String proj) {
    SpatialReference s = new SpatialReference();
    assertEquals(0, s.ImportFromProj4(proj + " +no_defs"), proj);
    s.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    return s;
  }

  @SuppressWarnings("JdkObsolete") // the binding asks for a Vector
  static String wkt(SpatialReference s, String form) {
    String[] out = new String[1];
    assertEquals(0, s.ExportToWkt(out, new Vector<String>(List.of("FORMAT=" + form))), form);
    return out[0];
  }
}
