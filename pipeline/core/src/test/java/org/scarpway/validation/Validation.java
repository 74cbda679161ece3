package org.scarpway.validation;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Locale;
import java.util.concurrent.ConcurrentSkipListMap;

/**
 * Records every check against the outside and fails the test where it is not met. Rows become
 * reports/validation.md. Flags: V source read, Vs secondary text read, M from memory, R reproduced
 * by an independent program, C follows by algebra from the cited formula, P common practice without
 * a source.
 */
public final class Validation {
  static final ConcurrentSkipListMap<String, Row> ROWS = new ConcurrentSkipListMap<>();

  record Row(
      String id,
      String check,
      String source,
      String flag,
      String expected,
      String got,
      String error,
      String tolerance) {}

  private Validation() {}

  /**
   * Absolute tolerance in the unit of the quantity.
   *
   * @param id unique, sorts the report, such as "1.2-W1-horn-slope"
   * @param check quantity and case in a few words, with the unit
   */
  public static void near(
      String id,
      String check,
      String source,
      String flag,
      double expected,
      double got,
      double tolerance) {
    double error = Math.abs(got - expected);
    add(id, check, source, flag, text(expected), text(got), text(error), text(tolerance));
    assertTrue(
        error <= tolerance,
        () ->
            id
                + " "
                + check
                + ": expected "
                + expected
                + " within "
                + tolerance
                + ", got "
                + got
                + " ("
                + source
                + ")");
  }

  /** Relative tolerance. */
  public static void nearRel(
      String id,
      String check,
      String source,
      String flag,
      double expected,
      double got,
      double relative) {
    near(id, check, source, flag, expected, got, relative * Math.abs(expected));
  }

  /** A statement that holds or not, such as an order of methods. */
  public static void holds(String id, String check, String source, String flag, boolean held) {
    add(id, check, source, flag, "holds", held ? "holds" : "does not hold", "", "");
    assertTrue(held, () -> id + " " + check + " (" + source + ")");
  }

  private static void add(
      String id,
      String check,
      String source,
      String flag,
      String expected,
      String got,
      String error,
      String tolerance) {
    Row old = ROWS.put(id, new Row(id, check, source, flag, expected, got, error, tolerance));
    assertTrue(old == null || old.check.equals(check), () -> "two checks share the id " + id);
  }

  private static String text(double v) {
    if (v == 0) {
      return "0";
    }
    double a = Math.abs(v);
    return a >= 1e-4 && a < 1e9
        ? String.format(Locale.ROOT, "%.7g", v)
        : String.format(Locale.ROOT, "%.3e", v);
  }
}
