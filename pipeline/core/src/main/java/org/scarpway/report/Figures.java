package org.scarpway.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;
import org.scarpway.stage.Digits;

/** Formats numbers as text: no more digits than are significant, the same on every machine. */
final class Figures {
  static final String NONE = "–";

  private Figures() {}

  static String fixed(double v, int decimals) {
    if (!Double.isFinite(v)) {
      return NONE;
    }
    String s = BigDecimal.valueOf(v).setScale(decimals, RoundingMode.HALF_UP).toPlainString();
    return s.matches("-0(\\.0*)?") ? s.substring(1) : s;
  }

  /** Three significant digits, never an exponent, integers in full. */
  static String sig(double v) {
    if (!Double.isFinite(v)) {
      return NONE;
    }
    if (v == 0 || Math.abs(v) >= 1000) {
      return fixed(v, 0);
    }
    BigDecimal d = BigDecimal.valueOf(v).round(new MathContext(3, RoundingMode.HALF_UP));
    return d.scale() > 6 ? fixed(v, 6) : d.scale() < 0 ? fixed(v, 0) : d.toPlainString();
  }

  /** As few decimals as the value needs, at most six. */
  static String plain(double v) {
    if (!Double.isFinite(v)) {
      return NONE;
    }
    BigDecimal d = BigDecimal.valueOf(v).setScale(6, RoundingMode.HALF_UP).stripTrailingZeros();
    return d.scale() < 0 ? d.setScale(0).toPlainString() : d.toPlainString();
  }

  /** As {@link #sig}, without zeros at the end: for sentences. */
  static String brief(double v) {
    return Double.isFinite(v) ? Digits.of(v) : NONE;
  }

  /** Square kilometres, without the unit, to 100 m². */
  static String km2(double m2) {
    if (m2 > 0 && m2 < 50) {
      return "<0.0001";
    }
    return Math.abs(m2) < 1e5 ? fixed(m2 / 1e6, 4) : sig(m2 / 1e6);
  }

  static String area(double m2) {
    return Math.abs(m2) < 1e4 && m2 != 0 ? brief(m2) + " m²" : brief(m2 / 1e6) + " km²";
  }

  static String distance(double m) {
    return Math.abs(m) < 1000 ? brief(m) + " m" : brief(m / 1000) + " km";
  }

  /** Seconds below a minute, minutes below an hour, then hours and minutes. */
  static String duration(double s) {
    if (!Double.isFinite(s)) {
      return NONE;
    }
    if (s < 0) {
      return "-" + duration(-s);
    }
    if (s < 59.5) {
      return fixed(s, 0) + " s";
    }
    long minutes = Math.round(s / 60);
    if (minutes < 60) {
      return minutes + " min";
    }
    return minutes / 60 + " h" + (minutes % 60 == 0 ? "" : " " + minutes % 60 + " min");
  }

  static String energy(double j) {
    if (!Double.isFinite(j)) {
      return NONE;
    }
    double wh = j / 3600;
    return Math.abs(wh) < 100 ? brief(wh) + " Wh" : brief(wh / 1000) + " kWh";
  }

  /** Percentage of a whole, without the sign; a positive share never appears as 0. */
  static String percent(double part, double whole) {
    if (!(whole > 0)) {
      return NONE;
    }
    double p = 100 * part / whole;
    if (p == 0) {
      return "0";
    }
    if (p < 0.1) {
      return "<0.1";
    }
    return p < 10 ? fixed(p, 1) : p > 99.5 && p < 100 ? ">99.5" : fixed(p, 0);
  }

  static String eastNorth(double xM, double yM) {
    return "E " + fixed(xM, 0) + " m, N " + fixed(yM, 0) + " m";
  }

  /** Degrees with hemisphere letters; empty where the position is unknown. */
  static String lonLat(double[] lonLatDeg) {
    if (lonLatDeg == null || !Double.isFinite(lonLatDeg[0]) || !Double.isFinite(lonLatDeg[1])) {
      return "";
    }
    return String.format(
        Locale.ROOT,
        "%.5f° %s, %.5f° %s",
        Math.abs(lonLatDeg[1]),
        lonLatDeg[1] < 0 ? "S" : "N",
        Math.abs(lonLatDeg[0]),
        lonLatDeg[0] < 0 ? "W" : "E");
  }

  /** A unit as printed: km2 becomes km². */
  static String unit(String unit) {
    return unit.replaceAll("(?<=m)2\\b", "²").replaceAll("(?<=m)3\\b", "³");
  }
}
