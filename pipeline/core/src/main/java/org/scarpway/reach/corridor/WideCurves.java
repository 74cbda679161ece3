package org.scarpway.reach.corridor;

import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.LegLine;
import org.scarpway.reach.front.Line;

/**
 * Computes the straight line, or else the widest curves that cost hardly more than those with the
 * vehicle's own turning radius. A curve is therefore reported as tight only where the ground
 * requires it.
 */
final class WideCurves {
  /** Largest excess cost of wider curves, as a share. */
  private static final double HARDLY_MORE = 0.01;

  /** Search limit for wider curves, lower than for the turning circle because they are optional. */
  private static final int MOST_PLACES = 40_000;

  private WideCurves() {}

  /**
   * As {@link TurnSearch#along}.
   *
   * @param radiusM turning radius of the vehicle (m)
   */
  static TurnSearch.Found along(Detours leg, Costs costs, double radiusM) {
    int[] ends = {leg.start(), leg.end()};
    Line line = new Line(costs.field().spec());
    if (ends[0] != ends[1]) {
      double straight = line.between(ends[0], ends[1]).cost(costs);
      if (straight <= (1 + HARDLY_MORE) * leg.to().value(ends[0])) {
        return new TurnSearch.Found(LegLine.of(costs.field().spec(), ends), straight, -1);
      }
    }
    TurnSearch.Found tight = TurnSearch.along(leg, costs, radiusM, TurnSearch.MOST_PLACES);
    if (tight.stuck() >= 0 || tight.way().corners() <= 2) {
      return tight;
    }
    for (RouteCurve curve : new RouteCurve[] {RouteCurve.REPORTED, RouteCurve.OBSTRUCTION}) {
      double wideM = curve.beyondM();
      if (wideM <= radiusM) {
        break;
      }
      TurnSearch.Found wide = TurnSearch.along(leg, costs, wideM, MOST_PLACES);
      if (wide.stuck() < 0 && wide.cost() <= (1 + HARDLY_MORE) * tight.cost()) {
        return wide;
      }
    }
    return tight;
  }
}
