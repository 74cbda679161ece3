package org.scarpway.geodata.vector;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.scarpway.geodata.file.AtomicFileWrite;

/**
 * Writes waypoints, routes and tracks as GPX 1.1 (Topografix 2004), whose longitudes and latitudes
 * are WGS 84 and thus of Earth alone.
 */
public final class Gpx {
  private static final String HEAD =
      """
      <?xml version="1.0" encoding="UTF-8"?>
      <gpx version="1.1" creator="Scarpway" xmlns="http://www.topografix.com/GPX/1/1" \
      xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" \
      xsi:schemaLocation="http://www.topografix.com/GPX/1/1 \
      http://www.topografix.com/GPX/1/1/gpx.xsd">
      """;

  /**
   * A place.
   *
   * @param lonDeg longitude, WGS 84 (deg)
   * @param latDeg latitude, WGS 84 (deg)
   * @param name its name, may be empty
   * @param description words on it, may be empty
   */
  public record Waypoint(double lonDeg, double latDeg, String name, String description) {}

  /**
   * A route.
   *
   * @param name its name
   * @param description words on it, may be empty
   * @param points in the order of travel
   */
  public record Route(String name, String description, List<Waypoint> points) {
    /** Copies the list. */
    public Route {
      points = List.copyOf(points);
    }
  }

  /**
   * A line that is followed point by point.
   *
   * @param name its name
   * @param description words on it, may be empty
   * @param lonLatDeg longitude and latitude of each point, WGS 84 (deg)
   */
  public record Track(String name, String description, List<double[]> lonLatDeg) {
    /** Copies the list. */
    public Track {
      lonLatDeg = List.copyOf(lonLatDeg);
    }
  }

  private Gpx() {}

  /**
   * Writes a file completely or not at all.
   *
   * @throws org.scarpway.stage.StageFailure if it cannot be written
   */
  public static void write(
      Path file,
      String name,
      String description,
      List<Waypoint> places,
      List<Route> routes,
      List<Track> tracks) {
    AtomicFileWrite.write(
        file,
        part -> {
          try (BufferedWriter to = Files.newBufferedWriter(part)) {
            to.write(HEAD);
            to.write("<metadata>" + words(name, description) + "</metadata>\n");
            for (Waypoint w : places) {
              point(to, "wpt", w);
            }
            int number = 1;
            for (Route r : routes) {
              to.write("<rte>" + words(r.name, r.description));
              to.write("<number>" + number++ + "</number>\n");
              for (Waypoint w : r.points) {
                point(to, "rtept", w);
              }
              to.write("</rte>\n");
            }
            for (Track t : tracks) {
              track(to, t);
            }
            to.write("</gpx>\n");
          }
        });
  }

  private static void track(Writer to, Track t) throws IOException {
    to.write("<trk>" + words(t.name, t.description) + "<trkseg>\n");
    for (double[] p : t.lonLatDeg) {
      point(to, "trkpt", new Waypoint(p[0], p[1], "", ""));
    }
    to.write("</trkseg></trk>\n");
  }

  private static void point(Writer to, String element, Waypoint w) throws IOException {
    // Eight decimals of a degree are about a millimetre.
    to.write(
        String.format(
            Locale.ROOT, "<%s lat=\"%.8f\" lon=\"%.8f\">", element, w.latDeg, within180(w.lonDeg)));
    to.write(words(w.name, w.description) + "</" + element + ">\n");
  }

  /** The schema has longitudes from -180 to below 180. */
  private static double within180(double lonDeg) {
    double lon = lonDeg >= 180 ? lonDeg - 360 : lonDeg;
    return lon < -180 ? lon + 360 : lon;
  }

  private static String words(String name, String description) {
    return (name.isEmpty() ? "" : "<name>" + escaped(name) + "</name>")
        + (description.isEmpty() ? "" : "<desc>" + escaped(description) + "</desc>");
  }

  private static String escaped(String s) {
    return s.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
