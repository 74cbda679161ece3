package org.scarpway.light;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.TreeSet;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.grid.GridSpec;

/**
 * Where sun or Earth stand over an area of ground at many times: elevations and map azimuths at the
 * nodes of a lattice, between which they are straight, and the size of the disk.
 */
public final class SkyTrack {
  /** Widest spacing of the lattice (m): on the Moon directions bend by 0.0001 degrees between. */
  private static final double NODE_M = 5000;

  private final GridSpec spec;
  private final double[] hours;
  private final int nodeRows;
  private final int nodeCols;
  private final float[][] elevationDeg;
  private final float[][] azimuthDeg;
  private final float[] radiusDeg;
  private final float[] hidden;

  private SkyTrack(GridSpec spec, double[] hours, int nodeRows, int nodeCols) {
    this.spec = spec;
    this.hours = hours;
    this.nodeRows = nodeRows;
    this.nodeCols = nodeCols;
    this.elevationDeg = new float[hours.length][nodeRows * nodeCols];
    this.azimuthDeg = new float[hours.length][nodeRows * nodeCols];
    this.radiusDeg = new float[hours.length];
    this.hidden = new float[hours.length];
  }

  /** The times of a window: every step from its beginning, its end, and further times within. */
  public static List<Instant> times(Instant from, Instant to, Duration step, List<Instant> also) {
    TreeSet<Instant> all = new TreeSet<>(also);
    for (Instant t = from; t.isBefore(to); t = t.plus(step)) {
      all.add(t);
    }
    all.add(to);
    return List.copyOf(all);
  }

  /**
   * The sun, less what the Earth hides of it from the Moon.
   *
   * @param map longitudes and latitudes of the map
   * @param radiusM distance of the ground from the body's centre
   * @return null where the map gives no longitudes and latitudes
   */
  public static SkyTrack sun(
      Sky sky, List<Instant> times, GridSpec spec, LonLat map, double radiusM) {
    return of(sky, times, spec, map, radiusM, true);
  }

  /** The Earth's centre, like {@link #sun}. */
  public static SkyTrack earth(
      Sky sky, List<Instant> times, GridSpec spec, LonLat map, double radiusM) {
    return of(sky, times, spec, map, radiusM, false);
  }

  private static SkyTrack of(
      Sky sky, List<Instant> times, GridSpec spec, LonLat map, double radiusM, boolean sun) {
    double[] hours = new double[times.size()];
    for (int t = 0; t < hours.length; t++) {
      hours[t] = (double) Duration.between(times.get(0), times.get(t)).toMillis() / 3.6e6;
    }
    int nodeRows = 2 + (int) ((spec.northM() - spec.southM()) / NODE_M);
    int nodeCols = 2 + (int) ((spec.eastM() - spec.westM()) / NODE_M);
    SkyTrack track = new SkyTrack(spec, hours, nodeRows, nodeCols);
    PlaceAxes[] axes = new PlaceAxes[nodeRows * nodeCols];
    for (int i = 0; i < axes.length; i++) {
      int row = i / nodeCols;
      double x =
          spec.xM(0) + (double) (i % nodeCols) / (nodeCols - 1) * (spec.cols() - 1) * spec.cellXM();
      double y = spec.yM(0) - (double) row / (nodeRows - 1) * (spec.rows() - 1) * spec.cellYM();
      axes[i] = PlaceAxes.of(map, x, y, radiusM / 1000);
      if (axes[i] == null) {
        return null;
      }
    }
    PlaceAxes.Direction at = new PlaceAxes.Direction();
    PlaceAxes.Direction earth = new PlaceAxes.Direction();
    for (int t = 0; t < hours.length; t++) {
      SkyPosition p = sky.at(times.get(t));
      for (int i = 0; i < axes.length; i++) {
        if (sun) {
          axes[i].sun(p, at);
        } else {
          axes[i].earth(p, at);
        }
        track.elevationDeg[t][i] = (float) at.elevationDeg();
        // Azimuths go on from the first node's, so that none lies a turn away from its neighbour.
        double first = i == 0 ? at.azimuthDeg() : track.azimuthDeg[t][0];
        double apart = at.azimuthDeg() - first;
        track.azimuthDeg[t][i] = (float) (first + apart - 360 * Math.rint(apart / 360));
      }
      track.radiusDeg[t] = (float) (sun ? p.sunRadiusDeg() : p.earthRadiusDeg());
      if (sun && !Double.isNaN(p.earthKm())) {
        PlaceAxes middle = axes[axes.length / 2];
        middle.sun(p, at);
        middle.earth(p, earth);
        double apart = apartDeg(at, earth);
        track.hidden[t] = (float) DiskShare.hidden(p.sunRadiusDeg(), p.earthRadiusDeg(), apart);
      }
    }
    return track;
  }

  static double apartDeg(PlaceAxes.Direction a, PlaceAxes.Direction b) {
    double[] u = unit(a);
    double[] v = unit(b);
    double[] d = Vectors.minus(u, v);
    return StrictMath.toDegrees(2 * StrictMath.asin(Math.min(1, Vectors.length(d) / 2)));
  }

  private static double[] unit(PlaceAxes.Direction d) {
    return Vectors.polar(
        StrictMath.toRadians(d.azimuthDeg()), StrictMath.toRadians(d.elevationDeg()), 1);
  }

  /** Times, hours since the first one. */
  public double[] hours() {
    return hours.clone();
  }

  /** Number of times. */
  int times() {
    return hours.length;
  }

  /** Hours since the first time. */
  double hour(int time) {
    return hours[time];
  }

  /** Half the angle across the disk (degrees). */
  float radiusDeg(int time) {
    return radiusDeg[time];
  }

  /** Share of the sun's disk that the Earth hides. */
  float hidden(int time) {
    return hidden[time];
  }

  /**
   * Elevations and azimuths over a row of cells, degrees; azimuths may lie outside [0, 360).
   *
   * @param elevation receives one for each column
   * @param azimuth receives one for each column
   */
  void row(int time, int row, float[] elevation, float[] azimuth) {
    double atRow = spec.rows() == 1 ? 0 : (double) row / (spec.rows() - 1) * (nodeRows - 1);
    int r = Math.min(nodeRows - 2, (int) atRow);
    float fr = (float) (atRow - r);
    for (int col = 0; col < spec.cols(); col++) {
      double atCol = spec.cols() == 1 ? 0 : (double) col / (spec.cols() - 1) * (nodeCols - 1);
      int c = Math.min(nodeCols - 2, (int) atCol);
      float fc = (float) (atCol - c);
      int i = r * nodeCols + c;
      elevation[col] = between(elevationDeg[time], i, fr, fc);
      azimuth[col] = between(azimuthDeg[time], i, fr, fc);
    }
  }

  private float between(float[] v, int i, float fr, float fc) {
    float upper = v[i] + (v[i + 1] - v[i]) * fc;
    float lower = v[i + nodeCols] + (v[i + nodeCols + 1] - v[i + nodeCols]) * fc;
    return upper + (lower - upper) * fr;
  }
}
