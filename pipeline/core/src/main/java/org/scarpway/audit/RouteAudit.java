package org.scarpway.audit;

import java.util.Locale;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.TraversalCost;

/**
 * Recalculates one leg of a route and compares its time and energy with those that the route
 * states.
 */
public final class RouteAudit {
  /**
   * Relative tolerance, above the difference between two methods of dividing a line at cell borders
   * and of reading a table.
   */
  private static final double SAME = 1e-3;

  private RouteAudit() {}

  /**
   * @param saidS time that the route states (s)
   * @param saidJ energy that the route states (J), NaN if unknown
   * @param scaleJ energy to which the relative tolerance refers (J)
   * @return the fault; empty if the way can be driven with the stated time and energy
   */
  public static String of(
      Way way, TraversalCost field, Floats heightM, double saidS, double saidJ, double scaleJ) {
    Drive d = Drive.along(way, field, heightM);
    int last = d.moments() - 1;
    if (d.barred() != null) {
      return String.format(
          Locale.ROOT, "%s in row %.2f, column %.2f", d.barred(), d.row(last), d.col(last));
    }
    if (d.timeS(last) > saidS * (1 + SAME)) {
      return String.format(Locale.ROOT, "takes %.2f s, not %.2f s", d.timeS(last), saidS);
    }
    if (d.energyJ(last) > saidJ + SAME * scaleJ) {
      return String.format(Locale.ROOT, "takes %.0f J, not %.0f J", d.energyJ(last), saidJ);
    }
    return "";
  }
}
