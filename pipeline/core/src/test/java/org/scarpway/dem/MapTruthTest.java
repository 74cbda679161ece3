package org.scarpway.dem;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.PolygonArea;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.DemRequest.VoidRule;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.CrsWriter;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.crs.RedrawnMap;
import org.scarpway.geodata.raster.RasterHeader.Affine;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.HornGradient;

/**
 * Metres of the grid are metres on the ground, whatever map a raster lies on: distances against
 * geodesics and areas against the ellipsoid (GeographicLib, Karney 2013), slopes of planes that are
 * true on the ground.
 */
class MapTruthTest {
  private static final double SLOPE = Math.tan(Math.toRadians(20.5));

  private final FakeRasters io = new FakeRasters();

  /** A map, and a place on it. */
  private record Site(String wkt, Body body, double lonDeg, double latDeg) {}

  private static String wkt(Body body, String projection, double... nameless) {
    String geo = CrsWriter.wkt(MapCrs.lonLat(body));
    StringBuilder w = new StringBuilder("PROJCS[\"map\",").append(geo);
    w.append(",PROJECTION[\"").append(projection).append("\"]");
    String[] names = {"latitude_of_origin", "central_meridian", "scale_factor"};
    for (int i = 0; i < names.length; i++) {
      w.append(String.format(Locale.ROOT, ",PARAMETER[\"%s\",%s]", names[i], nameless[i]));
    }
    return w.append(",PARAMETER[\"false_easting\",500000],PARAMETER[\"false_northing\",-2000],")
        .append("UNIT[\"metre\",1]]")
        .toString();
  }

  private static Site draw(Random random, int kind) {
    Body body = List.of(Body.MOON, Body.MARS, Body.EARTH).get(random.nextInt(3));
    double lon = 360 * random.nextDouble() - 180;
    double k0 = 0.97 + 0.06 * random.nextDouble();
    return switch (kind) {
      case 0 -> {
        double lat = -60 - 29.5 * random.nextDouble();
        yield new Site(wkt(body, "Polar_Stereographic", -90, 20, k0), body, lon, lat);
      }
      case 1 ->
          new Site(
              wkt(body, "Transverse_Mercator", 0, lon - 8 * random.nextDouble(), k0),
              body,
              lon,
              120 * random.nextDouble() - 60);
      case 2 ->
          new Site(
              wkt(body, "Mercator_1SP", 0, lon - 3, k0), body, lon, 100 * random.nextDouble() - 50);
      // On a sphere: along the meridians of an ellipsoid no such map is true to scale.
      case 3 ->
          new Site(
              "PROJCS[\"map\","
                  + CrsWriter.wkt(MapCrs.lonLat(Body.MOON))
                  + ",PROJECTION[\"Equirectangular\"],PARAMETER[\"standard_parallel_1\",0],"
                  + "PARAMETER[\"central_meridian\",0],UNIT[\"metre\",1]]",
              Body.MOON,
              lon,
              80 * random.nextDouble() - 40);
      default ->
          new Site(
              wkt(body, "Lambert_Conformal_Conic_1SP", 45, lon + 2, k0),
              body,
              lon,
              20 + 50 * random.nextDouble());
    };
  }

  private Dem read(Path file, Body body) {
    DemRequest request =
        new DemRequest(
            List.of(file), body, null, null, VoidRule.NO_GO, 0, null, null, 1_000_000, false);
    try (Workers workers = new Workers(1)) {
      return DemRows.open(request, io, workers).whole(Progress.NONE);
    }
  }

  private static Geodesic figure(MapCrs crs) {
    return new Geodesic(crs.semiMajorM(), 1 - crs.semiMinorM() / crs.semiMajorM());
  }

