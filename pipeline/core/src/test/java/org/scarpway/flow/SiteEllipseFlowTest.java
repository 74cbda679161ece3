package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconstConstants;
import org.gdal.ogr.DataSource;
import org.gdal.ogr.Feature;
import org.gdal.ogr.Geometry;
import org.gdal.ogr.ogr;
import org.gdal.osr.SpatialReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIos;

/** Whole jobs whose landing ellipses lie along an azimuth from true north. */
class SiteEllipseFlowTest {
  private static final String SITES =
      "sites: {candidates: [hearth, corner], ellipse_m: [120, 50], ellipse_azimuth_deg: %s}";

  @TempDir Path dir;

  /** One ellipse as OGR reads it. */
  private record Drawn(String name, double trueDeg, double gridDeg, List<double[]> ring) {
    /** Inside by the winding of its corners about a point. */
    boolean holds(double x, double y) {
      double turn = 0;
      for (int i = 1; i < ring.size(); i++) {
        double a = Math.atan2(ring.get(i)[0] - x, ring.get(i)[1] - y);
        double b = Math.atan2(ring.get(i - 1)[0] - x, ring.get(i - 1)[1] - y);
        turn += Math.IEEEremainder(a - b, 2 * Math.PI);
      }
      return Math.abs(turn) > Math.PI;
    }
  }

  private static Drawn drawn(Path gpkg, String name) {
    RasterIos.gdal();
    DataSource file = ogr.Open(gpkg.toString());
    try {
      for (Feature f = file.GetLayer(0).GetNextFeature();
          f != null;
          f = file.GetLayer(0).GetNextFeature()) {
        if (f.GetFieldAsString("name").equals(name)) {
          Geometry ring = f.GetGeometryRef().GetGeometryRef(0).GetGeometryRef(0);
          List<double[]> at = new ArrayList<>();
          for (int i = 0; i < ring.GetPointCount(); i++) {
            at.add(new double[] {ring.GetX(i), ring.GetY(i)});
          }
          assertEquals(120, f.GetFieldAsDouble("long_axis_m"));
          assertEquals(50, f.GetFieldAsDouble("short_axis_m"));
          assertTrue(f.GetFieldAsInteger("rank") > 0);
          double trueDeg =
              f.IsFieldSetAndNotNull("azimuth_true_deg")
                  ? f.GetFieldAsDouble("azimuth_true_deg")
                  : Double.NaN;
          return new Drawn(name, trueDeg, f.GetFieldAsDouble("azimuth_grid_deg"), at);
        }
      }
    } finally {
      file.delete();
    }
    throw new AssertionError("no " + name + " in " + gpkg);
  }

  /** The mean slope of the ranking is that of the cells inside the outline, as GDAL reads them. */
  private static void slopesAreThoseInside(Path run, Drawn e) {
    Dataset raster = gdal.Open(run.resolve("terrain/slope_deg.tif").toString());
    double sum = 0;
    int n = 0;
    try {
      double[] g = raster.GetGeoTransform();
      int cols = raster.getRasterXSize();
      float[] slope = new float[cols * raster.getRasterYSize()];
      raster.GetRasterBand(1).ReadRaster(0, 0, cols, raster.getRasterYSize(), slope);
      for (int i = 0; i < slope.length; i++) {
        double x = g[0] + (i % cols + 0.5) * g[1];
        double y = g[3] + (Math.floorDiv(i, cols) + 0.5) * g[5];
        if (e.holds(x, y) && !Float.isNaN(slope[i])) {
          sum += slope[i];
          n++;
        }
      }
    } finally {
      raster.delete();
    }
    for (Table.Row r : Table.read(run.resolve("sites/ranking.csv")).rows()) {
      if (r.text("site").equals(e.name())) {
        assertEquals(sum / n, r.number("mean_slope_deg"), 1e-4, e.name());
      }
    }
  }

  private static double[] farthest(List<double[]> ring, double x, double y) {
    double[] far = ring.get(0);
    for (double[] c : ring) {
      far = Math.hypot(c[0] - x, c[1] - y) > Math.hypot(far[0] - x, far[1] - y) ? c : far;
    }
    return far;
  }

  /** Of a closed ring with corners opposite each other. */
  private static double[] middle(List<double[]> ring) {
    double[] sum = new double[2];
    for (double[] c : ring.subList(1, ring.size())) {
      sum[0] += c[0] / (ring.size() - 1);
      sum[1] += c[1] / (ring.size() - 1);
    }
    return sum;
  }

