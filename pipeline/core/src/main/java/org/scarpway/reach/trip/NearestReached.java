package org.scarpway.reach.trip;

import java.util.BitSet;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.WhyNot.Nearest;

/** Finds the reached cell nearest to a place, by straight lines between centres of cells. */
final class NearestReached {
  private NearestReached() {}

  /** Returns null if no cell is reached; of cells equally near, that of the least index. */
  static Nearest of(GridSpec spec, BitSet reached, int place) {
    int cols = spec.cols();
    int row = place / cols;
    int best = -1;
    double leastM = Double.POSITIVE_INFINITY;
    int furthest = Math.max(row, spec.rows() - 1 - row);
    for (int away = 0; away <= furthest && away * spec.cellYM() <= leastM; away++) {
      for (int r = row - away; r <= row + away; r += Math.max(1, 2 * away)) {
        if (r < 0 || r >= spec.rows()) {
          continue;
        }
        int beside = r * cols + place % cols;
        int before = reached.previousSetBit(beside);
        int after = reached.nextSetBit(beside);
        for (int cell : new int[] {before, after}) {
          if (cell >= 0 && cell / cols == r) {
            double m = distanceM(spec, place, cell);
            if (m < leastM || (m == leastM && cell < best)) {
              leastM = m;
              best = cell;
            }
          }
        }
      }
    }
    if (best < 0) {
      return null;
    }
    double eastM = (best % cols - place % cols) * spec.cellXM();
    double northM = (row - best / cols) * spec.cellYM();
    double azimuthDeg = (Math.toDegrees(Math.atan2(eastM, northM)) + 360) % 360;
    return new Nearest(spec.xM(best % cols), spec.yM(best / cols), leastM, azimuthDeg);
  }

  private static double distanceM(GridSpec spec, int a, int b) {
    int cols = spec.cols();
    return Math.hypot((a % cols - b % cols) * spec.cellXM(), (a / cols - b / cols) * spec.cellYM());
  }
}
