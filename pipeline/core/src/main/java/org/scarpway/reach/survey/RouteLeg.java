package org.scarpway.reach.survey;

import org.scarpway.reach.corridor.RouteCurve;

/**
 * Figures of one leg of a route for the route report.
 *
 * @param from name of the stop where the leg begins
 * @param to name of the stop where the leg ends
 * @param lengthM length along the surface (m)
 * @param riseM sum of all climbs (m)
 * @param fallM sum of all descents, positive (m)
 * @param steepestUpPct steepest climb (%, rounded up: {@link RouteGrade#pct})
 * @param steepestDownPct steepest descent, positive (%, rounded up)
 * @param steepestAtM distance from the first stop at which the steepest grade begins (m)
 * @param recordedM length with a grade that must be recorded, 5 % or more up or down (m)
 * @param obstructedM length with a grade that is an obstruction, 7 % or more (m)
 * @param timeS driving time, curves included (s)
 * @param curvesS part of the driving time that is due to curves (s)
 * @param slowestCurveMs least speed in a curve that slows the vehicle (m/s); NaN if none does
 * @param tightestM smallest radius of the line (m); 0 if it turns on the spot, infinite if it does
 *     not turn
 * @param tightestAtM distance of that place from the first stop (m); NaN if the line does not turn
 */
public record RouteLeg(
    String from,
    String to,
    double lengthM,
    double riseM,
    double fallM,
    int steepestUpPct,
    int steepestDownPct,
    double steepestAtM,
    double recordedM,
    double obstructedM,
    double timeS,
    double curvesS,
    double slowestCurveMs,
    double tightestM,
    double tightestAtM) {

  /** Class of the steepest grade, up or down. */
  public RouteGrade grade() {
    return RouteGrade.of(Math.max(steepestUpPct, steepestDownPct));
  }

  /** Class of the smallest curve radius. */
  public RouteCurve curve() {
    return RouteCurve.of(tightestM);
  }
}
