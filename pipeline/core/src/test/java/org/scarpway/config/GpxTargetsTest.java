package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.config.Job.TargetRow;
import org.scarpway.geodata.vector.Gpx;
import org.scarpway.stage.UserError;

/** Waypoints of GPX texts as targets; what the format asks of a text is from memory. */
class GpxTargetsTest {
  @TempDir Path dir;

  private Path text(String gpx) throws Exception {
    return Files.writeString(dir.resolve("places.gpx"), gpx);
  }

  @Test
  void whatIsWrittenIsRead() {
    Random random = new Random(44);
    for (int n = 0; n < 20; n++) {
      List<Gpx.Waypoint> places = new ArrayList<>();
      for (int i = 0; i < 1 + random.nextInt(30); i++) {
        double lon = -180 + 360 * random.nextDouble();
        double lat = -90 + 180 * random.nextDouble();
        places.add(new Gpx.Waypoint(lon, lat, "Stop " + i, "<&> " + i));
      }
      Path file = dir.resolve(n + ".gpx");
      Gpx.write(file, "a & b", "", places, List.of(new Gpx.Route("r", "", places)), List.of());
      List<TargetRow> rows = TargetsReader.read(file);
      assertEquals(places.size(), rows.size());
      for (int i = 0; i < rows.size(); i++) {
        assertEquals(places.get(i).name(), rows.get(i).place().name());
        assertEquals(places.get(i).lonDeg(), rows.get(i).place().x(), 1e-8);
        assertEquals(places.get(i).latDeg(), rows.get(i).place().y(), 1e-8);
        assertTrue(rows.get(i).place().lonLat());
        assertEquals(1, rows.get(i).weight());
      }
    }
  }

  /** Of other programs: no namespace, nested elements, routes and tracks beside waypoints. */
  @Test
  void onlyWaypointsCount() throws Exception {
    List<TargetRow> rows =
        TargetsReader.read(
            text(
                """
                <gpx version="1.0"><wpt lon=" 7.5 " lat="47"><ele>12</ele>
                <extensions><name>no</name></extensions><name> Hut </name></wpt>
                <rte><rtept lat="1" lon="2"><name>r</name></rtept></rte>
                <trk><trkseg><trkpt lat="1" lon="2"/></trkseg></trk></gpx>
                """));
    assertEquals(1, rows.size());
    assertEquals("Hut", rows.get(0).place().name());
    assertEquals(7.5, rows.get(0).place().x());
  }

  /** The format leaves a waypoint's name free; without one it has its number among waypoints. */
  @Test
  void waypointsWithoutANameHaveTheirNumber() throws Exception {
    String gpx =
        "<gpx><wpt lat=\"1\" lon=\"2\"/><wpt lat=\"1\" lon=\"3\"><name>b</name></wpt>"
            + "<wpt lat=\"1\" lon=\"4\"><name> </name></wpt></gpx>";
    List<String> names = TargetsReader.read(text(gpx)).stream().map(t -> t.place().name()).toList();
    assertEquals(List.of("waypoint-1", "b", "waypoint-3"), names);
  }

  @Test
  void whatIsNoPlaceIsRefusedInALine() throws Exception {
    String point = "<wpt lat=\"1\" lon=\"2\"><name>a</name></wpt>";
    for (String inside :
        List.of(
            "",
            point + point,
            "<wpt lat=\"91\" lon=\"2\"><name>a</name></wpt>",
            "<wpt lat=\"1e3\" lon=\"2\"><name>a</name></wpt>",
            "<wpt lon=\"2\"><name>a</name></wpt>",
            "<wpt lat=\"1\" lon=\"2\"><name>a/b</name></wpt>",
            "<wpt lat=\"1\" lon=\"2\"><name>a<b/></name></wpt>",
            "<wpt lat=\"1\"")) {
      refused(text("<gpx>" + inside + "</gpx>"), inside);
    }
    refused(text("<html>" + point + "</html>"), "no gpx");
    // Entities are not expanded: neither of the file system nor without bound.
    refused(
        text(
            "<!DOCTYPE gpx [<!ENTITY e SYSTEM \"file:///etc/hostname\">]><gpx>"
                + "<wpt lat=\"1\" lon=\"2\"><name>&e;</name></wpt></gpx>"),
        "entity");
    StringBuilder bomb = new StringBuilder("<!DOCTYPE gpx [<!ENTITY a0 \"aaaaaaaaaa\">");
    for (int i = 1; i < 12; i++) {
      bomb.append("<!ENTITY a").append(i).append(" \"");
      bomb.append(("&a" + (i - 1) + ";").repeat(10)).append("\">");
    }
    refused(text(bomb + "]><gpx><wpt lat=\"1\" lon=\"2\"><name>&a11;</name></wpt></gpx>"), "bomb");
  }

  private static void refused(Path file, String what) {
    UserError e = assertThrows(UserError.class, () -> TargetsReader.read(file), what);
    assertTrue(e.getMessage().contains("places.gpx"), e.getMessage());
    assertTrue(!e.getMessage().contains("Exception"), e.getMessage());
  }

  @Test
  void aFaultIsFoundInATextOfOneLine() throws Exception {
    StringBuilder gpx = new StringBuilder("<gpx>");
    for (int i = 0; i < 100; i++) {
      gpx.append("<wpt lat=\"1\" lon=\"2\"><name>p").append(i).append("</name></wpt>");
    }
    String bad = "<wpt lat=\"1\" lon=\"2\">";
    int column = gpx.length() + bad.length() + 1;
    Path file = text(gpx + bad + "<name>a/b</name></wpt></gpx>");
    UserError e = assertThrows(UserError.class, () -> TargetsReader.read(file));
    assertTrue(e.getMessage().contains(":1:" + column + ":"), e.getMessage() + " not " + column);
  }
}
