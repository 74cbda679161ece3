package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.terrain.Extrapolation;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * What the error of the heights takes from the limits: sigmas from the tables of the normal
 * distribution, and of the wheels' plane by the heights under every wheel, their least-squares
 * plane from the normal equations and the covariance of each pair of heights.
 */
class AllowancesTest {
  private static final GridSpec SPEC = new GridSpec(40, 40, 0.5, 0.4, 0, 16, "");
  private static final double SIGMA_M = 0.07;
  private static final double WIDTH_M = 2.6;
  private static final double BETWEEN_M = 0.75 * (2.0 - 0.3) / 2;

  /** Cells about the one in the middle. */
  private static final int SIDE = 21;

  private static LayerErrors errors(Double lengthM) {
    return LayerErrors.of(
        new TerrainParams(SlopeMethod.HORN, 3, 2, 2.8, SIGMA_M, lengthM, null), SPEC);
  }

  private static Vehicle vehicle(double rearM) {
    return new Vehicle(
        "any",
        "",
        null,
        new Vehicle.Chassis(4, WIDTH_M, 0.4, 0.8, 0.8, 1.2),
        VehicleParts.wheels(List.of(1.4, -rearM), List.of(2.0, 2.4), 0.3, 0.3),
        new Vehicle.Limits(20.0, 18.0, 15.0, 0.3, 4.0),
        null,
        VehicleParts.drive(3, null, null, null, null, null, null),
        null,
        null,
        null);
  }

  /** Weights of the heights about the middle cell in the ground under a point. */
  private static double[] under(double x, double y, int k, double times, double[] into) {
    double azimuth = Math.toRadians(Headings.of(SPEC).azimuthDeg(k));
    double col = (x * Math.sin(azimuth) + y * Math.cos(azimuth)) / 0.5;
    double row = -(x * Math.cos(azimuth) - y * Math.sin(azimuth)) / 0.4;
    int c = (int) Math.floor(col);
    int r = (int) Math.floor(row);
    for (int corner = 0; corner < 4; corner++) {
      int right = corner % 2;
      int below = corner / 2;
      double w =
          (right == 1 ? col - c : c + 1 - col) * (below == 1 ? row - r : r + 1 - row) * times;
      into[(r + below + SIDE / 2) * SIDE + c + right + SIDE / 2] += w;
    }
    return into;
  }

  private static double sigma(double[] w, double lengthM) {
    double variance = 0;
    for (int a = 0; a < w.length; a++) {
      for (int b = 0; b < w.length && w[a] != 0; b++) {
        if (w[b] != 0) {
          int rows = a / SIDE - b / SIDE;
          double apartM = Math.hypot(0.5 * (a % SIDE - b % SIDE), 0.4 * rows);
          variance += w[a] * w[b] * (a == b ? 1 : lengthM == 0 ? 0 : Math.exp(-apartM / lengthM));
        }
      }
    }
    return SIGMA_M * Math.sqrt(variance);
  }

  @Test
  void theWheelsPlaneByItsWeights() {
    for (Double lengthM : new Double[] {null, 1.3}) {
      Vehicle v = vehicle(1.2);
      WheelLayout layout = new WheelLayout(v, SPEC);
      Allowances a =
          Allowances.of(new HeightTrust(0.9, errors(lengthM)), Grounds.plane(SPEC, 0, 0), layout);
      double[] x = {1.4, 1.4, -1.2, -1.2};
      double[] y = {-1, 1, -1.2, 1.2};
      List<double[]> body = new ArrayList<>();
      for (int side = -1; side <= 1; side++) {
        for (int i = 0; i < 7; i++) {
          body.add(new double[] {1.4 - 2.6 * i / 6, side * BETWEEN_M});
        }
        body.add(new double[] {1.4 + 0.8, side * WIDTH_M / 2});
        body.add(new double[] {-1.2 - 0.8, side * WIDTH_M / 2});
      }
      double length = lengthM == null ? 0 : lengthM;
      double largest = 0;
      assertEquals(Headings.COUNT, a.alongSigma.length);
      for (int k = 0; k < Headings.COUNT; k++) {
        double[][] plane = new double[3][SIDE * SIDE];
        for (int i = 0; i < 4; i++) {
          double[] one = new double[4];
          one[i] = 1;
          double[] p = PoseByHandTest.plane(x, y, one);
          for (int j = 0; j < 3; j++) {
            under(x[i], y[i], k, p[j], plane[j]);
          }
        }
        double along = sigma(plane[1], length);
        double across = sigma(plane[2], length);
        assertEquals(along, a.alongSigma[k], 1e-9, "heading " + k);
        assertEquals(across, a.acrossSigma[k], 1e-9, "heading " + k);
        largest = Math.max(largest, Math.max(along, across));
        double off = 0;
        for (int i = 0; i < 4; i++) {
          off = Math.max(off, sigma(offPlane(x[i], y[i], k, plane), length));
        }
        assertEquals(off, a.offPlaneSigmaM[k], 1e-9, "heading " + k);
        double under = 0;
        for (double[] point : body) {
          under = Math.max(under, sigma(offPlane(point[0], point[1], k, plane), length));
        }
        assertEquals(under, a.underSigmaM[k], 1e-9, "heading " + k);
        wheels(a, k);
      }
      double gradient = errors(lengthM).gradient();
      assertEquals(Math.max(gradient, largest), a.gradientSigma, 1e-9);
      // Of four wheels, up or down, each may be off: 0.1 / 8 has z 2.2414.
      assertEquals(2.2414, a.zWheel, 1e-4);
    }
  }

