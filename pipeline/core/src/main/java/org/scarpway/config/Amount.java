package org.scarpway.config;

import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.scarpway.reach.question.ReachRequest.Quantity;

/**
 * A number with its unit, such as 90min, 40kWh or 5km, converted to SI: seconds, joules or metres.
 * {@code m} means metres; minutes are {@code min}.
 */
record Amount(String label, Quantity quantity, double si) {
  private static final Pattern FORM = Pattern.compile("([0-9]+(?:\\.[0-9]+)?) ?([A-Za-z]+)");

  private record Unit(Quantity quantity, double si) {}

  private static final Map<String, Unit> UNITS =
      Map.of(
          "h", new Unit(Quantity.TIME_S, 3600),
          "min", new Unit(Quantity.TIME_S, 60),
          "s", new Unit(Quantity.TIME_S, 1),
          "kWh", new Unit(Quantity.ENERGY_J, 3.6e6),
          "Wh", new Unit(Quantity.ENERGY_J, 3600),
          "MJ", new Unit(Quantity.ENERGY_J, 1e6),
          "J", new Unit(Quantity.ENERGY_J, 1),
          "km", new Unit(Quantity.DISTANCE_M, 1000),
          "m", new Unit(Quantity.DISTANCE_M, 1));

  /** Returns the amount, or null if the text is not one. */
  static Amount parse(String text) {
    Matcher m = FORM.matcher(text);
    if (!m.matches()) {
      return null;
    }
    Unit unit = UNITS.get(m.group(2));
    return unit == null
        ? null
        : new Amount(text, unit.quantity, Double.parseDouble(m.group(1)) * unit.si);
  }

  /** Returns the quantity in words. */
  static String word(Quantity quantity) {
    return switch (quantity) {
      case TIME_S -> "a time";
      case ENERGY_J -> "an energy";
      case DISTANCE_M -> "a distance";
    };
  }
}
