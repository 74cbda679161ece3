package org.scarpway.vehicle;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import org.scarpway.stage.UserError;

/**
 * Published equations for the metabolic rate of a walker (W), each applied only within its range of
 * validity: walkers outside its masses and gravities are rejected, steeper ground is closed, and
 * speed is limited to its maximum. No equation is scaled to another gravity: a rate scaled that way
 * was a third of the measured rate of suited walking.
 */
public enum MetabolicEquation {
  /**
   * Pandolf, Givoni &amp; Goldman 1977, J. Appl. Physiol. 43:577-581: M = 1.5 W + 2 (W + L)(L/W)2 +
   * eta (W + L)(1.5 V2 + 0.35 V G). Downhill to -12 % with up to 27 kg, where it was validated,
   * less the correction of Santee et al. 2001 (its sign and first publication are doubted). Beyond
   * that the rate of level ground is used, raised by the ratio of Minetti's cost of walking where
   * that is higher. The slope is limited to 45 %: there the rate still lies above Minetti's
   * measured cost. Bounds of speed and load after the same paper.
   */
  PANDOLF(new Range(9, 10.6, 2.4, 0.45, 20, 300, 70)) {
    @Override
    public double watts(
        double bodyKg, double loadKg, double speedMs, double grade, double terrainFactor) {
      double firm = pandolfOnGroundW(bodyKg, loadKg, speedMs, grade, 1);
      return terrainFactor == 1
          ? firm
          : Math.max(firm, pandolfOnGroundW(bodyKg, loadKg, speedMs, grade, terrainFactor));
    }
  },

  /**
   * Minetti et al. 2002, J. Appl. Physiol. 93:1039-1046: cost of walking per kilogram and metre
   * along the slope, fitted for |grade| up to 0.45, on top of Pandolf's rate of standing (on the
   * safe side where the cost already holds some of it). A load is added to the body mass, up to 20
   * kg (our own bound: the walkers carried none).
   */
  MINETTI(new Range(9, 10.6, 2.4, 0.45, 20, 300, 20)) {
    @Override
    public double watts(
        double bodyKg, double loadKg, double speedMs, double grade, double terrainFactor) {
      double standing = STANDING_W_PER_KG * bodyKg;
      return standing + (bodyKg + loadKg) * minettiJPerKgM(grade) * speedMs;
    }
  },

  /**
   * Walking in a suit on the Moon, from rates measured there at 0.7 to 5.7 km/h. A secondary source
   * that names Santee 2001 gives (3.28 m + 71.1)(0.661 v cos a + 0.115) with m the total mass
   * (person, suit and load), and 3.5 m g v sin a uphill; the original could not be consulted. At
   * low speed it falls below the lowest measured rate, so that rate is the lower bound. Masses, and
   * 20 degrees, are our own bounds.
   */
  SUITED_LUNAR(new Range(1.55, 1.7, 5.7 / 3.6, Math.tan(Math.toRadians(20)), 100, 250, 230)) {
    @Override
    public double watts(
        double bodyKg, double loadKg, double speedMs, double grade, double terrainFactor) {
      return Math.max(SLOWEST_SUITED_W, suitedLunarW(bodyKg + loadKg, speedMs, grade));
    }
  };

  /** Rate (W) measured in a suit on the Moon at 0.7 km/h: 248 kcal/h (secondary source). */
  public static final double SLOWEST_SUITED_W = 248 * 4184 / 3600.0;

  /** Rate of standing per kilogram of body mass, from Pandolf's equation. */
  private static final double STANDING_W_PER_KG = 1.5;

  /** Steepest descent and largest load of Santee's trials. */
  private static final double SANTEE_GRADE = -0.12;

  private static final double SANTEE_LOAD_KG = 27;

  /** Terrain factor of those trials; on softer ground a descent gets no credit. */
  private static final double SANTEE_FACTOR = 1.1;

  private static final double LUNAR_GRAVITY_MS2 = 1.62;

