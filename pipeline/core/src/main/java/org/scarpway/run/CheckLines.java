package org.scarpway.run;

import java.util.Locale;
import org.scarpway.vehicle.CellMobility.Check;

/** Says of a limit what was found, what is allowed and whether the cells show it. */
final class CheckLines {
  private CheckLines() {}

  /**
   * @param where text to end the line, such as the heading
   */
  static String of(Check c, String where) {
    boolean known = !Double.isNaN(c.got()) && !Double.isNaN(c.allowed());
    boolean bounded = c.allowed() < Float.MAX_VALUE && Double.isFinite(c.allowed());
    return String.format(
        Locale.ROOT,
        c.unit().equals(Check.CONE_INDEX)
            ? "  %-27s  %-46s needs %-8s ground gives %-5s %s %s%s%s"
            : "  %-27s  %-46s got %-10s allowed %-10s %s %s%s%s",
        isProbability(c) ? c.unit() : c.limit().label(),
        c.what(),
        c.yesOrNo() ? c.got() == 0 ? "no" : "yes" : number(c, c.got()),
        c.yesOrNo() ? "no" : bounded || Double.isNaN(c.allowed()) ? number(c, c.allowed()) : "any",
        isProbability(c) ? "" : c.unit(),
        known ? status(c) : "no verdict",
        Double.isNaN(c.lengthM())
            ? ""
            : String.format(Locale.ROOT, ", measured over %.3g m", c.lengthM()),
        where);
  }

  /** Returns what closes a heading: the quantity with the value found and the value allowed. */
  static String exceeded(Check c) {
    if (Double.isNaN(c.got())) {
      return c.limit().label() + " not known";
    }
    if (c.yesOrNo()) {
      return c.limit().label();
    }
    String compared = number(c, c.got()) + " > " + number(c, c.allowed());
    return isProbability(c)
        ? c.what() + " " + compared
        : c.limit().label() + " " + compared + " " + c.unit();
  }

  private static String status(Check c) {
    if (!c.decides()) {
      return "NOT RESOLVED";
    }
    return (c.held() ? "ok" : "EXCEEDED") + (c.shown() ? "" : " by estimate, NOT RESOLVED");
  }

  /** True if the values are probabilities, which must not be read as values of the limit. */
  private static boolean isProbability(Check c) {
    return c.unit().equals(Check.PROBABILITY);
  }

  private static String number(Check c, double value) {
    return Double.isNaN(value)
        ? "not known"
        : String.format(Locale.ROOT, isProbability(c) ? "%.3g" : "%.4g", value);
  }
}
