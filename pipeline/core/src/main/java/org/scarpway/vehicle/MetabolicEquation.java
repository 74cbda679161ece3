package org.scarpway.vehicle;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import org.scarpway.stage.UserError;

/**
 * Metabolic rate of a walker (W). Weights count with {@code gravityShare} (gravity over 9.80665
 * m/s2), our own adaptation to other bodies for which no published check exists: only the standing
 * term of the body's mass keeps its value.
 */
public enum MetabolicEquation {
  /**
   * Pandolf, Givoni &amp; Goldman 1977, J. Appl. Physiol. 43:577-581: M = 1.5 W + 2 (W + L)(L/W)2 +
   * eta (W + L)(1.5 V2 + 0.35 V G), less the downhill correction of Santee et al. 2001 where G is
   * negative. Santee's form steps up by some 20 W just below level ground and was validated to -12
   * %.
   */
  PANDOLF {
    @Override
    public double watts(
        double bodyKg, double loadKg, double speedMs, double grade, double gravityShare) {
      double level = pandolfW(bodyKg, loadKg, speedMs, 100 * grade, 1);
      double correction = grade < 0 ? santeeW(bodyKg, loadKg, speedMs, 100 * grade, 1) : 0;
      double standing = 1.5 * bodyKg;
      return Math.max(standing, standing + gravityShare * (level - standing - correction));
    }
  },

  /**
   * Minetti et al. 2002, J. Appl. Physiol. 93:1039-1046: cost of walking per kilogram and metre
   * along the slope, fitted for |grade| up to 0.45 and held at its end values beyond.
   */
  MINETTI {
    @Override
    public double watts(
        double bodyKg, double loadKg, double speedMs, double grade, double gravityShare) {
      return gravityShare * (bodyKg + loadKg) * minettiJPerKgM(grade) * speedMs;
    }
  };

  /**
   * @param bodyKg mass of the person
   * @param loadKg mass carried, suit included
   * @param speedMs along the surface
   * @param grade rise over run in the direction of travel
   * @param gravityShare gravity over standard gravity
   */
  public abstract double watts(
      double bodyKg, double loadKg, double speedMs, double grade, double gravityShare);

  /** Name in walker files. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * @throws UserError where no equation has the name
   */
  public static MetabolicEquation ofKey(String walker, String key) {
    for (MetabolicEquation e : values()) {
      if (e.key().equals(key)) {
        return e;
      }
    }
    throw UserError.of(
        "walker " + walker,
        "unknown metabolic equation '" + key + "'",
        Arrays.stream(values()).map(MetabolicEquation::key).collect(Collectors.joining(", ")),
        "name one of these");
  }

  /** Pandolf equation (W); grade in per cent, terrain factor 1 for a firm even way. */
  public static double pandolfW(
      double bodyKg, double loadKg, double speedMs, double gradePct, double terrainFactor) {
    double load = loadKg / bodyKg;
    double moved = bodyKg + loadKg;
    return 1.5 * bodyKg
        + 2 * moved * load * load
        + terrainFactor * moved * (1.5 * speedMs * speedMs + 0.35 * speedMs * gradePct);
  }

  /** Santee's correction (W) to subtract from the Pandolf rate downhill. */
  public static double santeeW(
      double bodyKg, double loadKg, double speedMs, double gradePct, double terrainFactor) {
    double moved = bodyKg + loadKg;
    double g6 = gradePct + 6;
    return terrainFactor
        * (gradePct * moved * speedMs / 3.5 - moved * g6 * g6 / bodyKg + 25 - speedMs * speedMs);
  }

  /** Minetti's cost of walking (J/(kg m)). */
  public static double minettiJPerKgM(double grade) {
    double i = Math.max(-0.45, Math.min(0.45, grade));
    return ((((280.5 * i - 58.7) * i - 76.8) * i + 51.9) * i + 19.6) * i + 2.5;
  }
}
