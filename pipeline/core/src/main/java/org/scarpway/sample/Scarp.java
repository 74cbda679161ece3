package org.scarpway.sample;

/**
 * A cliff that crosses the ground from west to east; the ground north of it is higher. Two gaps are
 * ramps of drivable slope; everywhere else it is steeper than any rover climbs.
 */
final class Scarp {
  static final double HEIGHT_M = 120;
  static final double WICKET_U_M = 1650;
  static final double STAIR_U_M = 4450;

  private static final double WALL_RUN_M = 165;
  private static final double RAMP_RUN_M = 1200;
  private static final double WICKET_HALF_WIDTH_M = 105;
  private static final double STAIR_HALF_WIDTH_M = 340;

  private Scarp() {}

  /** Returns the north coordinate (m) of the middle of the cliff. */
  static double lineM(double uM) {
    return 3450
        + 230 * StrictMath.sin(2 * Math.PI * uM / 4700 + 0.4)
        + 60 * StrictMath.sin(2 * Math.PI * uM / 1300 + 2.0);
  }

  /** Returns 1 in the middle of a gap, 0 outside. */
  static double gap01(double uM) {
    return Math.max(
        bump((uM - WICKET_U_M) / WICKET_HALF_WIDTH_M), bump((uM - STAIR_U_M) / STAIR_HALF_WIDTH_M));
  }

  /** Returns the height (m) of the ground above the bench. */
  static double heightM(double uM, double vM) {
    double runM = WALL_RUN_M + (RAMP_RUN_M - WALL_RUN_M) * gap01(uM);
    double t = Math.max(-0.5, Math.min(0.5, (vM - lineM(uM)) / runM));
    return HEIGHT_M * (0.5 + 1.5 * t - 2 * t * t * t);
  }

  private static double bump(double x) {
    double s = Math.max(0, 1 - x * x);
    return s * s * (3 - 2 * s);
  }
}