  private static double[] offPlane(double x, double y, int k, double[][] plane) {
    double[] w = under(x, y, k, 1, new double[SIDE * SIDE]);
    for (int i = 0; i < w.length; i++) {
      w[i] -= plane[0][i] + x * plane[1][i] + y * plane[2][i];
    }
    return w;
  }

  /** One sigma is left, then two and a half, by the table of the normal distribution. */
  private static void wheels(Allowances a, int k) {
    double sigma = a.offPlaneSigmaM[k];
    assertEquals(8 * 0.0062097, a.wheelBroken(0.3 - 2.5 * sigma, 0.3, k), 1e-5);
    assertEquals(1, a.wheelBroken(0.3 - sigma, 0.3, k));
    assertEquals(1, a.wheelBroken(0.4, 0.3, k));
  }

  /** 0.9: z is 1.2816, of two limits together 1.6449 each. */
  @Test
  void sigmasOfTheConfidence() {
    Terrain level = Grounds.plane(SPEC, 0, 0);
    LayerErrors errors = errors(null);
    Allowances a = Allowances.of(new HeightTrust(0.9, errors), level, null);
    assertTrue(a.known);
    assertEquals(0.1, a.tail, 1e-12);
    assertEquals(1.2815516, a.z, 1e-6);
    assertEquals(1.6448536, a.zBoth, 1e-6);
    assertEquals(0, a.zWheel);
    assertNull(a.alongSigma);
    assertNull(a.acrossSigma);
    assertNull(a.underSigmaM);
    assertNull(a.offPlaneSigmaM);
    // Horn, independent errors, cells of 0.4 m: sigma sqrt 3 / 4 over the cell.
    assertEquals(SIGMA_M * Math.sqrt(3) / 4 / 0.4, a.gradientSigma, 1e-9);
    assertSame(errors.step(), a.step);
    assertEquals(0.1, errors.step().broken(a.stepLossM), 1e-5);
    assertEquals(errors.convexityM(), a.convexitySigmaM);
    assertEquals(errors.slopeBreak(), a.troughSigma);
    assertTrue(a.convexitySigmaM > SIGMA_M && a.troughSigma > a.gradientSigma);
    // A tail of a half is no allowance at all, of two limits 0.6745 sigmas each.
    Allowances even = Allowances.of(new HeightTrust(0.5, errors), level, null);
    assertEquals(0, even.z, 1e-9);
    assertEquals(0.6744898, even.zBoth, 1e-6);
  }

  @Test
  void heightsAsMeasuredTakeNothing() {
    Terrain level = Grounds.plane(SPEC, 0, 0);
    WheelLayout layout = new WheelLayout(vehicle(1.2), SPEC);
    Allowances a = Allowances.of(HeightTrust.AS_MEASURED, level, layout);
    assertSame(Allowances.NONE, a);
    assertFalse(a.known);
    assertEquals(0.5, a.tail);
    assertEquals(0, a.z + a.zBoth + a.gradientSigma + a.troughSigma + a.stepLossM + a.zWheel);
    assertEquals(0, a.convexitySigmaM);
    assertNull(a.step);
    assertNull(a.alongSigma);
    // As measured a value is over its limit or it is not.
    assertEquals(1, Allowances.broken(0.31, 0.3, 0));
    assertEquals(0, Allowances.broken(0.3, 0.3, 0));
    assertEquals(0.5, Allowances.broken(0.3, 0.3, 0.1), 1e-9);
    assertEquals(0.1586553, Allowances.broken(0.2, 0.3, 0.1), 1e-6);
    assertEquals(0.9772499, Allowances.broken(0.5, 0.3, 0.1), 1e-6);
  }

  /** An estimate of steps from rougher ground is no measurement that an error could hide in. */
  @Test
  void stepsThatAreEstimatedLoseNothing() {
    Terrain level = Grounds.plane(SPEC, 0, 0);
    Extrapolation.Scale scale = new Extrapolation.Scale(5, 2, 0.5, 0.4);
    HeightTrust trust = new HeightTrust(0.9, errors(null));
    Allowances rough =
        Allowances.of(trust, with(level, new Extrapolation(null, scale, null)), null);
    assertTrue(rough.stepLossM > 0);
    Allowances steps =
        Allowances.of(trust, with(level, new Extrapolation(null, null, scale)), null);
    assertEquals(0, steps.stepLossM);
    assertNull(steps.step);
    assertEquals(rough.gradientSigma, steps.gradientSigma);
  }

