package org.scarpway.audit;

import java.util.Locale;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.MoveField;

/** Drives one leg of a route again and compares what it takes with what the route says. */
public final class RouteAudit {
  /** Two ways to cut a line at the borders of cells and to read a table differ by less. */
  private static final double SAME = 1e-3;

  private RouteAudit() {}

  /**
   * @param saidS time that the route states for the way
   * @param saidJ energy, NaN where it is not known
   * @param scaleJ energy that the least difference is a share of
   * @return what is wrong; empty where the way can be driven in what is said
   */
  public static String of(
      Way way, MoveField field, Floats heightM, double saidS, double saidJ, double scaleJ) {
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
