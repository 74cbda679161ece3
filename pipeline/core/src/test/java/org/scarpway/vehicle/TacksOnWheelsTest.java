package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.StepError;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * Which windows between two headings are open as tacks, on slopes a little below the steepest that
 * a vehicle may stand on. {@link TacksTest} holds the windows, {@link PoseByHandTest} the wheels,
 * {@link SlopeBoundsTest} the bounds; here each is asked again by itself.
 */
class TacksOnWheelsTest {
  private static final GridSpec FINE = new GridSpec(25, 25, 0.5, 0.5, 0, 12.5, "");
  private static final GridSpec COARSE = Grounds.square(3, 5);

  /** Relative slack of what counts as no steeper than the plane. */
  private static final double SLACK = 1.001;

  private final int[] seen = new int[5];

  /** Tips at 52.6 degrees ahead and at 45 sideways, less a margin. */
  private static Vehicle drawn(Random random) {
    double climb = 15 + 15 * random.nextDouble();
    double side = 10 + 15 * random.nextDouble();
    return Vehicles.full(4200, climb, side, 0.02, 35 * random.nextDouble(), null);
  }

  /** Steepest slope with an open heading: the corner of the bounds, which depend on the slope. */
  private static double corner(MoveLimits limits) {
    SlopeBounds b = new SlopeBounds(limits);
    double t = 0.3;
    for (int i = 0; i < 200; i++) {
      b.at(t);
      t = 0.5 * (t + Math.hypot(b.up, b.side));
    }
    return t;
  }

  private static double use(SlopeBounds b, double grade, double cross) {
    b.at(Math.hypot(grade, cross));
    return b.use(grade, cross);
  }

  private static double grade(double ge, double gn, int k) {
    double azimuth = Math.toRadians(Headings.of(FINE).azimuthDeg(k));
    return ge * Math.sin(azimuth) + gn * Math.cos(azimuth);
  }

  private static double cross(double ge, double gn, int k) {
    double azimuth = Math.toRadians(Headings.of(FINE).azimuthDeg(k));
    return ge * Math.cos(azimuth) - gn * Math.sin(azimuth);
  }

  private static boolean asPlane(
      RowPoseEstimator pose, SlopeBounds b, double ge, double gn, int k) {
    double grade = grade(ge, gn, k);
    double cross = cross(ge, gn, k);
    double ahead = grade > 0 ? pose.grade(k) : -pose.grade(k);
    return ahead <= Math.abs(grade) * SLACK
        && Math.abs(pose.cross(k)) <= Math.abs(cross) * SLACK
        && pose.slopeUse(k) <= use(b, grade, cross) * SLACK;
  }

  private int expected(
      CellTraversability j, MoveLimits limits, Allowances a, double ge, double gn) {
    SlopeBounds measured = new SlopeBounds(limits);
    for (int k = 0; k < Headings.COUNT && a.known; k++) {
      boolean plane = use(measured, grade(ge, gn, k), cross(ge, gn, k)) <= LimitUse.FULL;
      boolean wheels =
          j.poses != null && use(measured, j.poses.grade(k), j.poses.cross(k)) <= LimitUse.FULL;
      if (plane || wheels) {
        // A window that the confidence alone made narrow is no way.
        seen[0]++;
        return 0;
      }
    }
    SlopeBounds b = new SlopeBounds(limits, a, a.gradientSigma, a.gradientSigma);
    double t = Math.hypot(ge, gn);
    b.at(t);
    Tacks tacks = new Tacks(FINE);
    tacks.find(ge, gn, t, b);
    int open = 0;
    for (int k = 0; k < Headings.COUNT; k++) {
      if ((tacks.bits & ~j.ownBits & 1 << k) == 0) {
        continue;
      }
      boolean met = j.poses != null && j.poses.contactUse(k) > LimitUse.FULL;
      boolean here = j.poses == null || asPlane(j.poses, b, ge, gn, k);
      boolean beyond = j.poses == null || asPlane(j.poses, b, ge, gn, tacks.beyond[k]);
      open |= !met && here && beyond ? 1 << k : 0;
      seen[!met && here && beyond ? 1 : met ? 2 : here ? 3 : 4]++;
    }
    return open;
  }

