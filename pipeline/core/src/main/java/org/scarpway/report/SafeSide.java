package org.scarpway.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.scarpway.reach.question.ReplanResult.Consumable;

/**
 * Rounds figures for a crew underway to the side that cannot hurt it: what it may still use, and
 * deadlines, down; what it needs or must keep, up.
 */
public final class SafeSide {
  /** Digits that count before rounding; what lies beyond comes from the arithmetic of doubles. */
  private static final MathContext EXACT = new MathContext(12, RoundingMode.HALF_EVEN);

  private static final double MINUTE_S = 60;
  private static final double J_PER_WH = 3600;

  private SafeSide() {}

  /** Not more than the value, with this number of decimals; what is not finite stays. */
  public static double down(double v, int decimals) {
    return decimals(v, decimals, RoundingMode.FLOOR);
  }

  /** Not less than the value, with this number of decimals; what is not finite stays. */
  public static double up(double v, int decimals) {
    return decimals(v, decimals, RoundingMode.CEILING);
  }

  /** An amount or deadline that is not more than the value. */
  static String down(Consumable of, double v) {
    return text(of, v, RoundingMode.FLOOR);
  }

  /** An amount or time needed that is not less than the value. */
  static String up(Consumable of, double v) {
    return text(of, v, RoundingMode.CEILING);
  }

  private static String text(Consumable of, double v, RoundingMode side) {
    return switch (of) {
      case TIME, LIFE_SUPPORT -> Figures.duration(seconds(v, side));
      case ENERGY -> Figures.energy(J_PER_WH * significant(v / J_PER_WH, side));
      case DISTANCE -> Figures.distance(significant(v, side));
    };
  }

  /** Whole seconds below a minute, else whole minutes. */
  private static double seconds(double s, RoundingMode side) {
    return Math.abs(s) < MINUTE_S
        ? decimals(s, 0, side)
        : MINUTE_S * decimals(s / MINUTE_S, 0, side);
  }

  /** As many digits as {@link Figures} shows. */
  private static double significant(double v, RoundingMode side) {
    return Double.isFinite(v) ? exact(v).round(new MathContext(3, side)).doubleValue() : v;
  }

  private static double decimals(double v, int decimals, RoundingMode side) {
    return Double.isFinite(v) ? exact(v).setScale(decimals, side).doubleValue() : v;
  }

  private static BigDecimal exact(double v) {
    return BigDecimal.valueOf(v).round(EXACT);
  }
}
