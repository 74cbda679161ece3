package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.vehicle.TraversalCost;

/**
 * Times on planes whose polar speed curve has corners anywhere between the headings, against the
 * gauge of its convex hull: the exact answer on uniform ground.
 */
class SpeedCurveTest {
  private static final int AWAY = 75;
  private static final int HALF = 80;
  private static final int SIDE = 2 * HALF + 1;
  private static final int DIRECTIONS = 360;

  /** Largest and least relative error of the time and its mean over all directions. */
  private record Errors(double most, double least, double mean) {}

  private static Errors errors(double slope, double aspect, DoubleUnaryOperator surfaceMs) {
    double east = slope * Math.cos(aspect);
    double north = slope * Math.sin(aspect);
    GridSpec spec = Fields.grid(SIDE, SIDE, 1, -SIDE / 2.0, -SIDE / 2.0);
    TraversalCost field = Fields.slope(spec, east, north, surfaceMs, k -> true);
    double[] got = Fields.timesOut(field, 0, 0);
    SpeedCurve exact = new SpeedCurve(east, north, surfaceMs);
    double most = Double.NEGATIVE_INFINITY;
    double least = Double.POSITIVE_INFINITY;
    double sum = 0;
    for (int k = 0; k < DIRECTIONS; k++) {
      double d = 2 * Math.PI * (k + 0.5) / DIRECTIONS;
      int col = (int) Math.round(AWAY * Math.cos(d));
      int row = (int) Math.round(AWAY * Math.sin(d));
      double error = got[(HALF - row) * SIDE + HALF + col] / exact.timeS(col, row) - 1;
      most = Math.max(most, error);
      least = Math.min(least, error);
      sum += error;
    }
    return new Errors(most, least, sum / DIRECTIONS);
  }

  /** Rated speed 1 m/s until the power is used up; rolling resistance of 0.12 of the weight. */
  private static DoubleUnaryOperator powerLimited(double powerOfLevel) {
    return g -> {
      double force = (0.12 + g) / Math.sqrt(1 + g * g);
      return force <= 0.12 * powerOfLevel ? 1 : 0.12 * powerOfLevel / force;
    };
  }

  @Test
  void powerLimitsOnPlanes() {
    Random random = new Random(5);
    for (int deg : new int[] {0, 2, 4, 6, 8, 10, 12, 15}) {
      for (double power : new double[] {1.05, 1.3, 1.5, 1.9, 2.3}) {
        double slope = Math.tan(Math.toRadians(deg));
        double aspect = 2 * Math.PI * random.nextDouble();
        Errors e = errors(slope, aspect, powerLimited(power));
        String where = deg + " deg, power " + power + ": " + e;
        assertTrue(e.most < 0.03, where);
        assertTrue(e.least > -0.005, where);
        assertTrue(e.mean < 0.002 && e.mean > 0, where);
      }
    }
  }

  /** A walker is quickest on a slight descent, which no heading need meet (Tobler 1993). */
  @Test
  void walkersOnPlanes() {
    Random random = new Random(6);
    for (int deg : new int[] {3, 6, 10, 15}) {
      double slope = Math.tan(Math.toRadians(deg));
      Errors e =
          errors(
              slope,
              2 * Math.PI * random.nextDouble(),
              g -> 6 / 3.6 * Math.exp(-3.5 * Math.abs(g + 0.05)));
      assertTrue(e.most < 0.03 && e.least > -0.005, deg + " deg: " + e);
    }
  }

  /** The exact answer itself, where it is known otherwise: a circle, and a curve that is bitten. */
  @Test
  void gaugeOfKnownHulls() {
    assertEquals(5, new SpeedCurve(0, 0, g -> 2).timeS(6, 8), 1e-6);
    // Within 26 degrees of uphill there is hardly any speed: ways to either side take turns.
    SpeedCurve bitten = new SpeedCurve(1, 0, g -> Math.sqrt(1 + g * g) * (g > 0.9 ? 0.01 : 1));
    double corner = 0.9;
    assertEquals(10 / corner, bitten.timeS(10, 0), 1e-2);
  }
}