  @Test
  void onAPolarMapTheAxisTurnsWithTheMeridian() throws Exception {
    Path job = SmallJob.write(dir.resolve("job.yaml"), "polar", 5, SITES.formatted("30"));
    Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    Path run = dir.resolve("out/polar");
    double[][] places = {{72150, 93950}, {72200, 94000}};
    String[] names = {"hearth", "corner"};
    for (int k = 0; k < 2; k++) {
      Drawn e = drawn(run.resolve("sites/ellipses.gpkg"), names[k]);
      // Polar stereographic, south: the longitude is the azimuth of the ray from the pole.
      double lonDeg = Math.toDegrees(Math.atan2(places[k][0], places[k][1]));
      assertEquals(30, e.trueDeg());
      assertEquals(30 + lonDeg, e.gridDeg(), 1e-6);
      // The map is drawn true to scale about the middle of the ground, 1.0012 times smaller.
      double[] at = middle(e.ring());
      assertEquals(0, Math.hypot(at[0] - places[k][0], at[1] - places[k][1]), 150 * 0.0012);
      double[] far = farthest(e.ring(), at[0], at[1]);
      assertEquals(60, Math.hypot(far[0] - at[0], far[1] - at[1]), 1e-6);
      double deg = Math.toDegrees(Math.atan2(far[0] - at[0], far[1] - at[1]));
      assertEquals(0, Math.IEEEremainder(deg - 30 - lonDeg, 180), 1e-6);
      slopesAreThoseInside(run, e);
    }
    assertFalse(Files.exists(run.resolve("sites/ellipses.geojson")), "not on Earth");
    assertTrue(Files.readString(run.resolve("stac/sites.json")).contains("ellipses.gpkg"));
    String report = Files.readString(run.resolve("index.html"));
    assertTrue(report.contains("long axis 30 deg clockwise from true north."));
    assertTrue(report.contains("landing ellipse, 99 %"));

    // Another azimuth is another comparison; the rest is not computed again.
    String before = Flow.sha256(run.resolve("sites/ranking.csv"));
    Flow.Outcome again =
        Flow.scarpway(
                "run", job, "--out", dir.resolve("out"), "--set", "sites.ellipse_azimuth_deg=120")
            .ok();
    assertNotEquals(before, Flow.sha256(run.resolve("sites/ranking.csv")), again.err());
    assertEquals(120, drawn(run.resolve("sites/ellipses.gpkg"), "hearth").trueDeg());
  }

  /** At the edge of its zone a transverse map leads 3 degrees past north; geodesics tell. */
  @Test
  void onEarthTheAxisLiesAlongTheGeodesic() throws Exception {
    Path job = plainJob("utm", 32633, 300_000, 8_000_000, "body: earth\n", "40");
    Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    Path run = dir.resolve("out/utm");
    JsonNode file = new ObjectMapper().readTree(run.resolve("sites/ellipses.geojson").toFile());
    assertEquals(2, file.get("features").size());
    for (JsonNode f : file.get("features")) {
      Drawn e = drawn(run.resolve("sites/ellipses.gpkg"), f.get("properties").get("name").asText());
      assertEquals(40, f.get("properties").get("azimuth_true_deg").asDouble());
      assertTrue(Math.abs(e.gridDeg() - 40) > 4, "the convergence is more than 4 degrees here");
      JsonNode ring = f.get("geometry").get("coordinates").get(0);
      ring = ring.get(0).get(0).isNumber() ? ring : ring.get(0);
      GeodesicData longest = null;
      for (int i = 0; i < 180; i++) {
        GeodesicData across =
            Geodesic.WGS84.Inverse(
                ring.get(i).get(1).asDouble(),
                ring.get(i).get(0).asDouble(),
                ring.get(i + 180).get(1).asDouble(),
                ring.get(i + 180).get(0).asDouble());
        longest = longest == null || across.s12 > longest.s12 ? across : longest;
      }
      assertEquals(0, Math.IEEEremainder(longest.azi1 - 40, 180), 0.1);
      assertEquals(120, longest.s12, 0.2);
      slopesAreThoseInside(run, e);
    }
  }

  @Test
  void onAPlaneTheRunSaysThatGridNorthCounts() throws Exception {
    Path job = plainJob("plane", 0, 1000, 2000, "body: moon\n", "40");
    Flow.Outcome run = Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    String note =
        "the azimuth of the landing ellipse counts from grid north at hearth, corner: the map"
            + " tells no true north there";
    assertTrue(run.out().contains(note), run.out());
    Drawn e = drawn(dir.resolve("out/plane/sites/ellipses.gpkg"), "hearth");
    assertTrue(Double.isNaN(e.trueDeg()));
    assertEquals(40, e.gridDeg());
    String report = Files.readString(dir.resolve("out/plane/index.html"));
    assertTrue(report.contains(note));
    assertTrue(report.contains("long axis 40 deg clockwise from grid north."));
  }

  /** Waves of 60 x 60 cells of 4 m on a map of that EPSG code, or on a plane for 0. */
  private Path plainJob(
      String name, int epsg, double west, double north, String body, String azimuth)
      throws Exception {
    RasterIos.gdal();
    int n = 60;
    Dataset d =
        gdal.GetDriverByName("GTiff")
            .Create(dir.resolve(name + ".tif").toString(), n, n, 1, gdalconstConstants.GDT_Float32);
    try {
      d.SetGeoTransform(new double[] {west, 4, 0, north, 0, -4});
      if (epsg != 0) {
        SpatialReference s = new SpatialReference();
        s.ImportFromEPSG(epsg);
        d.SetSpatialRef(s);
      }
      double[] heights = new double[n * n];
      for (int i = 0; i < heights.length; i++) {
        double row = Math.floorDiv(i, n);
        heights[i] = 100 + Math.sin(0.21 * (i % n)) + 1.3 * Math.sin(0.13 * row + 0.05 * (i % n));
      }
      d.GetRasterBand(1).WriteRaster(0, 0, n, n, heights);
    } finally {
      d.delete();
    }
    return Files.writeString(
        dir.resolve(name + ".yaml"),
        """
        scarpway: 1
        job: %s
        %sdem: {source: %s.tif%s}
        vehicles: [%s]
        bases: {hearth: [%s, %s], corner: [%s, %s]}
        %s
        """
            .formatted(
                name,
                body,
                name,
                epsg == 0 ? ", units: metres" : "",
                Flow.ROOT.resolve("configs/vehicles/open-buggy.yaml"),
                west + 110,
                north - 120,
                west + 150,
                north - 90,
                SITES.formatted(azimuth)));
  }
}