  @Test
  void planesDistancesAndAreasAreThoseOfTheGround() {
    Random random = new Random(81);
    for (int i = 0; i < 100; i++) {
      Site site = draw(random, i % 5);
      MapCrs map = CrsText.read(site.wkt());
      Geodesic earth = figure(map);
      double[] at = map.fromLonLat(site.lonDeg(), site.latDeg());
      int n = 40;
      double cellM = 10;
      double azimuth = 360 * random.nextDouble();
      Affine t = new Affine(at[0] - 0.5 * n * cellM, cellM, 0, at[1] + 0.5 * n * cellM, 0, -cellM);
      Path file =
          io.add(
              "m" + i,
              n,
              n,
              t,
              site.wkt(),
              (r, c) -> {
                double[] p =
                    map.toLonLat(
                        at[0] + (c + 0.5 - 0.5 * n) * cellM, at[1] + (0.5 * n - r - 0.5) * cellM);
                GeodesicData g = earth.Inverse(site.latDeg(), site.lonDeg(), p[1], p[0]);
                return SLOPE * g.s12 * Math.cos(Math.toRadians(g.azi1 - azimuth));
              });
      Dem dem = read(file, site.body());
      GridSpec g = dem.heightM().spec();
      String what = i + ": " + map.name() + " " + site + dem.warnings();

      float[] east = new float[g.cells()];
      float[] north = new float[g.cells()];
      HornGradient.fill(
          dem.heightM().values(),
          g.rows(),
          g.cols(),
          0,
          g.rows(),
          g.cellXM(),
          g.cellYM(),
          east,
          north);
      int middle = (g.rows() / 2) * g.cols() + g.cols() / 2;
      double deg = Math.toDegrees(Math.atan(Math.hypot(east[middle], north[middle])));
      assertEquals(20.5, deg, 0.02, what);

      MapCrs own = CrsText.read(g.crsWkt());
      for (int k = 0; k < 20; k++) {
        double x0 = g.westM() + random.nextDouble() * g.cols() * g.cellXM();
        double y0 = g.southM() + random.nextDouble() * g.rows() * g.cellYM();
        double x1 = g.westM() + random.nextDouble() * g.cols() * g.cellXM();
        double y1 = g.southM() + random.nextDouble() * g.rows() * g.cellYM();
        double[] a = own.toLonLat(x0, y0);
        double[] b = own.toLonLat(x1, y1);
        double exact = earth.Inverse(a[1], a[0], b[1], b[0]).s12;
        assertEquals(exact, Math.hypot(x1 - x0, y1 - y0), 1e-3 * exact + 1e-3, what);
      }
      PolygonArea area = new PolygonArea(earth, false);
      double[][] ring = {
        {g.westM(), g.southM()},
        {g.eastM(), g.southM()},
        {g.eastM(), g.northM()},
        {g.westM(), g.northM()}
      };
      for (double[] corner : ring) {
        double[] p = own.toLonLat(corner[0], corner[1]);
        area.AddPoint(p[1], p[0]);
      }
      double exact = Math.abs(area.Compute(false, true).area);
      assertEquals(exact, g.cells() * g.cellXM() * g.cellYM(), 2e-3 * exact, what);
    }
  }

  /** Only what no drawing of its own map makes true is carried over; cells else keep heights. */
  @Test
  void heightsStayAsTheyAre() {
    Random random = new Random(82);
    for (int i = 0; i < 30; i++) {
      Site site = draw(random, i % 5);
      MapCrs map = CrsText.read(site.wkt());
      double[] at = map.fromLonLat(site.lonDeg(), site.latDeg());
      Path file =
          io.add(
              "h" + i,
              8,
              9,
              new Affine(at[0], 10, 0, at[1], 0, -10),
              site.wkt(),
              (r, c) -> 100 * r + c);
      Dem dem = read(file, site.body());
      assertEquals(72, dem.heightM().spec().cells(), site + "" + dem.warnings());
      for (int c = 0; c < 72; c++) {
        assertEquals(100 * (c / 9) + c % 9, dem.heightM().values()[c]);
      }
      // A place of the raster is the same place of the ground.
      GridSpec g = dem.heightM().spec();
      double[] back = RedrawnMap.between(CrsText.read(g.crsWkt()), map);
      for (int c = 0; c < 72; c++) {
        int row = c / 9;
        // Other rasters on the raster's own map still lie cell on cell.
        assertEquals(at[0] + (c % 9 + 0.5) * 10, back[0] * g.xM(c % 9) + back[1], 1e-5);
        assertEquals(at[1] - (row + 0.5) * 10, back[2] * g.yM(row) + back[3], 1e-5);
      }
      double[] there = map.toLonLat(at[0] + 25, at[1] - 35);
      double[] here = CrsText.read(g.crsWkt()).toLonLat(g.xM(2), g.yM(3));
      assertEquals(0, figure(map).Inverse(there[1], there[0], here[1], here[0]).s12, 1e-3);
    }
  }

  /** A polar map so wide that its scale differs: true within what is said. */
  @Test
  void whatIsLeftIsSaid() {
    String polar = wkt(Body.MOON, "Polar_Stereographic", -90, 0, 1);
    int n = 40;
    double cellM = 5000;
    double r0 = 120_000;
    Path file =
        io.add(
            "wide",
            n,
            n,
            new Affine(500_000, cellM, 0, -2000 + r0 + n * cellM, 0, -cellM),
            polar,
            (r, c) -> r);
    Dem dem = read(file, Body.MOON);
    GridSpec g = dem.heightM().spec();
    MapCrs own = CrsText.read(g.crsWkt());
    Geodesic moon = figure(own);
    double worst = 0;
    for (int i = 1; i < n; i++) {
      double[] a = own.toLonLat(g.xM(i), g.yM(i));
      double[] b = own.toLonLat(g.xM(i - 1), g.yM(i - 1));
      double exact = moon.Inverse(a[1], a[0], b[1], b[0]).s12;
      worst = Math.max(worst, Math.abs(Math.hypot(g.cellXM(), g.cellYM()) / exact - 1));
    }
    assertTrue(
        worst > LocalMapPlan.NEGLIGIBLE_DISTORTION && worst < GridPlanner.MOST_DISTORTION,
        "" + worst);
    assertTrue(dem.warnings().toString().contains("no flat map"), dem.warnings().toString());
  }
}
