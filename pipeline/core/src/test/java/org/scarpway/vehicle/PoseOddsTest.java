package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * A vehicle that is the same turned about, on ruts and with heights of a known error, on headings
 * ahead and in reverse: plane through four wheels by differences of their heights, normal tails by
 * Simpson's rule. One sigma of each sum is that of {@link AllowancesTest}.
 */
class PoseOddsTest {
  private static final GridSpec SPEC = new GridSpec(20, 150, 0.5, 0.5, 0, 10, "");
  private static final double CLEARANCE_M = 0.24;
  private static final double STEP_M = 0.12;

  private static final Vehicle VEHICLE =
      new Vehicle(
          "even",
          "",
          1200.0,
          new Vehicle.Chassis(4, 2.4, CLEARANCE_M, 0.7, 0.7, null),
          VehicleParts.wheels(List.of(1.2, -1.2), List.of(2.0, 2.0), 0.3, 0.3),
          new Vehicle.Limits(9.0, 8.0, 7.0, STEP_M, null),
          null,
          VehicleParts.drive(3, null, null, null, null, null, null),
          Vehicles.LUNAR,
          null,
          null);

  private static double tan(double deg) {
    return Math.tan(Math.toRadians(deg));
  }

  private static double above(double x) {
    if (x < 0) {
      return 1 - above(-x);
    }
    int n = 200;
    double h = Math.max(0, 10 - x) / n;
    double sum = 0;
    for (int i = 0; i <= n; i++) {
      double at = x + i * h;
      sum += Math.exp(-0.5 * at * at) * (i == 0 || i == n ? 1 : i % 2 == 1 ? 4 : 2);
    }
    return sum * h / 3 / Math.sqrt(2 * Math.PI);
  }

  /** Gentle ground whose gradient differs from cell to cell, as ruts do with it. */
  private static Terrain ground(Random random) {
    Terrain t = Grounds.plane(SPEC, 0.1, -0.07);
    for (int i = 0; i < SPEC.cells(); i++) {
      t.heightM().values()[i] += (float) (0.03 * random.nextGaussian());
      t.gradEast().values()[i] = (float) (0.15 * random.nextGaussian());
      t.gradNorth().values()[i] = (float) (0.15 * random.nextGaussian());
    }
    return t;
  }

  private static double heightM(Terrain t, int row, int col, int k, double ahead, double right) {
    double azimuth = Math.toRadians(Headings.of(SPEC).azimuthDeg(k));
    double c = col + (ahead * Math.sin(azimuth) + right * Math.cos(azimuth)) / 0.5;
    double r = row - (ahead * Math.cos(azimuth) - right * Math.sin(azimuth)) / 0.5;
    int c0 = (int) Math.floor(c);
    int r0 = (int) Math.floor(r);
    double upper = t.heightM().at(r0, c0) * (c0 + 1 - c) + t.heightM().at(r0, c0 + 1) * (c - c0);
    double lower =
        t.heightM().at(r0 + 1, c0) * (c0 + 1 - c) + t.heightM().at(r0 + 1, c0 + 1) * (c - c0);
    return upper * (r0 + 1 - r) + lower * (r - r0);
  }

  /** Mean, grade and cross grade: four wheels in a rectangle. */
  private static double[] plane(Terrain t, int row, int col, int k) {
    double leftFront = heightM(t, row, col, k, 1.2, -1);
    double rightFront = heightM(t, row, col, k, 1.2, 1);
    double leftRear = heightM(t, row, col, k, -1.2, -1);
    double rightRear = heightM(t, row, col, k, -1.2, 1);
    return new double[] {
      (leftFront + rightFront + leftRear + rightRear) / 4,
      (leftFront + rightFront - leftRear - rightRear) / 2 / 2.4,
      (rightFront + rightRear - leftFront - leftRear) / 2 / 2
    };
  }

  private static double above(
      Terrain t, int row, int col, int k, double ahead, double right, double[] p) {
    return heightM(t, row, col, k, ahead, right) - p[0] - p[1] * ahead - p[2] * right;
  }