  /**
   * Range of validity of an equation.
   *
   * @param speedMs maximum speed
   * @param grade steepest grade, up and down (rise over run)
   * @param leastKg minimum of body and load together
   * @param loadKg maximum load, suit included
   */
  public record Range(
      double leastGravityMs2,
      double mostGravityMs2,
      double speedMs,
      double grade,
      double leastKg,
      double mostKg,
      double loadKg) {
    /** Returns the range as readable text. */
    String text() {
      return String.format(
          Locale.ROOT,
          "gravity %.2f to %.2f m/s2, up to %.2f m/s, %.1f deg, %.0f to %.0f kg of which %.0f kg are"
              + " carried",
          leastGravityMs2,
          mostGravityMs2,
          speedMs,
          SlopeGeometry.deg(grade),
          leastKg,
          mostKg,
          loadKg);
    }
  }

  @SuppressWarnings("ImmutableEnumChecker") // a record of numbers
  private final Range range;

  MetabolicEquation(Range range) {
    this.range = range;
  }

  public Range range() {
    return range;
  }

  /**
   * @param bodyKg mass of the person
   * @param loadKg mass carried, suit included
   * @param speedMs along the surface
   * @param grade rise over run in the direction of travel
   * @param terrainFactor factor of the ground, 1 for a firm even way; used by Pandolf's equation
   *     only
   */
  public abstract double watts(
      double bodyKg, double loadKg, double speedMs, double grade, double terrainFactor);

  /**
   * @throws UserError if the walker or the body is outside the equation's range of validity
   */
  void require(String walker, double bodyKg, double loadKg, double gravityMs2) {
    double all = bodyKg + loadKg;
    if (gravityMs2 < range.leastGravityMs2 || gravityMs2 > range.mostGravityMs2) {
      throw outside(walker, String.format(Locale.ROOT, "a gravity of %.2f m/s2", gravityMs2));
    }
    if (loadKg > range.loadKg || all < range.leastKg || all > range.mostKg) {
      throw outside(
          walker,
          String.format(Locale.ROOT, "%.0f kg of body and %.0f kg of load", bodyKg, loadKg));
    }
  }

  private UserError outside(String walker, String what) {
    return UserError.of(
        "walker " + walker,
        "metabolic equation '" + key() + "' is not made for " + what,
        range.text(),
        "name another equation ("
            + keys()
            + ") or leave metabolic out: time and distance then limit walks");
  }

  /** Name in walker files. */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static String keys() {
    return Arrays.stream(values()).map(MetabolicEquation::key).collect(Collectors.joining(", "));
  }

  /**
   * @throws UserError if no equation has the name
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
        keys(),
        "name one of these");
  }

  private static double pandolfOnGroundW(
      double bodyKg, double loadKg, double speedMs, double grade, double terrainFactor) {
    double level = pandolfW(bodyKg, loadKg, speedMs, 0, terrainFactor);
    if (grade >= 0) {
      return pandolfW(bodyKg, loadKg, speedMs, 100 * grade, terrainFactor);
    }
    double uncredited = level * Math.max(1, minettiJPerKgM(grade) / minettiJPerKgM(0));
    if (grade < SANTEE_GRADE || loadKg > SANTEE_LOAD_KG) {
      return uncredited;
    }
    double credited =
        pandolfW(bodyKg, loadKg, speedMs, 100 * grade, terrainFactor)
            - santeeW(bodyKg, loadKg, speedMs, 100 * grade, terrainFactor);
    return Math.max(
        terrainFactor > SANTEE_FACTOR ? uncredited : STANDING_W_PER_KG * bodyKg, credited);
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

  /**
   * Rate of suited walking on the Moon (W) by the relation alone.
   *
   * @param allKg total mass of person, suit and load
   */
  public static double suitedLunarW(double allKg, double speedMs, double grade) {
    double cos = 1 / Math.sqrt(1 + grade * grade);
    double climbW = allKg * LUNAR_GRAVITY_MS2 * speedMs * grade * cos;
    double factor =
        grade >= 0 ? 3.5 : 2.4 * Math.pow(0.3, Math.abs(SlopeGeometry.deg(grade)) / 7.65);
    return (3.28 * allKg + 71.1) * (0.661 * speedMs * cos + 0.115) + factor * climbW;
  }
}