  private static Terrain with(Terrain t, Extrapolation e) {
    return new Terrain(
        t.heightM(),
        t.slopeDeg(),
        t.gradEast(),
        t.gradNorth(),
        t.roughnessM(),
        t.stepM(),
        t.convexityM(),
        e,
        null);
  }

  /** Share of the tipping slope that a slope with its margin takes: angles, wheels as levers. */
  private static double tips(double grade, double cross, double cgM, double marginDeg) {
    double t = Math.hypot(grade, cross);
    double fore = (grade >= 0 ? 1.2 : 1.4) / (cgM * Math.max(1e-12, Math.abs(grade) / t));
    double aside = 1.0 / (cgM * Math.max(1e-12, Math.abs(cross) / t));
    double tipping = Math.min(fore, aside);
    return Math.tan(Math.atan(t) + Math.toRadians(marginDeg)) / tipping;
  }

  /**
   * The largest box in the shape of the tipping bounds that stands with the margin: every point of
   * its border stands, and of one a thousandth larger some do not.
   */
  @Test
  void theBoxThatStandsForTheTippingPolygon() {
    Allowances a =
        Allowances.of(new HeightTrust(0.9, errors(null)), Grounds.plane(SPEC, 0, 0), null);
    // The corner comes too near first where tipping is steeper than 45 degrees, the middle below.
    for (double[] of : new double[][] {{2, 1.9}, {5, 1.9}, {9, 1.9}, {5, 0.6}}) {
      double marginDeg = of[0];
      double cgM = of[1];
      Vehicle v =
          new Vehicle(
              "tall",
              "",
              null,
              new Vehicle.Chassis(4, 2.2, 0.4, null, null, cgM),
              VehicleParts.wheels(List.of(1.4, -1.2), List.of(2.0, 2.0), 0.3, 0.3),
              new Vehicle.Limits(85.0, 85.0, 85.0, null, marginDeg),
              null,
              VehicleParts.drive(3, null, null, null, null, null, null),
              null,
              null,
              null);
      MoveLimits limits = new MoveLimits(v, Body.MOON);
      GradientOdds odds = new GradientOdds(limits, limits.climb, limits.descend, a, 0.01, 0.02);
      double share = odds.side / (1.0 / cgM);
      assertEquals(share * 1.2 / cgM, odds.up, 1e-9);
      assertEquals(share * 1.4 / cgM, odds.down, 1e-9);
      assertEquals(0, 1 - most(odds, 1, cgM, marginDeg), 0.01);
      assertTrue(most(odds, 0.999, cgM, marginDeg) < 1, "margin " + marginDeg);
      assertTrue(most(odds, 1.001, cgM, marginDeg) > 1, "margin " + marginDeg);
      assertEquals(1.6448536 * 0.01, odds.alongAllowance, 1e-8);
      assertEquals(1.6448536 * 0.02, odds.acrossAllowance, 1e-8);
    }
  }

  private static double most(GradientOdds odds, double times, double cgM, double marginDeg) {
    double most = 0;
    for (int i = 0; i <= 256; i++) {
      double along = -odds.down + (odds.up + odds.down) * i / 256;
      double across = odds.side * i / 256;
      most = Math.max(most, tips(times * along, times * odds.side, cgM, marginDeg));
      most = Math.max(most, tips(times * odds.up, times * across, cgM, marginDeg));
      most = Math.max(most, tips(-times * odds.down, times * across, cgM, marginDeg));
    }
    return most;
  }

  /** Without a margin the box is the polygon; what is rated lower stays as it is rated. */
  @Test
  void whatIsRatedBelowTippingStaysAsItIs() {
    Allowances a =
        Allowances.of(new HeightTrust(0.9, errors(null)), Grounds.plane(SPEC, 0, 0), null);
    Vehicle v =
        new Vehicle(
            "low",
            "",
            null,
            new Vehicle.Chassis(4, 2.2, 0.4, null, null, 1.0),
            VehicleParts.wheels(List.of(1.4, -1.2), List.of(2.0, 2.0), 0.3, 0.3),
            new Vehicle.Limits(20.0, 60.0, 50.0, null, 0.0),
            null,
            VehicleParts.drive(3, null, null, null, null, null, null),
            null,
            null,
            null);
    MoveLimits limits = new MoveLimits(v, Body.MOON);
    GradientOdds odds = new GradientOdds(limits, limits.climb, limits.descend, a, 0.01, 0.01);
    assertEquals(Math.tan(Math.toRadians(20)), odds.up, 1e-9);
    assertEquals(1.4, odds.down, 1e-9);
    assertEquals(1.0, odds.side, 1e-9);
    // On a fall line of 20 degrees less z sigmas the climb alone breaks with the tail.
    assertEquals(odds.up - 1.2815516 * 0.01, odds.everyHeading, 1e-5);
    assertTrue(odds.holds(odds.up - 0.0129, 0) && !odds.holds(odds.up - 0.0127, 0));
    assertEquals(1, odds.broken(9, 9));
  }
}
