package org.scarpway.geodata.raster;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import net.sf.geographiclib.Geodesic;
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
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.DatumShift;
import org.scarpway.geodata.crs.Datums;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.tiff.GeoKeyCrs;
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
      Datums.Datum datum = Datums.of(CrsText.read(wkt(from)).geographicPart());
      int operation = Integer.parseInt(r.get("operation"));
      Datums.Shift s =
          datum.shifts().stream().filter(x -> x.operation() == operation).findFirst().orElse(null);
      assertNotNull(s, "operation " + operation + " of " + wkt(from) + " is not found by its name");
      CoordinateTransformation proj = proj(from, operation);
      double[] at = inside(s, random);
      double[] want = proj.TransformPoint(at[0], at[1], 0);
      double[] got = at.clone();
      DatumShift shift = DatumShift.by(CrsText.read(wkt(from)), s);
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
      MapCrs crs = CrsText.read(wkt(from));
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
          r.get("crs_name") + " off by " + off + ": " + shift.note());
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
      DatumShift s = DatumShift.of(CrsText.read(wkt), lon, lat);
      double[] at = {lon, lat};
      s.toWorld(at);
      double moved = metres(new double[] {lon, lat}, at);
      assertTrue(moved >= leastM && moved <= mostM, wkt + " moves by " + moved);
      assertEquals(accuracyM, s.accuracyM(), wkt);
    }
  }

  /**
   * Over all datums and a grid of places in each area, with every transformation worked out by
   * PROJ: the accuracy stated is no better than that of the chosen one and covers every other one
   * that contradicts it by more than both accuracies; the warning names the farthest. More than
   * half of the others contradict the chosen one only where that is so for all of them.
   */
  @Test
  void theAccuracyCoversEveryTransformationThatContradicts() {
    Map<Integer, List<Published>> byCrs = new TreeMap<>();
    for (CSVRecord r : Datums.rows("shifts.csv")) {
      int code = Integer.parseInt(r.get("crs"));
      int operation = Integer.parseInt(r.get("operation"));
      Datums.Datum datum = Datums.of(CrsText.read(wkt(epsg(code))).geographicPart());
      Datums.Shift s =
          datum.shifts().stream().filter(x -> x.operation() == operation).findFirst().orElseThrow();
      byCrs
          .computeIfAbsent(code, k -> new ArrayList<>())
          .add(new Published(s, proj(epsg(code), operation)));
    }
    int contradicted = 0;
    int places = 0;
    for (Map.Entry<Integer, List<Published>> e : byCrs.entrySet()) {
      MapCrs crs = CrsText.read(wkt(epsg(e.getKey())));
      for (Published area : e.getValue()) {
        for (int k = 0; k < 9; k++) {
          double[] at = inside(area.shift(), 0.1 + 0.4 * (k % 3), 0.1 + 0.4 * Math.floorDiv(k, 3));
          contradicted += isContradicted(crs, e.getValue(), at) ? 1 : 0;
          places++;
        }
      }
    }
    assertTrue(places > 6000 && contradicted > 300, places + " places, " + contradicted);
  }

  private record Published(Datums.Shift shift, CoordinateTransformation proj) {}

  private static boolean isContradicted(MapCrs crs, List<Published> published, double[] at) {
    DatumShift shift = DatumShift.of(crs, at[0], at[1]);
    double[] got = at.clone();
    shift.toWorld(got);
    List<Published> here =
        published.stream()
            .filter(p -> p.shift().statesAccuracy() && p.shift().holds(at[0], at[1]))
            .toList();
    double[][] there = new double[here.size()][];
    int chosen = -1;
    for (int i = 0; i < there.length; i++) {
      there[i] = here.get(i).proj().TransformPoint(at[0], at[1], 0);
      if (geodesicM(there[i], got) < 1e-3
          && (chosen < 0
              || here.get(i).shift().accuracyM() < here.get(chosen).shift().accuracyM())) {
        chosen = i;
      }
    }
    if (there.length == 0) {
      return false;
    }
    String what = shift.note() + " at " + at[0] + ", " + at[1];
    assertTrue(chosen >= 0, what);
    int fewest = there.length;
    int against = 0;
    int worst = -1;
    double farM = 0;
    for (int i = 0; i < there.length; i++) {
      int n = 0;
      for (int j = 0; j < there.length; j++) {
        double offM = geodesicM(there[i], there[j]);
        double bothM = here.get(i).shift().accuracyM() + here.get(j).shift().accuracyM();
        if (i != j && offM > bothM) {
          n++;
          worst = i == chosen && offM > farM ? j : worst;
          farM = i == chosen ? Math.max(farM, offM) : farM;
        }
      }
      fewest = Math.min(fewest, n);
      against = i == chosen ? n : against;
    }
    assertTrue(shift.accuracyM() >= here.get(chosen).shift().accuracyM(), what);
    assertTrue(shift.accuracyM() >= farM - 0.01, what + ", but one lies off by " + farM);
    assertEquals(farM > 100, shift.note().contains("survey marks"), what);
    assertEquals(worst >= 0, shift.note().contains("but transformation"), what);
    if (worst >= 0) {
      assertTrue(
          shift.note().contains("but transformation " + here.get(worst).shift().operation() + ","),
          what);
    }
    int half = (there.length - 1) / 2;
    assertTrue(against <= half || fewest > half, what);
    return worst >= 0;
  }

  /**
   * Places by PROJ 9.1.1 and its EPSG transformations, on the ellipsoid: in Kosovo 9143 lies 1616.8
   * m from 9486 and 1612.5 m from 3962, which lie 9.1 m from each other; of Indian 1975 1304 and
   * 1812 lie 187.5 m from each other in Thailand, and off its coast 1304 and 1537 lie 2.1 m from
   * each other and 1812 185.7 m from 1537.
   */
  @ParameterizedTest
  @CsvSource({
    "3906, 21, 42.5, 20.9946582, 42.5002847, 9486, 9143, 1617",
    "4240, 100, 14, 99.9951052, 14.0020923, 1812, 1304, 188",
    "4240, 102.6, 7.5, 102.5965407, 7.5021537, 1537, 1812, 186"
  })
  void aRecordThatTheOthersContradictIsNotTakenAtItsWord(
      int code, double lon, double lat, double toLon, double toLat, int by, int not, double offM) {
    DatumShift s = DatumShift.of(CrsText.read(wkt(epsg(code))), lon, lat);
    double[] at = {lon, lat};
    s.toWorld(at);
    assertEquals(toLon, at[0], 1e-7);
    assertEquals(toLat, at[1], 1e-7);
    assertEquals(offM, s.accuracyM());
    assertTrue(s.note().contains("by EPSG transformation " + by + ","), s.note());
    assertTrue(s.note().contains("but transformation " + not + ","), s.note());
    assertTrue(s.note().contains("survey marks"), s.note());
    assertFalse(s.note().contains("\n"), s.note());
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
      assertEquals("", s.note());
    }
    String odd =
        "GEOGCS[\"odd\",DATUM[\"Odd survey\",SPHEROID[\"Clarke 1866\",6378206.4,294.9786982]],"
            + "PRIMEM[\"Greenwich\",0],UNIT[\"degree\",0.0174532925199433]]";
    DatumShift unknown = DatumShift.of(CrsText.read(odd), 20, 30);
    assertFalse(unknown.known());
    assertTrue(unknown.note().contains("Odd survey"), unknown.note());
    DatumShift sphere =
        DatumShift.of(CrsText.read(odd.replace("6378206.4,294.9786982", "6371000,0")), 2, 3);
    assertFalse(sphere.known());
    DatumShift modern =
        DatumShift.of(
            CrsText.read(odd.replace("6378206.4,294.9786982", "6378137,298.257222101")), 2, 3);
    assertTrue(modern.known() && modern.note().contains("taken as WGS 84"), modern.note());
    DatumShift tokyoInPeru = DatumShift.of(CrsText.read(wkt(epsg(4301))), -75, -10);
    assertFalse(tokyoInPeru.known());
    assertTrue(tokyoInPeru.note().contains("lon -75.00, lat -10.00"), tokyoInPeru.note());
  }

  @Test
  void datumsAreToldApartWhereTheyMoveTheGround() {
    MapCrs nad83 = CrsText.read(wkt(epsg(26912)));
    MapCrs wgs = CrsText.read(wkt(epsg(32612)));
    MapCrs ed50 = CrsText.read(wkt(epsg(23033)));
    MapCrs monteMario = CrsText.read(wkt(epsg(4265))).localAbout(15, 0);
    assertTrue(nad83.sameAs(wgs));
    assertFalse(ed50.sameDatumAs(monteMario));
    assertTrue(ed50.sameDatumAs(ed50.localAbout(15, 50)));
  }

  private static double[] inside(Datums.Shift s, SplittableRandom random) {
    return inside(s, 0.1 + 0.8 * random.nextDouble(), 0.1 + 0.8 * random.nextDouble());
  }

  private static double[] inside(Datums.Shift s, double ofWidth, double ofHeight) {
    double width = s.eastDeg() - s.westDeg();
    width = width < 0 ? width + 360 : width;
    double lon = s.westDeg() + width * ofWidth;
    double south = Math.max(-89, s.southDeg());
    double north = Math.min(89, s.northDeg());
    double lat = south + (north - south) * ofHeight;
    return new double[] {lon > 180 ? lon - 360 : lon, lat};
  }

  private static CoordinateTransformation proj(SpatialReference from, int operation) {
    CoordinateTransformationOptions o = new CoordinateTransformationOptions();
    o.SetOperation("urn:ogc:def:coordinateOperation:EPSG::" + operation);
    return new CoordinateTransformation(from, epsg(4326), o);
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

  private static double geodesicM(double[] a, double[] b) {
    return Geodesic.WGS84.Inverse(a[1], a[0], b[1], b[0]).s12;
  }

  private static double metres(double[] a, double[] b) {
    double dx = Math.IEEEremainder(a[0] - b[0], 360) * Math.cos(Math.toRadians(a[1]));
    return DEGREE_M * Math.hypot(dx, a[1] - b[1]);
  }
}
