package org.scarpway.site;

import java.util.Arrays;
import org.scarpway.reach.ReachResult;

/** How many surely reached cells hang on gaps of each width. */
final class GapWidths {
  private float[] widthsM = {};
  private long[] counts = {};
  private long reached;

  /** Takes in cells in any order, so many at a time as there is memory for. */
  void add(byte[] state, float[] gapM) {
    float[] here = new float[state.length];
    int n = 0;
    for (int i = 0; i < state.length; i++) {
      if (state[i] == ReachResult.SURELY) {
        reached++;
        if (Float.isFinite(gapM[i])) {
          here[n++] = gapM[i];
        }
      }
    }
    Arrays.sort(here, 0, n);
    int distinct = 0;
    for (int i = 0; i < n; i++) {
      distinct += i == 0 || here[i] != here[i - 1] ? 1 : 0;
    }
    merge(here, n, distinct);
  }

  /** Both lists are in rising order. */
  private void merge(float[] sorted, int n, int distinct) {
    float[] widths = new float[widthsM.length + distinct];
    long[] times = new long[widths.length];
    int size = 0;
    int before = 0;
    int at = 0;
    while (before < widthsM.length || at < n) {
      boolean mineFirst = at == n || (before < widthsM.length && widthsM[before] <= sorted[at]);
      float width = mineFirst ? widthsM[before] : sorted[at];
      long cells = mineFirst ? counts[before++] : 0;
      while (at < n && sorted[at] == width) {
        cells++;
        at++;
      }
      widths[size] = width;
      times[size++] = cells;
    }
    widthsM = Arrays.copyOf(widths, size);
    counts = Arrays.copyOf(times, size);
  }

  /** Of equal shares the narrower gap is told: the graver one. */
  GapDependence most() {
    long longest = 0;
    float width = Float.NaN;
    for (int i = 0; i < counts.length; i++) {
      if (counts[i] > longest) {
        longest = counts[i];
        width = widthsM[i];
      }
    }
    return new GapDependence(width, reached == 0 ? Double.NaN : 100.0 * longest / reached);
  }
}