  private static void agrees(
      RowPoseEstimator pose, MoveLimits limits, Allowances a, Terrain t, int[] at) {
    int row = at[0];
    int col = at[1];
    pose.at(row, col);
    assertTrue(pose.known());
    pose.requireBody();
    double slope = Math.hypot(t.gradEast().at(row, col), t.gradNorth().at(row, col));
    double ridesM = limits.bellyM(slope);
    double most = 0;
    for (int k = 0; k < Headings.COUNT; k++) {
      String on = row + ", " + col + ", heading " + k;
      double[] p = plane(t, row, col, k);
      assertEquals(p[1], pose.grade(k), 1e-6, on);
      assertEquals(p[2], pose.cross(k), 1e-6, on);
      double off = 0;
      double under = Double.NEGATIVE_INFINITY;
      for (int side = -1; side <= 1; side++) {
        for (int i = 0; i <= 5; i++) {
          double ahead = 1.2 - 2.4 * i / 5;
          under = Math.max(under, above(t, row, col, k, ahead, side * 0.75 * 0.85, p));
        }
        under = Math.max(under, above(t, row, col, k, 1.9, 1.2 * side, p));
        under = Math.max(under, above(t, row, col, k, -1.9, 1.2 * side, p));
        for (int end = -1; end <= 1 && side != 0; end += 2) {
          off = Math.max(off, Math.abs(above(t, row, col, k, 1.2 * end, side, p)));
        }
      }
      int one = k % 16;
      double bellyM = ridesM - 1.2815516 * a.underSigmaM[one];
      // Any of four wheels up or down: 0.1 / 8.
      double stepM = STEP_M - 2.2414027 * a.offPlaneSigmaM[one];
      assertEquals(bellyM, pose.bellyM(k), 1e-5, on);
      assertEquals(stepM, pose.stepM(k), 1e-6, on);
      double use = Math.max(under / bellyM, off / stepM);
      assertEquals(use, pose.contactUse(k), 1e-4, on);
      most = Math.max(most, use);
      double slopes =
          above((Math.min(tan(9), limits.tractionUp) - p[1]) / a.alongSigma[one])
              + above((Math.min(tan(8), limits.tractionDown) + p[1]) / a.alongSigma[one])
              + above((tan(7) - p[2]) / a.acrossSigma[one])
              + above((tan(7) + p[2]) / a.acrossSigma[one]);
      assertEquals(Math.min(1, slopes), pose.slopesBroken(k), 1e-5, on);
      double all =
          slopes
              + above((ridesM - under) / a.underSigmaM[one])
              + Math.min(1, 8 * above((STEP_M - off) / a.offPlaneSigmaM[one]));
      assertEquals(Math.min(1, all), pose.broken(k), 2e-5, on);
      most = Math.max(most, pose.slopeUse(k));
    }
    assertEquals(most, pose.worstUse(), 1e-4);
  }

  @Test
  void aheadAndInReverse() {
    Random random = new Random(91);
    MoveLimits limits = new MoveLimits(VEHICLE, Body.MOON);
    int[][] places = {{8, 40}, {9, 40}, {10, 41}, {9, 127}, {9, 128}, {10, 129}, {8, 60}, {8, 140}};
    for (double sigmaM : new double[] {0.01, 0.03}) {
      Terrain t = ground(random);
      LayerErrors errors =
          LayerErrors.of(new TerrainParams(SlopeMethod.HORN, 3, 2, 2.4, sigmaM, null, null), SPEC);
      WheelLayout layout = new WheelLayout(VEHICLE, SPEC);
      assertEquals(16, layout.poses);
      Allowances a = Allowances.of(new HeightTrust(0.9, errors), t, layout);
      RowPoseEstimator pose =
          new RowPoseEstimator(
              layout,
              limits,
              SPEC,
              t.heightM().values(),
              t.gradEast().values(),
              t.gradNorth().values(),
              a);
      for (int[] place : places) {
        agrees(pose, limits, a, t, place);
      }
    }
  }

