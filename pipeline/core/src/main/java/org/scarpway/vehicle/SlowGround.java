package org.scarpway.vehicle;

import java.util.ArrayList;
import java.util.List;

/**
 * Amount of slow ground by cause. Causes overlap.
 *
 * @param cells number of cells of class slow
 * @param byCause number of these cells per cause, in the order of {@link SlowCause}
 */
public record SlowGround(long cells, List<Long> byCause) {
  public SlowGround {
    byCause = List.copyOf(byCause);
  }

  static SlowGround of(long[] bySet) {
    long cells = 0;
    long[] byCause = new long[SlowCause.values().length];
    for (int set = 1; set < bySet.length; set++) {
      cells += bySet[set];
      for (SlowCause c : SlowCause.values()) {
        byCause[c.ordinal()] += (set & c.bit()) != 0 ? bySet[set] : 0;
      }
    }
    List<Long> all = new ArrayList<>();
    for (long n : byCause) {
      all.add(n);
    }
    return new SlowGround(cells, all);
  }

  public long cells(SlowCause cause) {
    return byCause.get(cause.ordinal());
  }
}
