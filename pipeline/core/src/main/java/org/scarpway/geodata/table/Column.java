package org.scarpway.geodata.table;

import java.util.Locale;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.function.ToLongFunction;

/**
 * A column of a table: its heading together with how its value is had from what a row is about, so
 * that no value can stand under another heading.
 *
 * @param <R> what a row is about
 */
public final class Column<R> {
  /** What stands in a row of the column. */
  private interface Field<R> {
    String of(R row, long position);
  }

  private final String heading;
  private final ToDoubleFunction<R> value;
  private final Field<R> field;

  private Column(String heading, ToDoubleFunction<R> value, Field<R> field) {
    this.heading = heading;
    this.value = value;
    this.field = field;
  }

  /** Words; null is an empty field. */
  public static <R> Column<R> text(String heading, Function<R, String> value) {
    return new Column<>(
        heading,
        row -> Double.NaN,
        (row, position) -> Objects.requireNonNullElse(value.apply(row), ""));
  }

  /**
   * Words that a file of the user gave; null is an empty field. Where spreadsheets would calculate
   * them, as they do with what begins with =, +, -, @, a tab or a line end (OWASP, CSV Injection),
   * an apostrophe is put first, which makes them text there.
   */
  public static <R> Column<R> foreignText(String heading, Function<R, String> value) {
    return text(
        heading,
        row -> {
          String words = value.apply(row);
          return words != null && words.matches("(?s)[=+\\-@\t\r\n].*") ? "'" + words : words;
        });
  }

  /** Whole numbers. */
  public static <R> Column<R> whole(String heading, ToLongFunction<R> value) {
    return new Column<>(
        heading, value::applyAsLong, (row, position) -> Long.toString(value.applyAsLong(row)));
  }

  /**
   * Numbers; what is not finite is an empty field.
   *
   * @param heading name with unit, such as time_s
   */
  public static <R> Column<R> number(String heading, int decimals, ToDoubleFunction<R> value) {
    String format = "%." + decimals + "f";
    return new Column<>(
        heading, value, (row, position) -> rounded(format, value.applyAsDouble(row)));
  }

  /** Counts the rows from 1. */
  public static <R> Column<R> position(String heading) {
    return new Column<>(heading, row -> Double.NaN, (row, position) -> Long.toString(position));
  }

  private static String rounded(String format, double value) {
    if (!Double.isFinite(value)) {
      return "";
    }
    String s = String.format(Locale.ROOT, format, value);
    return s.matches("-0(\\.0*)?") ? s.substring(1) : s;
  }

  /** The name in the header line. */
  public String heading() {
    return heading;
  }

  /** The number before it is rounded; NaN where the column has none. */
  public double value(R row) {
    return value.applyAsDouble(row);
  }

  String field(R row, long position) {
    return field.of(row, position);
  }
}
