package org.scarpway.vehicle;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import org.scarpway.stage.UserError;

/**
 * Published walking speeds (m/s along the surface) against grade (rise over run in the direction of
 * travel, uphill positive), unscaled: firm ground, no suit, one Earth gravity.
 */
public enum WalkingFunction {
  /** Tobler 1993, NCGIA TR 93-1: 6 exp(-3.5 |S + 0.05|) km/h. */
  TOBLER {
    @Override
    public double speedMs(double grade) {
      return 6 / 3.6 * Math.exp(-3.5 * Math.abs(grade + 0.05));
    }
  },

  /** Naismith 1892: 5 km/h on the plan and one hour more for every 600 m of ascent. */
  NAISMITH {
    @Override
    public double speedMs(double grade) {
      return alongSurface(grade, 0.72 + 6 * Math.max(0, grade));
    }
  },

  /**
   * Naismith with Langmuir's descents: 10 min less for every 300 m down slopes of 5 to 12 degrees,
   * 10 min more beyond 12 degrees.
   */
  NAISMITH_LANGMUIR {
    @Override
    public double speedMs(double grade) {
      double timeSPerM = 0.72 + 6 * Math.max(0, grade);
      if (grade <= -STEEP) {
        timeSPerM -= 2 * grade;
      } else if (grade <= -MODERATE) {
        timeSPerM += 2 * grade;
      }
      return alongSurface(grade, timeSPerM);
    }
  };

  private static final double MODERATE = Math.tan(Math.toRadians(5));
  private static final double STEEP = Math.tan(Math.toRadians(12));

  /** Speed along the surface (m/s). */
  public abstract double speedMs(double grade);

  /** Name in walker files. */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /**
   * @throws UserError if no function has the name
   */
  public static WalkingFunction ofKey(String walker, String key) {
    for (WalkingFunction f : values()) {
      if (f.key().equals(key)) {
        return f;
      }
    }
    throw UserError.of(
        "walker " + walker,
        "unknown walking function '" + key + "'",
        Arrays.stream(values()).map(WalkingFunction::key).collect(Collectors.joining(", ")),
        "name one of these or give a speed_table");
  }

  private static double alongSurface(double grade, double timeSPerPlanM) {
    return Math.sqrt(1 + grade * grade) / timeSPerPlanM;
  }
}
