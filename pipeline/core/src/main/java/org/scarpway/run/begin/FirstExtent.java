package org.scarpway.run.begin;

import java.util.Arrays;
import org.scarpway.dem.DemProbe;

/**
 * The ground of a first job: all of an elevation model, or a window of it if that would take long.
 *
 * @param whole true if all of it is used
 * @param widthM from west to east (m)
 * @param heightM from south to north (m)
 */
record FirstExtent(boolean whole, double widthM, double heightM) {
  /** Cells of a first job, which a run answers within minutes. Own choice. */
  private static final double MOST_CELLS = 1.5e6;

  /** Budgets (min): the largest is a working day. All are divisible by three, for the bands. */
  private static final int[] BUDGETS_MIN = {15, 30, 60, 120, 180, 240, 360, 480, 600};

  static FirstExtent of(DemProbe dem) {
    double cells = (double) dem.rows() * dem.cols();
    double widthM = dem.extent().widthM();
    double heightM = dem.extent().heightM();
    if (cells <= MOST_CELLS) {
      return new FirstExtent(true, widthM, heightM);
    }
    double sideM = Math.sqrt(MOST_CELLS * dem.cellXM() * dem.cellYM());
    return new FirstExtent(
        false, Math.floor(Math.min(widthM, sideM)), Math.floor(Math.min(heightM, sideM)));
  }

  /**
   * Returns the time (min) in which a vehicle gets halfway across the shorter side and back at half
   * of its speed, rounded up; at most a working day.
   */
  int budgetMin(double speedMs) {
    double needMin = 2 * Math.min(widthM, heightM) / speedMs / 60;
    int most = BUDGETS_MIN[BUDGETS_MIN.length - 1];
    return Arrays.stream(BUDGETS_MIN).filter(m -> m >= needMin).findFirst().orElse(most);
  }
}
