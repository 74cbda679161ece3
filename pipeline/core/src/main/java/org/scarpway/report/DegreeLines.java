package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.geodata.crs.LonLat;

/**
 * Meridians and parallels across a window of the map at round degrees, and where they meet its
 * edges. Longitude and latitude are taken on a lattice and, between its points, as linear.
 */
final class DegreeLines {
  private static final int LATTICE = 96;
  private static final int MOST = 6;

  /** Finest steps below a degree: minutes and seconds of arc are read in decimals. */
  private static final double LEAST_STEP = 1e-5;

  /** Lines in the coordinates of the grid (m), each x, y, x, y. */
  final List<double[]> lines = new ArrayList<>();

  final List<Mark> top = new ArrayList<>();
  final List<Mark> right = new ArrayList<>();

  /**
   * A line's name where it meets an edge.
   *
   * @param at position along the edge as a share of it, from the north-west or north-east corner
   */
  record Mark(double at, String text) {}

  private final double west;
  private final double north;
  private final double stepX;
  private final double stepY;
  private final double[] lon = new double[(LATTICE + 1) * (LATTICE + 1)];
  private final double[] lat = new double[lon.length];

  DegreeLines(LonLat lonLat, double westM, double southM, double eastM, double northM) {
    this.west = westM;
    this.north = northM;
    this.stepX = (eastM - westM) / LATTICE;
    this.stepY = (northM - southM) / LATTICE;
    if (!fill(lonLat)) {
      return;
    }
    draw(lon, true);
    draw(lat, false);
  }

  private boolean fill(LonLat lonLat) {
    for (int r = 0; r <= LATTICE; r++) {
      for (int c = 0; c <= LATTICE; c++) {
        double[] at = lonLat.at(west + c * stepX, north - r * stepY);
        if (at == null || !Double.isFinite(at[0]) || !Double.isFinite(at[1])) {
          return false;
        }
        int i = r * (LATTICE + 1) + c;
        // Beside its neighbour, so that nothing jumps at the antimeridian.
        double before = i == 0 ? at[0] : c > 0 ? lon[i - 1] : lon[i - LATTICE - 1];
        lon[i] = before + Math.IEEEremainder(at[0] - before, 360);
        lat[i] = at[1];
      }
    }
    return true;
  }

  private void draw(double[] of, boolean east) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (double v : of) {
      low = Math.min(low, v);
      high = Math.max(high, v);
    }
    if (high - low < LEAST_STEP) {
      return;
    }
    Ticks ticks = high - low > MOST * 10 ? thirties(low, high) : Ticks.between(low, high, MOST);
    for (double level : ticks.values()) {
      String text = text(level, ticks, east);
      for (int r = 0; r < LATTICE; r++) {
        for (int c = 0; c < LATTICE; c++) {
          int i = r * (LATTICE + 1) + c;
          double nw = of[i];
          double ne = of[i + 1];
          double sw = of[i + LATTICE + 1];
          double se = of[i + LATTICE + 2];
          // Two triangles, so that a line crosses each at most once.
          triangle(level, r, c, nw, r, c + 1, ne, r + 1, c, sw);
          triangle(level, r + 1, c + 1, se, r, c + 1, ne, r + 1, c, sw);
        }
      }
      for (int k = 0; k < LATTICE; k++) {
        mark(top, k, level - of[k], level - of[k + 1], text);
        int i = k * (LATTICE + 1) + LATTICE;
        mark(right, k, level - of[i], level - of[i + LATTICE + 1], text);
      }
    }
  }

  /** Round parts of a circle, for windows about a pole. */
  private static Ticks thirties(double low, double high) {
    List<Double> values = new ArrayList<>();
    for (double deg = 30 * Math.ceil(low / 30); deg <= high; deg += 30) {
      values.add(deg);
    }
    return new Ticks(30, values);
  }

  private static void mark(List<Mark> edge, int k, double before, double after, String text) {
    if (before >= 0 != after >= 0) {
      edge.add(new Mark((k + before / (before - after)) / LATTICE, text));
    }
  }

  /** Draws where the level crosses a triangle of lattice points. */
  private void triangle(
      double level, int ra, int ca, double a, int rb, int cb, double b, int rc, int cc, double c) {
    // Beside a pole longitude turns too far within a cell to be drawn.
    if (Math.max(a, Math.max(b, c)) - Math.min(a, Math.min(b, c)) > 45) {
      return;
    }
    double[] ends = new double[4];
    int n = cross(ends, 0, level, ra, ca, a, rb, cb, b);
    n = cross(ends, n, level, rb, cb, b, rc, cc, c);
    n = cross(ends, n, level, rc, cc, c, ra, ca, a);
    if (n == 4) {
      lines.add(ends);
    }
  }

  private int cross(
      double[] ends, int n, double level, int ra, int ca, double a, int rb, int cb, double b) {
    if (a >= level == b >= level || n == 4) {
      return n;
    }
    double t = (level - a) / (b - a);
    ends[n] = west + stepX * (ca + t * (cb - ca));
    ends[n + 1] = north - stepY * (ra + t * (rb - ra));
    return n + 2;
  }

  private static String text(double deg, Ticks ticks, boolean east) {
    double turned = east ? Math.IEEEremainder(deg, 360) : deg;
    String hemisphere = east ? turned < 0 ? "W" : "E" : turned < 0 ? "S" : "N";
    boolean none = Math.abs(turned) < ticks.step() / 2 || (east && Math.abs(turned) == 180);
    return ticks.text(Math.abs(turned)) + "°" + (none ? "" : hemisphere);
  }
}
