package org.scarpway.run;

import java.util.List;
import org.scarpway.vehicle.Vehicle;

/**
 * What vehicles ask of the ground at least, the most demanding of them for each figure: what they
 * cannot straddle, how wide they sweep, how steep and how high a step they take. Roughness as large
 * as the belly clearance leaves nothing to drive on.
 */
record Demands(
    double clearanceM,
    double swathM,
    double slopeDeg,
    double stepM,
    double turnM,
    double blockedDeg) {
  /**
   * Ground steeper than this is taken as a hazard even to vehicles that state no limit. Own choice.
   */
  private static final double STEEPEST_DEG = 45;

  static Demands of(List<Vehicle> vehicles) {
    double clearanceM = Double.POSITIVE_INFINITY;
    double swathM = 0;
    double slopeDeg = STEEPEST_DEG;
    double stepM = Double.POSITIVE_INFINITY;
    double turnM = 0;
    double blockedDeg = 90;
    for (Vehicle v : vehicles) {
      clearanceM = Math.min(clearanceM, v.body().clearanceM());
      swathM = Math.max(swathM, v.body().widthM());
      turnM = Math.max(turnM, Math.hypot(v.body().lengthM(), v.body().widthM()));
      blockedDeg = Math.min(blockedDeg, blockedDeg(v));
      if (v.limits() != null) {
        slopeDeg = least(slopeDeg, v.limits().climbDeg());
        stepM = least(stepM, v.limits().stepM());
      }
    }
    return new Demands(clearanceM, swathM, slopeDeg, stepM, turnM, blockedDeg);
  }

  /**
   * Slope (deg) that no heading of the vehicle takes: grade along it and cross slope share the
   * slope by tan2(grade) + tan2(cross) = tan2(slope).
   */
  private static double blockedDeg(Vehicle v) {
    Vehicle.Limits l = v.limits();
    if (l == null || l.sideDeg() == null || l.climbDeg() == null || l.descendDeg() == null) {
      return 90;
    }
    double along = Math.tan(Math.toRadians(Math.max(l.climbDeg(), l.descendDeg())));
    double across = Math.tan(Math.toRadians(l.sideDeg()));
    return Math.toDegrees(Math.atan(Math.hypot(along, across)));
  }

  private static double least(double a, Double b) {
    return b == null ? a : Math.min(a, b);
  }
}
