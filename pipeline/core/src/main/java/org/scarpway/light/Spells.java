package org.scarpway.light;

import java.util.Arrays;
import java.util.List;

/**
 * Spells above and below a threshold at many cells, followed through time: how long the longest
 * time below lasts, and how long from given times to the next change. Changes between two times lie
 * where the straight line between them crosses the threshold. A spell that begins before the first
 * time or lasts beyond the last one is known to last at least as long as was seen.
 */
final class Spells {
  private final double endH;
  private final double[] givenH;
  private final float[] before;
  private final float[] belowSinceH;
  private final float[] longestH;
  private final boolean[] anyCut;
  private final double[] above;
  private final float[][] nextBelowH;
  private final float[][] nextAboveH;
  private double hourBefore;
  private boolean begun;

  /**
   * @param cells number of cells
   * @param endH the last time (h)
   * @param givenH times (h) from which changes are counted, each one of the times followed
   */
  Spells(int cells, double endH, List<Double> givenH) {
    this.endH = endH;
    this.givenH = givenH.stream().mapToDouble(h -> h).toArray();
    before = new float[cells];
    belowSinceH = new float[cells];
    longestH = new float[cells];
    anyCut = new boolean[cells];
    above = new double[cells];
    nextBelowH = new float[givenH.size()][cells];
    nextAboveH = new float[givenH.size()][cells];
    for (int g = 0; g < nextBelowH.length; g++) {
      Arrays.fill(nextBelowH[g], Float.NaN);
      Arrays.fill(nextAboveH[g], Float.NaN);
    }
  }

  /** Goes on to a time (h) with values less the threshold, each above it where positive. */
  void next(double hour, float[] values) {
    for (int i = 0; i < values.length; i++) {
      float now = values[i];
      float was = before[i];
      if (begun) {
        float change = Float.NaN;
        if ((was > 0) != (now > 0)) {
          change = (float) (hourBefore + (hour - hourBefore) * (was / (was - now)));
        }
        if (!Double.isNaN(change)) {
          changed(i, change, now > 0);
        }
        double lit =
            now > 0
                ? hour - (!Double.isNaN(change) ? change : hourBefore)
                : !Double.isNaN(change) ? change - hourBefore : 0;
        above[i] += lit;
      } else if (now <= 0) {
        belowSinceH[i] = Float.NEGATIVE_INFINITY;
      }
      before[i] = now;
    }
    for (int g = 0; g < givenH.length; g++) {
      if (givenH[g] == hour) {
        for (int i = 0; i < values.length; i++) {
          (values[i] > 0 ? nextAboveH : nextBelowH)[g][i] = 0;
        }
      }
    }
    hourBefore = hour;
    begun = true;
  }

  private void changed(int i, float hour, boolean up) {
    if (up) {
      ends(i, hour, false);
    } else {
      belowSinceH[i] = hour;
    }
    for (int g = 0; g < givenH.length; g++) {
      float[] next = (up ? nextAboveH : nextBelowH)[g];
      if (hour > givenH[g] && Double.isNaN(next[i])) {
        next[i] = (float) (hour - givenH[g]);
      }
    }
  }

  private void ends(int i, double hour, boolean cutAtEnd) {
    boolean cut = cutAtEnd || belowSinceH[i] == Float.NEGATIVE_INFINITY;
    float lasted = (float) (hour - Math.max(0, belowSinceH[i]));
    longestH[i] = Math.max(longestH[i], lasted);
    // What the window cuts may last longer than the longest that lies within it.
    anyCut[i] |= cut;
  }

  /** Ends all spells with the last time. */
  void finish() {
    for (int i = 0; i < before.length; i++) {
      if (before[i] <= 0) {
        ends(i, endH, true);
      }
    }
  }

  /** Share of the time above the threshold. */
  float aboveShare(int cell) {
    return (float) (above[cell] / endH);
  }

  /** Longest time (h) below the threshold, 0 for none. */
  float longestBelowH(int cell) {
    return longestH[cell];
  }

  /** True if the longest time below may last longer than was seen. */
  boolean longestIsAtLeast(int cell) {
    return anyCut[cell];
  }

  /** Hours from a given time until the value is above, 0 if it is; to the end if it never is. */
  float toAboveH(int given, int cell) {
    float h = nextAboveH[given][cell];
    return !Double.isNaN(h) ? h : (float) (endH - givenH[given]);
  }

  /** Hours from a given time until the value is below, 0 if it is; to the end if it never is. */
  float toBelowH(int given, int cell) {
    float h = nextBelowH[given][cell];
    return !Double.isNaN(h) ? h : (float) (endH - givenH[given]);
  }

  /** True if no change to above (or else below) is seen after a given time. */
  boolean toIsAtLeast(boolean toAbove, int given, int cell) {
    float h = (toAbove ? nextAboveH : nextBelowH)[given][cell];
    return Double.isNaN(h);
  }
}