  private void agrees(String on, Random random, boolean wheels, boolean known) {
    GridSpec spec = wheels ? FINE : COARSE;
    Vehicle v = drawn(random);
    MoveLimits limits = new MoveLimits(v, Body.MOON);
    double t = corner(limits) * (1 - 0.02 * random.nextDouble() * random.nextDouble() - 2e-3);
    double uphill = 2 * Math.PI * random.nextDouble();
    Terrain ground = Grounds.plane(spec, t * Math.sin(uphill), t * Math.cos(uphill));
    double ge = ground.gradEast().at(spec.rows() / 2, spec.cols() / 2);
    double gn = ground.gradNorth().at(spec.rows() / 2, spec.cols() / 2);
    // A little flatter or steeper than the plane, and the more rough the rarer.
    double scale = 0.99 + 0.012 * random.nextDouble();
    double roughM = 0.006 * Math.pow(random.nextDouble(), 3);
    for (int i = 0; i < spec.cells(); i++) {
      double z = scale * ground.heightM().values()[i] + roughM * random.nextGaussian();
      ground.heightM().values()[i] = (float) z;
    }
    if (wheels && random.nextInt(4) == 0) {
      // A stone under the belly, beside its middle.
      int stone = (12 - random.nextInt(2)) * 25 + 12 - random.nextInt(2);
      ground.heightM().values()[stone] += (float) random.nextDouble();
    }
    LayerErrors errors =
        wheels
            ? LayerErrors.of(
                new TerrainParams(SlopeMethod.HORN, 5, 2.6, 3.4, 1e-5, null, null), FINE)
            : new LayerErrors(
                null,
                0.003 * random.nextDouble(),
                1e-9,
                new StepError(1, 1e-9, 1e-9, 1e-9),
                null,
                1e-9);
    WheelLayout layout = CellTraversability.layout(v, spec);
    assertEquals(wheels, layout != null);
    Allowances a =
        known ? Allowances.of(new HeightTrust(0.9, errors), ground, layout) : Allowances.NONE;
    CellTraversability j =
        new CellTraversability(
            limits, ground, Grounds.noHazard(spec), layout, UnresolvedRule.SAY, a);
    j.judge(spec.rows() / 2, spec.cols() / 2);
    assertEquals(expected(j, limits, a, ge, gn), j.tackBits, on);
    assertEquals(j.ownBits | j.tackBits, j.bits, on);
    assertEquals(j.bits == 0 && !j.narrow, j.cls == Mobility.NO_GO, on);
  }

  /** The wheels on both sides of a window are no steeper than its plane, and nothing is met. */
  @Test
  void tacksNeedWheelsThatStandAsOnThePlane() {
    Random random = new Random(311);
    for (int n = 0; n < 600; n++) {
      agrees("ground " + n, random, true, false);
    }
    for (int i = 1; i < 5; i++) {
      assertTrue(seen[i] > 20, Arrays.toString(seen));
    }
  }

  /** Heights of a known error: windows that no heading meets are a way only if none ever did. */
  @Test
  void tacksNeedThatNoHeadingHoldsAsMeasured() {
    Random random = new Random(312);
    for (int n = 0; n < 1000; n++) {
      agrees("plane " + n, random, false, true);
    }
    assertTrue(seen[0] > 100 && seen[1] > 100, Arrays.toString(seen));
    Arrays.fill(seen, 0);
    for (int n = 0; n < 300; n++) {
      agrees("ground " + n, random, true, true);
    }
    assertTrue(seen[0] > 20 && seen[1] > 20, Arrays.toString(seen));
  }
}
