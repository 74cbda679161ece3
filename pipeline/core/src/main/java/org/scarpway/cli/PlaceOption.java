package org.scarpway.cli;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.scarpway.stage.UserError;

/** An option X,Y. */
final class PlaceOption {
  /** Bound on coordinates, the same as for places in a job. */
  private static final double FARTHEST = 1e9;

  private static final String NUMBER = "([-+]?[0-9]{1,15}(?:\\.[0-9]{0,15})?)";
  private static final Pattern PLACE = Pattern.compile(NUMBER + "," + NUMBER);

  private PlaceOption() {}

  /**
   * @throws UserError if the text is not two numbers with a comma, or they are out of bounds
   */
  static double[] parse(String option, String text) {
    Matcher place = PLACE.matcher(text);
    double x = place.matches() ? Double.parseDouble(place.group(1)) : Double.NaN;
    double y = place.matches() ? Double.parseDouble(place.group(2)) : Double.NaN;
    if (!(Math.abs(x) <= FARTHEST) || !(Math.abs(y) <= FARTHEST)) {
      throw UserError.of(
          option, "got '" + text + "'", "two numbers in [-1000000000, 1000000000]", "write X,Y");
    }
    return new double[] {x, y};
  }
}
