package org.scarpway.geodata;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.csv.CSVRecord;
import org.gdal.osr.CoordinateTransformation;
import org.gdal.osr.CoordinateTransformationOptions;
import org.gdal.osr.SpatialReference;
import org.gdal.osr.osr;
import org.gdal.osr.osrConstants;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.scarpway.grid.Body;

/** Longitudes and latitudes of every datum against PROJ (through GDAL). */
class DatumShiftTest {
  private static final double DEGREE_M = 111_320;

  @BeforeAll
  static void quiet() {
    GdalRuntime.require();
    GdalRuntime.quiet();
  }

  /** Every transformation of the table is the one that PROJ has under its number. */
  @Test
  void everyTransformationIsThatOfTheRegister() {
    SplittableRandom random = new SplittableRandom(4326);
    List<String> wrong = new ArrayList<>();
    int n = 0;
    for (CSVRecord r : Datums.rows("shifts.csv")) {
      int crs = Integer.parseInt(r.get("crs"));
      SpatialReference from = epsg(crs);
      Datums.Datum datum = Datums.of(MapCrs.of(wkt(from)).geographicPart());
      int operation = Integer.parseInt(r.get("operation"));
      Datums.Shift s =
          datum.shifts().stream().filter(x -> x.operation() == operation).findFirst().orElse(null);
      assertNotNull(s, "operation " + operation + " of " + wkt(from) + " is not found by its name");
      CoordinateTransformationOptions o = new CoordinateTransformationOptions();
      o.SetOperation("urn:ogc:def:coordinateOperation:EPSG::" + operation);
      CoordinateTransformation proj = new CoordinateTransformation(from, epsg(4326), o);
      double[] at = inside(s, random);
      double[] want = proj.TransformPoint(at[0], at[1], 0);
      double[] got = at.clone();
      DatumShift shift = DatumShift.by(MapCrs.of(wkt(from)), s);
      shift.toWorld(got);
      double[] back = got.clone();
      shift.fromWorld(back);
      if (metres(want, got) > 1e-3 || metres(at, back) > 1e-5) {
        wrong.add(operation + " off by " + metres(want, got) + ", back " + metres(at, back));
      }
      n++;
    }
    assertTrue(n > 700, "transformations: " + n);
    assertEquals(List.of(), wrong);
  }

  /**
   * What PROJ itself chooses for a place, grids of corrections included where they are installed,
   * lies within the accuracy that is stated and its own (at most 10 m), and most often is the same.
   */
  @Test
  void whatProjChoosesLiesWithinTheStatedAccuracy() {
    int same = 0;
    int all = 0;
    int none = 0;
    for (CSVRecord r : Datums.rows("datums.csv")) {
      SpatialReference from = epsg(Integer.parseInt(r.get("crs")));
      MapCrs crs = MapCrs.of(wkt(from));
      Datums.Shift s = Datums.of(crs.geographicPart()).shifts().get(0);
      double[] at = inside(s, new SplittableRandom(s.operation()));
      DatumShift shift = DatumShift.of(crs, at[0], at[1]);
      CoordinateTransformationOptions o = new CoordinateTransformationOptions();
      double w = Math.max(-180, at[0] - 0.01);
      double e = Math.min(180, at[0] + 0.01);
      o.SetAreaOfInterest(w, at[1] - 0.01, e, at[1] + 0.01);
      o.SetBallparkAllowed(false);
      CoordinateTransformation proj = osr.CreateCoordinateTransformation(from, epsg(4326), o);
      if (proj == null) {
        // Outside the ground that the register gives to the datum PROJ has none.
        none++;
        continue;
      }
      double[] want = proj.TransformPoint(at[0], at[1], 0);
      double[] got = at.clone();
      shift.toWorld(got);
      double off = metres(want, got);
      assertTrue(
          off <= Math.min(shift.accuracyM(), 100) + 10,
          r.get("crs_name") + " off by " + off + ": " + shift.told());
      same += off < 1e-3 ? 1 : 0;
      all++;
    }
    assertTrue(same > 0.9 * all && none < 0.05 * all, same + " of " + all + ", none " + none);
  }

