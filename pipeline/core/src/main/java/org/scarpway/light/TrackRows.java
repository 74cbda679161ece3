package org.scarpway.light;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.scarpway.grid.GridSpec;

/**
 * Light, or sight of the Earth, on rows of product cells over a window of time: what stands above
 * the horizon, and for how long.
 */
public final class TrackRows {
  private final GridSpec part;
  private final int given;
  private final double[] share;
  private final Spells spells;

  private TrackRows(GridSpec part, int given, double[] share, Spells spells) {
    this.part = part;
    this.given = given;
    this.share = share;
    this.spells = spells;
  }

  /**
   * What is asked of every cell.
   *
   * @param raisedDeg added to the horizon (degrees): a margin
   * @param threshold what must stand above it: of the sun a share of the disk, 0 for any; of the
   *     Earth, NaN for its centre
   * @param givenH times (hours since the first one) from which changes are counted
   */
  public record Question(double raisedDeg, double threshold, List<Double> givenH) {
    /** Copies the times. */
    public Question {
      givenH = List.copyOf(givenH);
    }

    /** Hours since the first of the times. */
    public static List<Double> hours(List<Instant> times, List<Instant> given) {
      return given.stream()
          .map(t -> (double) Duration.between(times.get(0), t).toMillis() / 3.6e6)
          .toList();
    }
  }

  /** Follows sun or Earth over some rows. */
  public static TrackRows of(
      Horizons horizons, SkyTrack track, Question question, int firstRow, int rows) {
    GridSpec spec = horizons.spec();
    int cols = spec.cols();
    int n = rows * cols;
    int azimuths = horizons.azimuths();
    boolean disk = !Double.isNaN(question.threshold);
    float radii = disk ? (float) DiskShare.radii(question.threshold) : 0;
    double endH = track.hour(track.times() - 1);
    Spells spells = new Spells(n, endH, question.givenH);
    double[] sum = new double[n];
    float[] values = new float[n];
    float[] elevation = new float[cols];
    float[] azimuth = new float[cols];
    float perDeg = azimuths / 360f;
    for (int t = 0; t < track.times(); t++) {
      double weight =
          ((t == 0 ? 0 : track.hour(t) - track.hour(t - 1))
                  + (t + 1 == track.times() ? 0 : track.hour(t + 1) - track.hour(t)))
              / (2 * endH);
      float perRadius = disk ? 1 / track.radiusDeg(t) : 1;
      float seen = 1 - track.hidden(t);
      for (int row = 0; row < rows; row++) {
        track.row(t, firstRow + row, elevation, azimuth);
        for (int col = 0; col < cols; col++) {
          int cell = (firstRow + row) * cols + col;
          float at = azimuth[col] * perDeg;
          int whole = (int) Math.floor(at);
          float part = at - whole;
          int a = Math.floorMod(whole, azimuths);
          int b = a + 1 == azimuths ? 0 : a + 1;
          float horizon =
              horizons.elevationDeg(a, cell) * (1 - part) + horizons.elevationDeg(b, cell) * part;
          float u = (float) (elevation[col] - horizon - question.raisedDeg) * perRadius;
          float over = u - radii;
          if (disk) {
            float share = DiskShare.tabled(u) * seen;
            sum[row * cols + col] += weight * share;
            if (seen < 1 && share <= question.threshold) {
              over = Math.min(over, 0);
            }
          }
          values[row * cols + col] = over;
        }
      }
      spells.next(track.hour(t), values);
    }
    spells.finish();
    GridSpec part = spec.part(firstRow, 0, rows, cols);
    return new TrackRows(part, question.givenH.size(), sum, spells);
  }

  /** Georeference of the rows. */
  public GridSpec part() {
    return part;
  }

  /** Number of given times. */
  public int given() {
    return given;
  }

  /** Mean share (0 to 1) of the disk over the window. */
  public float meanShare(int cell) {
    return (float) share[cell];
  }

  /** Share (0 to 1) of the window above the threshold. */
  public float aboveShare(int cell) {
    return spells.aboveShare(cell);
  }

  /** Longest spell (h) not above the threshold. */
  public float longestH(int cell) {
    return spells.longestBelowH(cell);
  }

  /** True if that spell may last longer than the window shows. */
  public boolean longestIsAtLeast(int cell) {
    return spells.longestIsAtLeast(cell);
  }

  /** Hours from a given time to the next time above the threshold, 0 if it is above. */
  public float toAboveH(int given, int cell) {
    return spells.toAboveH(given, cell);
  }

  /** Hours from a given time above the threshold, 0 if it is not. */
  public float leftH(int given, int cell) {
    return spells.toBelowH(given, cell);
  }

  /** True if no such change lies in the window, so that the hours are at least as many. */
  public boolean isAtLeast(boolean toAbove, int given, int cell) {
    return spells.toIsAtLeast(toAbove, given, cell);
  }
}
