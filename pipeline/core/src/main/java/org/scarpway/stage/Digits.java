package org.scarpway.stage;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Formats numbers for messages with three significant digits, independent of the locale. */
public final class Digits {
  private static final MathContext THREE = new MathContext(3, RoundingMode.HALF_UP);
  private static final int MOST_DECIMALS = 6;
  private static final Pattern PLACE = Pattern.compile("%(?:%|[^a-zA-Z%]*[a-zA-Z])");

  private Digits() {}

  /** Three significant digits; integers in full, no trailing zeros, never an exponent. */
  public static String of(double v) {
    if (!Double.isFinite(v)) {
      return Double.toString(v);
    }
    BigDecimal exact = BigDecimal.valueOf(v);
    BigDecimal d =
        Math.abs(v) >= 1000 ? exact.setScale(0, RoundingMode.HALF_UP) : exact.round(THREE);
    if (d.scale() > MOST_DECIMALS) {
      d = exact.setScale(MOST_DECIMALS, RoundingMode.HALF_UP);
    }
    return d.signum() == 0 ? "0" : d.stripTrailingZeros().toPlainString();
  }

  /**
   * Like {@link String#format}, but a floating-point value at a {@code %s} is formatted by {@link
   * #of}.
   */
  public static String text(String format, Object... values) {
    Object[] shown = values.clone();
    Matcher place = PLACE.matcher(format);
    for (int i = 0; place.find(); ) {
      if (!place.group().equals("%%")) {
        if (place.group().equals("%s")
            && (values[i] instanceof Double || values[i] instanceof Float)) {
          shown[i] = of(((Number) values[i]).doubleValue());
        }
        i++;
      }
    }
    return String.format(Locale.ROOT, format, shown);
  }
}
