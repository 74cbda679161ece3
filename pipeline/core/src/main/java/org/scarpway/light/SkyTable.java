package org.scarpway.light;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * Sun and Earth from a table that the mission brings, straight between its rows, none of which may
 * be further apart than {@link #LONGEST_STEP}: then a direction bends by less than 0.003 degrees.
 */
public final class SkyTable implements Sky {
  /** Longest time between two rows. */
  public static final Duration LONGEST_STEP = Duration.ofHours(6);

  private final List<Row> rows;

  /** A row: a time (UTC) and where sun and Earth stand over the body then. */
  public record Row(Instant utc, SkyPosition position) {}

  /**
   * @param rows in the order of time
   * @throws IllegalArgumentException if there are fewer than two, if they are not in order, or
   *     further apart than {@link #LONGEST_STEP}
   */
  public SkyTable(List<Row> rows) {
    if (rows.size() < 2) {
      throw new IllegalArgumentException("a table of the sky needs two rows, got " + rows.size());
    }
    for (int i = 1; i < rows.size(); i++) {
      Duration step = Duration.between(rows.get(i - 1).utc, rows.get(i).utc);
      if (step.isNegative() || step.isZero() || step.compareTo(LONGEST_STEP) > 0) {
        throw new IllegalArgumentException("rows must follow within 6 h: " + rows.get(i).utc);
      }
    }
    this.rows = new ArrayList<>(rows);
  }

  /** Time of the first row. */
  public Instant first() {
    return rows.get(0).utc;
  }

  /** Time of the last row. */
  public Instant last() {
    return rows.get(rows.size() - 1).utc;
  }

  @Override
  public SkyPosition at(Instant utc) {
    if (utc.isBefore(first()) || utc.isAfter(last())) {
      throw new IllegalArgumentException("no row of the table at " + utc);
    }
    int low = 0;
    int high = rows.size() - 1;
    while (high - low > 1) {
      int middle = (low + high) >>> 1;
      if (rows.get(middle).utc.isAfter(utc)) {
        high = middle;
      } else {
        low = middle;
      }
    }
    Row a = rows.get(low);
    Row b = rows.get(high);
    double f =
        (double) Duration.between(a.utc, utc).toMillis()
            / (double) Duration.between(a.utc, b.utc).toMillis();
    SkyPosition p = a.position;
    SkyPosition q = b.position;
    return new SkyPosition(
        turned(p.sunLonDeg(), q.sunLonDeg(), f),
        between(p.sunLatDeg(), q.sunLatDeg(), f),
        between(p.sunKm(), q.sunKm(), f),
        turned(p.earthLonDeg(), q.earthLonDeg(), f),
        between(p.earthLatDeg(), q.earthLatDeg(), f),
        between(p.earthKm(), q.earthKm(), f));
  }

  private static double between(double a, double b, double f) {
    return a + f * (b - a);
  }

  /** Between two longitudes the shorter way, which six hours stay below on every body. */
  private static double turned(double a, double b, double f) {
    double apart = b - a;
    double lon = a + f * (apart - 360 * Math.rint(apart / 360));
    return lon - 360 * Math.rint(lon / 360);
  }
}
