package org.scarpway.geodata.crs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.stage.UserError;

class MapCrsTest {
  private static final String MOON_BASE =
      "GEOGCS[\"GCS_Moon\",DATUM[\"D_Moon\",SPHEROID[\"Moon\",1737400,0]],"
          + "PRIMEM[\"Reference_Meridian\",0],UNIT[\"degree\",0.0174532925199433]]";

  private static String projected(String method, String parameters, String unit) {
    return "PROJCS[\"test\","
        + MOON_BASE
        + ",PROJECTION[\""
        + method
        + "\"],"
        + parameters
        + unit
        + "]";
  }

  private static String message(String wkt) {
    return assertThrows(UserError.class, () -> CrsText.read(wkt)).getMessage();
  }

  @Test
  void emptyTextIsTheLocalPlane() {
    MapCrs crs = CrsText.read("  ");
    assertTrue(crs.isLocal());
    assertEquals(1, crs.metresPerUnit());
    assertEquals("", CrsWriter.wkt(crs));
    assertTrue(CrsText.read("LOCAL_CS[\"site\",UNIT[\"foot\",0.3048]]").isLocal());
    assertEquals(0.3048, CrsText.read("LOCAL_CS[\"site\",UNIT[\"foot\",0.3048]]").metresPerUnit());
  }

  @Test
  void bodyIsKnownByItsFigure() {
    assertEquals(Body.MOON, CrsText.read(MOON_BASE).body().orElseThrow());
    MapCrs marsSphere = CrsText.read(MOON_BASE.replace("1737400", "3396190"));
    assertEquals(Body.MARS, marsSphere.body().orElseThrow());
    assertTrue(marsSphere.fits(Body.MARS));
    assertFalse(marsSphere.fits(Body.MOON));
    assertTrue(CrsText.read(MOON_BASE.replace("1737400", "250000")).body().isEmpty());
    assertEquals(Body.EARTH, MapCrs.lonLat(Body.EARTH).body().orElseThrow());
  }

  @Test
  void feetBecomeMetres() {
    MapCrs feet =
        CrsText.read(
            projected(
                "Transverse_Mercator",
                "PARAMETER[\"central_meridian\",10],PARAMETER[\"false_easting\",1000],",
                "UNIT[\"foot\",0.3048]"));
    MapCrs metres = feet.inMetres();
    double[] a = feet.fromLonLat(11, 3);
    double[] b = metres.fromLonLat(11, 3);
    assertEquals(0.3048, feet.metresPerUnit());
    assertEquals(b[0], a[0] * 0.3048, 1e-7);
    assertEquals(b[1], a[1] * 0.3048, 1e-7);
    assertFalse(feet.sameAs(metres));
    assertTrue(metres.sameAs(CrsText.read(CrsWriter.wkt(metres))));
  }

  @Test
  void longitudesCountedToThreeSixtyMeetThoseToOneEighty() {
    MapCrs moon = CrsText.read(MOON_BASE);
    assertEquals(-10, moon.toLonLat(350, 5)[0], 1e-12);
    assertEquals(350, moon.fromLonLatNear(-10, 5, 300)[0], 1e-12);
    assertEquals(-10, moon.fromLonLatNear(350, 5, 0)[0], 1e-12);
    MapCrs eqc =
        CrsText.read(
            projected(
                "Equirectangular", "PARAMETER[\"standard_parallel_1\",60],", "UNIT[\"metre\",1]"));
    double turn = Math.PI * 1_737_400;
    assertEquals(turn, eqc.turnX(), 1e-6);
    assertEquals(turn * 350 / 360, eqc.fromLonLatNear(-10, 0, turn)[0], 1e-6);
    assertEquals(-10, eqc.toLonLat(turn * 350 / 360, 0)[0], 1e-9);
  }

  @Test
  void localSystemIsTrueAtItsCentre() {
    MapCrs local = MapCrs.local("moon", 1_737_400, 1_737_400, 30, -85);
    double[] xy = local.fromLonLat(30, -85);
    assertEquals(0, xy[0], 1e-9);
    assertEquals(0, xy[1], 1e-9);
    double[] north = local.fromLonLat(30, -84.99);
    assertEquals(0.01 * local.metresPerDegreeNorth(-85), north[1], 1e-6);
    assertEquals("moon", local.body().orElseThrow().name());
    assertTrue(CrsText.read(CrsWriter.wkt(local)).sameAs(local));
  }

  @Test
  void horizontalPartOfCompoundAndBoundTexts() {
    String compound =
        "COMPD_CS[\"both\"," + MOON_BASE + ",VERT_CS[\"h\",VERT_DATUM[\"d\",2005],UNIT[\"m\",1]]]";
    assertTrue(CrsText.read(compound).sameAs(CrsText.read(MOON_BASE)));
    String bound = "BOUNDCRS[SOURCECRS[" + MOON_BASE + "],TARGETCRS[" + MOON_BASE + "]]";
    assertTrue(CrsText.read(bound).sameAs(CrsText.read(MOON_BASE)));
  }

  @Test
  void whatIsNotUnderstoodIsRefusedByName() {
    String metre = "UNIT[\"metre\",1]";
    assertTrue(message(projected("Polyconic", "", metre)).contains("'Polyconic'"));
    assertTrue(
        message(projected("Mercator_1SP", "PARAMETER[\"rectified_grid_angle\",3],", metre))
            .contains("rectified_grid_angle"));
    assertTrue(
        message(projected("Transverse_Mercator", "", metre + ",AXIS[\"W\",WEST],AXIS[\"S\",SOUTH]"))
            .contains("WEST"));
    assertTrue(
        message(
                MOON_BASE.replace(
                    ",UNIT", ",AXIS[\"Latitude\",NORTH],AXIS[\"Longitude\",WEST],UNIT"))
            .contains("WEST"));
    assertTrue(message("GEOCCS[\"geocentric\"]").contains("GEOCCS"));
    assertTrue(message(MOON_BASE.replace("1737400", "-3")).contains("is no body"));
    assertTrue(
        message(projected("Albers", "PARAMETER[\"standard_parallel_1\",0],", metre))
            .contains("no cone"));
    assertTrue(
        message(
                "PROJCS[\"p\",GEOGCS[\"Mars / Ocentric\",DATUM[\"d\",SPHEROID[\"m\",3396190,169.9]],"
                    + "UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Stereographic\"]]")
            .contains("planetocentric"));
  }

  @Test
  void brokenTextIsRefusedInOneLine() {
    for (String bad :
        new String[] {
          "hello",
          "PROJCS[",
          "GEOGCS[\"x",
          "GEOGCS[\"x\"]",
          MOON_BASE + "x",
          "A[".repeat(200),
          MOON_BASE.replace("1737400", "abc"),
          "x".repeat(200_000)
        }) {
      String line = message(bad);
      assertFalse(line.contains("\n"), line);
      assertTrue(line.length() < 400, line);
    }
  }

  @Test
  void textsWithQuotesSurvive() {
    MapCrs crs = CrsText.read(MOON_BASE.replace("GCS_Moon", "the \"\"near\"\" side"));
    assertEquals("the \"near\" side", crs.name());
    assertEquals(CrsWriter.wkt(crs), CrsWriter.wkt(CrsText.read(CrsWriter.wkt(crs))));
  }
}