  /**
   * Accuracies of EPSG, lengths of the shifts by PROJ to a few tens of metres; the way files write
   * the systems, on both paths.
   */
  @ParameterizedTest
  @CsvSource({
    "4267, -113, 37.5, 7, 60, 110", // NAD27, Utah
    "4269, -113, 37.5, 4, 0, 0.001", // NAD83
    "4230, 10, 50, 1, 80, 160", // ED50
    "4277, -1.5, 52, 2, 90, 140", // OSGB36
    "4314, 10, 51, 2, 100, 180", // DHDN
    "4301, 139, 36, 9, 400, 500", // Tokyo
    "4284, 37, 55, 3, 80, 160", // Pulkovo 1942
    "4258, 10, 50, 1, 0, 0.001", // ETRS89
    "4326, 10, 50, 0, 0, 0.001" // WGS 84
  })
  void knownDatumsMoveByWhatIsKnownOfThem(
      int code, double lon, double lat, double accuracyM, double leastM, double mostM) {
    for (String wkt : new String[] {wkt(epsg(code)), GeoKeyCrs.epsg(code).toString()}) {
      DatumShift s = DatumShift.of(MapCrs.of(wkt), lon, lat);
      double[] at = {lon, lat};
      s.toWorld(at);
      double moved = metres(new double[] {lon, lat}, at);
      assertTrue(moved >= leastM && moved <= mostM, wkt + " moves by " + moved);
      assertEquals(accuracyM, s.accuracyM(), wkt);
    }
  }

  @Test
  void bodiesAreLeftAloneAndWhatIsUnknownIsSaid() {
    for (Body b : new Body[] {Body.MOON, Body.MARS, Body.EARTH}) {
      DatumShift s = DatumShift.of(MapCrs.lonLat(b), 20, 30);
      double[] at = {20, 30};
      s.toWorld(at);
      s.fromWorld(at);
      assertEquals(20, at[0]);
      assertEquals(30, at[1]);
      assertEquals(0, s.accuracyM());
      assertEquals("", s.told());
    }
    String odd =
        "GEOGCS[\"odd\",DATUM[\"Odd survey\",SPHEROID[\"Clarke 1866\",6378206.4,294.9786982]],"
            + "PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]]";
    DatumShift unknown = DatumShift.of(MapCrs.of(odd), 20, 30);
    assertFalse(unknown.known());
    assertTrue(unknown.told().contains("Odd survey"), unknown.told());
    DatumShift sphere =
        DatumShift.of(MapCrs.of(odd.replace("6378206.4,294.9786982", "6371000,0")), 2, 3);
    assertFalse(sphere.known());
    DatumShift modern =
        DatumShift.of(
            MapCrs.of(odd.replace("6378206.4,294.9786982", "6378137,298.257222101")), 2, 3);
    assertTrue(modern.known() && modern.told().contains("taken as WGS 84"), modern.told());
    DatumShift tokyoInPeru = DatumShift.of(MapCrs.of(wkt(epsg(4301))), -75, -10);
    assertFalse(tokyoInPeru.known());
    assertTrue(tokyoInPeru.told().contains("lon -75.00, lat -10.00"), tokyoInPeru.told());
  }

  @Test
  void datumsAreToldApartWhereTheyMoveTheGround() {
    MapCrs nad83 = MapCrs.of(wkt(epsg(26912)));
    MapCrs wgs = MapCrs.of(wkt(epsg(32612)));
    MapCrs ed50 = MapCrs.of(wkt(epsg(23033)));
    MapCrs monteMario = MapCrs.of(wkt(epsg(4265))).localAbout(15, 0);
    assertTrue(nad83.sameAs(wgs));
    assertFalse(ed50.sameDatumAs(monteMario));
    assertTrue(ed50.sameDatumAs(ed50.localAbout(15, 50)));
  }

  private static double[] inside(Datums.Shift s, SplittableRandom random) {
    double width = s.eastDeg() - s.westDeg();
    width = width < 0 ? width + 360 : width;
    double lon = s.westDeg() + width * (0.1 + 0.8 * random.nextDouble());
    double south = Math.max(-89, s.southDeg());
    double north = Math.min(89, s.northDeg());
    double lat = south + (north - south) * (0.1 + 0.8 * random.nextDouble());
    return new double[] {lon > 180 ? lon - 360 : lon, lat};
  }

  private static SpatialReference epsg(int code) {
    SpatialReference s = GdalFixture.srs("EPSG:" + code);
    s.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    return s;
  }

  /** The way GDAL tells the system of a file. */
  private static String wkt(SpatialReference s) {
    return GdalCrs.of(java.nio.file.Path.of("given"), s).wkt();
  }

  private static double metres(double[] a, double[] b) {
    double dx = Math.IEEEremainder(a[0] - b[0], 360) * Math.cos(Math.toRadians(a[1]));
    return DEGREE_M * Math.hypot(dx, a[1] - b[1]);
  }
}
