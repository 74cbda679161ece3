package org.scarpway.site;

import java.util.Arrays;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.reach.ReachResult;

/**
 * How much of a reachable area hangs on one narrow passage. All cells behind the same narrowest gap
 * carry exactly its width, so the most frequent width among surely reached cells tells the gap that
 * the largest area hangs on.
 */
record GapDependence(double widthM, double sharePct) {

  static GapDependence of(ReachResult reach) {
    ByteGrid state = reach.state();
    FloatGrid gap = reach.gapWidthM();
    float[] widths = new float[state.values().length];
    int known = 0;
    int reached = 0;
    for (int cell = 0; cell < widths.length; cell++) {
      if (state.values()[cell] == ReachResult.SURELY) {
        reached++;
        float w = gap.values()[cell];
        if (Float.isFinite(w)) {
          widths[known++] = w;
        }
      }
    }
    Arrays.sort(widths, 0, known);
    int longest = 0;
    float width = Float.NaN;
    for (int from = 0; from < known; ) {
      int to = from;
      while (to < known && widths[to] == widths[from]) {
        to++;
      }
      // Of equal shares the narrower gap is kept: the graver one.
      if (to - from > longest) {
        longest = to - from;
        width = widths[from];
      }
      from = to;
    }
    return new GapDependence(width, reached == 0 ? Double.NaN : 100.0 * longest / reached);
  }
}