  /**
   * Wheels alone may be off: any of eight up or down, by the step that is left. On a plane nothing
   * can be met, and the slope alone counts.
   */
  @Test
  void wheelsOffTheirPlaneAreAddedToTheSlope() {
    Vehicle v =
        new Vehicle(
            "high",
            "",
            1200.0,
            new Vehicle.Chassis(4, 2.4, 5, 0.7, 0.7, null),
            VehicleParts.wheels(List.of(1.2, -1.2), List.of(2.0, 2.0), 0.3, 0.3),
            new Vehicle.Limits(29.0, 28.0, 27.0, STEP_M, null),
            null,
            VehicleParts.drive(3, null, null, null, null, null, null),
            null,
            null,
            null);
    MoveLimits limits = new MoveLimits(v, Body.MOON);
    LayerErrors errors =
        LayerErrors.of(new TerrainParams(SlopeMethod.HORN, 3, 2, 2.4, 0.012, null, null), SPEC);
    WheelLayout layout = new WheelLayout(v, SPEC);
    Random random = new Random(92);
    for (double roughM : new double[] {0.25, 0}) {
      Terrain t = roughM > 0 ? Grounds.plane(SPEC, 0.06, -0.04) : Grounds.plane(SPEC, 0.5, -0.2);
      for (int i = 0; i < SPEC.cells(); i++) {
        t.heightM().values()[i] += (float) (roughM * random.nextGaussian());
      }
      Allowances a = Allowances.of(new HeightTrust(0.9, errors), t, layout);
      RowPoseEstimator pose =
          new RowPoseEstimator(
              layout,
              limits,
              SPEC,
              t.heightM().values(),
              t.gradEast().values(),
              t.gradNorth().values(),
              a);
      int off = 0;
      for (int col = 40; col < 60; col++) {
        pose.at(9, col);
        for (int k = 0; k < Headings.COUNT; k++) {
          double[] p = plane(t, 9, col, k);
          double slopes =
              above((tan(29) - p[1]) / a.alongSigma[k % 16])
                  + above((tan(28) + p[1]) / a.alongSigma[k % 16])
                  + above((tan(27) - p[2]) / a.acrossSigma[k % 16])
                  + above((tan(27) + p[2]) / a.acrossSigma[k % 16]);
          double offM = 0;
          for (int i = 0; i < 4; i++) {
            double ahead = i < 2 ? 1.2 : -1.2;
            offM = Math.max(offM, Math.abs(above(t, 9, col, k, ahead, i % 2 == 0 ? -1 : 1, p)));
          }
          double wheels = Math.min(1, 8 * above((STEP_M - offM) / a.offPlaneSigmaM[k % 16]));
          double want = Math.min(1, slopes + (roughM > 0 ? wheels : 0));
          assertEquals(want, pose.broken(k), 2e-5, col + ", heading " + k);
          off += wheels > 0.01 && want < 0.99 ? 1 : 0;
        }
      }
      assertTrue(roughM == 0 || off > 20, off + " by their wheels");
    }
  }

  /** Off the grid and on a void in reach of any wheel or end nothing is known. */
  @Test
  void nothingIsKnownBesideAVoid() {
    Terrain t = Grounds.plane(SPEC, 0, 0);
    t.heightM().values()[10 * 150 + 70] = Float.NaN;
    RowPoseEstimator pose =
        new RowPoseEstimator(
            new WheelLayout(VEHICLE, SPEC),
            new MoveLimits(VEHICLE, Body.MOON),
            SPEC,
            t.heightM().values(),
            t.gradEast().values(),
            t.gradNorth().values(),
            Allowances.NONE);
    // Ends lie hypot(1.9, 1.2) = 2.247 m off, that is 4.5 cells; wheels and belly nearer.
    for (int col = 0; col < 150; col++) {
      pose.at(10, col);
      boolean beside = col < 4 || col > 145 || (col > 65 && col < 75);
      if (beside) {
        assertFalse(pose.known(), "column " + col);
      } else if (col > 4 && col < 145 && (col < 65 || col > 75)) {
        assertTrue(pose.known(), "column " + col);
      }
    }
    pose.at(3, 40);
    assertFalse(pose.known());
    pose.at(17, 40);
    assertFalse(pose.known());
    pose.at(6, 40);
    assertTrue(pose.known());
  }
}
