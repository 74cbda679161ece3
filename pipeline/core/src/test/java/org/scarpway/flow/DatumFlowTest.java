package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconstConstants;
import org.gdal.osr.CoordinateTransformation;
import org.gdal.osr.CoordinateTransformationOptions;
import org.gdal.osr.SpatialReference;
import org.gdal.osr.osr;
import org.gdal.osr.osrConstants;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.geodata.raster.RasterIos;

/** A whole job on degrees of an old datum: everything lies where PROJ (through GDAL) puts it. */
class DatumFlowTest {
  private static final double CELL_DEG = 0.0002;

  @TempDir Path dir;

  @Test
  void placesKeepOutAndGeoJsonAgreeWithProj() throws IOException {
    raster(dir.resolve("nad27.tif"));
    Files.writeString(
        dir.resolve("closed.geojson"),
        """
        {"type": "Polygon", "coordinates": [[[-113.192, 37.188], [-113.188, 37.188],
          [-113.188, 37.192], [-113.192, 37.192], [-113.192, 37.188]]]}
        """);
    Path job =
        Files.writeString(
            dir.resolve("job.yaml"),
            """
            scarpway: 1
            job: old-datum
            body: earth
            dem: {source: nad27.tif}
            hazard: {keep_out: [closed.geojson], margin_m: 0}
            vehicles: [%s]
            bases: {camp: [-113.195, 37.195]}
            """
                .formatted(Flow.ROOT.resolve("configs/vehicles/field-truck.yaml")));
    Flow.Outcome run = Flow.scarpway("run", job, "--out", dir.resolve("out"), "--quiet").ok();
    assertTrue(run.out().contains("carried over by EPSG transformation"), run.out());

    double[] want = toWorld(-113.195, 37.195);
    String told = Flow.scarpway("explain", job, "-113.195", "37.195").ok().out();
    String here = told.substring(told.indexOf("longitude"), told.indexOf("deg, latitude"));
    // The middle of the cell that holds the place.
    assertEquals(want[0], Double.parseDouble(here.split(" ")[1]), CELL_DEG);

    JsonNode file =
        new ObjectMapper()
            .readTree(dir.resolve("out/old-datum/mobility/field-truck/no_go.geojson").toFile());
    assertEquals(7, file.get("scarpway:position_accuracy_m").asDouble());
    double[] box = {180, 90, -180, -90};
    for (JsonNode f : file.get("features")) {
      // The rim of the map is there too, without a verdict.
      if (f.get("properties").get("class").asText().equals("no-go")) {
        grow(box, f.get("geometry").get("coordinates"));
      }
    }
    // Only the closed ground is no-go: half the vehicle's width and a cell about it at most.
    double tolerance = 2 * CELL_DEG;
    assertEquals(-113.19, (box[0] + box[2]) / 2, tolerance / 2);
    assertEquals(37.19, (box[1] + box[3]) / 2, tolerance / 2);
    assertEquals(0.004, box[2] - box[0], 2 * tolerance);
  }

  private static void grow(double[] box, JsonNode c) {
    if (!c.get(0).isNumber()) {
      c.forEach(inner -> grow(box, inner));
      return;
    }
    box[0] = Math.min(box[0], c.get(0).asDouble());
    box[1] = Math.min(box[1], c.get(1).asDouble());
    box[2] = Math.max(box[2], c.get(0).asDouble());
    box[3] = Math.max(box[3], c.get(1).asDouble());
  }

  private static SpatialReference epsg(int code) {
    SpatialReference s = new SpatialReference();
    s.ImportFromEPSG(code);
    s.SetAxisMappingStrategy(osrConstants.OAMS_TRADITIONAL_GIS_ORDER);
    return s;
  }

  private static double[] toWorld(double lon, double lat) {
    CoordinateTransformationOptions o = new CoordinateTransformationOptions();
    o.SetAreaOfInterest(lon - 0.1, lat - 0.1, lon + 0.1, lat + 0.1);
    CoordinateTransformation t = osr.CreateCoordinateTransformation(epsg(4267), epsg(4326), o);
    return t.TransformPoint(lon, lat);
  }

  private static void raster(Path file) {
    RasterIos.gdal();
    int n = 120;
    Dataset d =
        gdal.GetDriverByName("GTiff")
            .Create(file.toString(), n, n, 1, gdalconstConstants.GDT_Float32);
    try {
      d.SetGeoTransform(new double[] {-113.202, CELL_DEG, 0, 37.202, 0, -CELL_DEG});
      d.SetSpatialRef(epsg(4267));
      double[] heights = new double[n * n];
      for (int i = 0; i < heights.length; i++) {
        heights[i] = 1000 + 0.02 * (i % n);
      }
      d.GetRasterBand(1).WriteRaster(0, 0, n, n, heights);
    } finally {
      d.delete();
    }
  }
}
