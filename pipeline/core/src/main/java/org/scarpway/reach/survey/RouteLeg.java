package org.scarpway.reach.survey;

import org.scarpway.reach.corridor.RouteCurve;

/**
 * One leg of a route, as a route report tells it.
 *
 * @param riseM all climbs of the leg together
 * @param steepestUpPct steepest climb, percent rounded up ({@link RouteGrade#pct})
 * @param steepestAtM where the steepest grade of the leg begins, from the first stop
 * @param recordedM length of the leg whose grade must be recorded, 5 % or more, up or down
 * @param obstructedM length of the leg whose grade obstructs, 7 % or more
 * @param timeS driving time, curves included
 * @param curvesS of it what curves cost
 * @param slowestCurveMs least speed in a curve that slows the vehicle; NaN where none does
 * @param tightestM least radius of the line; 0 where it turns on the spot, infinite where it does
 *     not turn
 * @param tightestAtM where that is, from the first stop; NaN where the line does not turn
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

  public RouteCurve curve() {
    return RouteCurve.of(tightestM);
  }
}
