package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.gdal.gdal.Dataset;
import org.gdal.gdal.gdal;
import org.gdal.gdalconst.gdalconst;
import org.gdal.osr.CoordinateTransformation;
import org.gdal.osr.SpatialReference;
import org.gdal.osr.osr;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/**
 * GPX in and out on level ground in UTM zone 33 on Earth. Positions are held against PROJ; the
 * order of elements is that of the schema of GPX 1.1, from memory.
 */
class GpxFlowTest {
  private static final int SIDE = 60;
  private static final double WEST_M = 500_000;
  private static final double NORTH_M = 5_000_600;

  @TempDir Path dir;

  private Path job(String body) throws Exception {
    gdal.AllRegister();
    SpatialReference utm = new SpatialReference();
    utm.ImportFromEPSG(32633);
    Dataset raster =
        gdal.GetDriverByName("GTiff")
            .Create(dir.resolve("g.tif").toString(), SIDE, SIDE, 1, gdalconst.GDT_Float32);
    raster.SetGeoTransform(new double[] {WEST_M, 10, 0, NORTH_M, 0, -10});
    raster.SetProjection(utm.ExportToWkt());
    float[] level = new float[SIDE * SIDE];
    Arrays.fill(level, 100);
    raster.GetRasterBand(1).WriteRaster(0, 0, SIDE, SIDE, level);
    raster.delete();
    double[] hut = lonLat(WEST_M + 405, NORTH_M - 305);
    Files.writeString(
        dir.resolve("places.gpx"),
        "<gpx version=\"1.1\" xmlns=\"http://www.topografix.com/GPX/1/1\"><wpt lat=\""
            + hut[1]
            + "\" lon=\""
            + hut[0]
            + "\"><name>hut</name></wpt></gpx>");
    Files.writeString(
        dir.resolve("cart.yaml"),
        """
        scarpway: 1
        vehicle: cart
        body: {length_m: 4.0, width_m: 3.0, clearance_m: 0.35}
        limits: {climb_deg: 25, descend_deg: 25, side_deg: 20, step_m: 0.35}
        drive: {speed_ms: 2}
        """);
    return Files.writeString(
        dir.resolve("job.yaml"),
        """
        scarpway: 1
        job: track
        body: %s
        dem: {source: g.tif}
        vehicles: [cart.yaml]
        bases: {camp: [500105, 5000305]}
        targets: places.gpx
        reach: [{name: day, from: camp, budget: {drive_h: 1}, home: drive-back}]
        corridors: [{name: out, via: [camp, hut], departs: "08:00"}]
        """
            .formatted(body));
  }

  /** Longitude and latitude by PROJ. */
  private static double[] lonLat(double xM, double yM) {
    SpatialReference utm = new SpatialReference();
    utm.ImportFromEPSG(32633);
    SpatialReference world = new SpatialReference();
    world.ImportFromEPSG(4326);
    world.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER);
    utm.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER);
    return new CoordinateTransformation(utm, world).TransformPoint(xM, yM);
  }

  @Test
  void routesAndPlacesGoOutAndWaypointsComeIn() throws Exception {
    Flow.scarpway("run", job("earth"), "--out", dir.resolve("out"), "--quiet").ok();
    Path sheet = dir.resolve("out/track/sheet/out");
    // On Earth grades and ground have the classes of field tests too.
    Path job = dir.resolve("out/track");
    assertTrue(Files.readString(job.resolve("corridor/out/route.csv")).contains("grade_class"));
    assertTrue(Files.readString(job.resolve("terrain/slope_classes.csv")).contains("unrestricted"));
    assertTrue(Files.readString(job.resolve("index.html")).contains("obstruction"));
    Element gpx = gpx(sheet.resolve("route.gpx"));
    assertEquals("1.1", gpx.getAttribute("version"));
    List<Element> parts = children(gpx);
    assertEquals(
        List.of("metadata", "wpt", "wpt", "rte", "trk", "trk"),
        parts.stream().map(Element::getLocalName).toList());
    assertEquals("camp", text(parts.get(1), "name"));
    assertEquals("hut", text(parts.get(2), "name"));
    List<Element> points =
        children(parts.get(3)).stream().filter(e -> e.getLocalName().equals("rtept")).toList();
    List<Table.Row> rows = Table.read(sheet.resolve("waypoints.csv")).rows();
    assertEquals(rows.size(), points.size());
    for (int i = 0; i < rows.size(); i++) {
      Table.Row row = rows.get(i);
      double[] at = lonLat(row.number("x_m"), row.number("y_m"));
      // A hundred-millionth of a degree is a millimetre; tables have centimetres.
      assertEquals(at[0], Double.parseDouble(points.get(i).getAttribute("lon")), 2e-7);
      assertEquals(at[1], Double.parseDouble(points.get(i).getAttribute("lat")), 2e-7);
      assertEquals(at[0], row.number("lon_deg"), 2e-7, row.where());
      assertEquals(at[1], row.number("lat_deg"), 2e-7, row.where());
      // Nobody turns back at the base.
      boolean told = text(points.get(i), "desc").contains("turn back by 08:");
      assertEquals(i > 0, told, "deadline");
    }
    // One number for one drive: that of the sheet's first sentence stands in the report.
    String html = Files.readString(sheet.resolve("sheet.html"));
    Matcher drive = Pattern.compile("in 1 leg: ([^,]+), ([^,]+) with stays").matcher(html);
    assertTrue(drive.find(), "the whole drive");
    assertTrue(Files.readString(job.resolve("index.html")).contains(drive.group(2)), "its time");
    // A receiver takes the coordinates of every waypoint from paper.
    for (Table.Row row : rows) {
      assertTrue(
          html.contains(String.format(Locale.ROOT, "%.5f° N", row.number("lat_deg"))), row.where());
      assertTrue(
          html.contains(String.format(Locale.ROOT, ">%.0f<", row.number("x_m"))), row.where());
    }
    // The drive home ends at the base.
    List<Element> home = children(children(parts.get(5)).get(2));
    double[] camp = lonLat(WEST_M + 105, NORTH_M - 295);
    Element end = home.get(home.size() - 1);
    assertEquals(camp[0], Double.parseDouble(end.getAttribute("lon")), 1e-6);
    assertEquals(camp[1], Double.parseDouble(end.getAttribute("lat")), 1e-6);
    // The track is the line as driven, every vertex of it.
    List<Element> track = children(children(parts.get(4)).get(2));
    List<Table.Row> line = Table.read(job.resolve("corridor/out/profile.csv")).rows();
    assertEquals(line.size(), track.size());
    for (int i = 0; i < line.size(); i++) {
      double[] at = lonLat(line.get(i).number("x_m"), line.get(i).number("y_m"));
      assertEquals("trkpt", track.get(i).getLocalName());
      assertEquals(at[0], Double.parseDouble(track.get(i).getAttribute("lon")), 2e-7);
      assertEquals(at[1], Double.parseDouble(track.get(i).getAttribute("lat")), 2e-7);
    }
    Table.Row last = rows.get(rows.size() - 1);
    assertEquals("hut", last.text("name"));
    assertEquals(WEST_M + 405, last.number("x_m"), 0.01);
    assertEquals(NORTH_M - 305, last.number("y_m"), 0.01);
  }

  private static Element gpx(Path file) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
    factory.setNamespaceAware(true);
    Element gpx = factory.newDocumentBuilder().parse(file.toFile()).getDocumentElement();
    assertEquals("http://www.topografix.com/GPX/1/1", gpx.getNamespaceURI());
    return gpx;
  }

  private static List<Element> children(Element of) {
    List<Element> all = new ArrayList<>();
    for (Node n = of.getFirstChild(); n != null; n = n.getNextSibling()) {
      if (n instanceof Element e) {
        all.add(e);
      }
    }
    return all;
  }

  private static String text(Element of, String child) {
    return children(of).stream()
        .filter(e -> e.getLocalName().equals(child))
        .findFirst()
        .orElseThrow()
        .getTextContent();
  }

  @Test
  void onAnotherBodyGpxIsRefused() throws Exception {
    Path job = job("{radius_m: 6371000, gravity_ms2: 1}");
    Flow.Outcome o = Flow.scarpway("check", job);
    assertEquals(2, o.code());
    assertTrue(o.err().contains("places.gpx"), o.err());
  }
}
