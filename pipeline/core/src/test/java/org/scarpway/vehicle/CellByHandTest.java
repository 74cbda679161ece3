package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.StepError;
import org.scarpway.terrain.Terrain;

/**
 * Cells judged heading by heading: chances of no-go as sums of normal tails (Simpson's rule), and
 * wheels on rough ground as the largest of plain shares of each limit.
 */
class CellByHandTest {
  private static final GridSpec SPEC = Grounds.square(3, 5);
  private static final Limit[] NAMES = {
    Limit.CLIMB, Limit.DESCEND, Limit.SIDE, Limit.CLEARANCE, Limit.APPROACH, Limit.STEP
  };

  private static double tan(double deg) {
    return Math.tan(Math.toRadians(deg));
  }

  /** Probability that a normal value lies above x sigmas. */
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

  /**
   * @param deg climb, descent, side
   */
  private static Vehicle vehicle(boolean overhangs, double clearM, double stepM, double... deg) {
    Double overhang = overhangs ? 1.1 : null;
    return new Vehicle(
        "any",
        "",
        null,
        new Vehicle.Chassis(4, 2.4, clearM, overhang, overhang, null),
        VehicleParts.wheels(List.of(1.3, -1.3), List.of(2.0, 2.0), 0.3, 0.3),
        new Vehicle.Limits(deg[0], deg[1], deg[2], stepM, null),
        null,
        VehicleParts.drive(3, null, null, null, null, null, null),
        null,
        null,
        null);
  }

  /**
   * Slopes of any gradient and sharper ones ahead, steps and rises: the best heading counts, with
   * its climb, descent, sides and trough; step and belly of the whole cell are added.
   */
  @Test
  void theChanceOfNoGoIsThatOfTheBestHeading() {
    Random random = new Random(61);
    int[] seen = new int[4];
    for (int n = 0; n < 300; n++) {
      double sigma = 0.01 + 0.05 * random.nextDouble();
      double breakSigma = 0.05 * (0.1 + random.nextDouble());
      double tail = 0.02 + 0.3 * random.nextDouble();
      LayerErrors errors =
          new LayerErrors(null, sigma, breakSigma, new StepError(1, 0.03, 1e-9, 1e-9), null, 0.04);
      double stepM = 0.1 * random.nextInt(4);
      double scale = 0.3 * random.nextDouble();
      double riseM = 0.16 * random.nextInt(4);
      Terrain t = Grounds.of(SPEC, (x, y) -> 0, stepM, 0, riseM);
      for (int i = 0; i < 9; i++) {
        t.gradEast().values()[i] = (float) (scale * random.nextGaussian());
        t.gradNorth().values()[i] = (float) (scale * random.nextGaussian());
      }
      Vehicle v = vehicle(n % 2 == 0, 0.5, 0.35, 20, 17, 14);
      MoveLimits limits = new MoveLimits(v, Body.MOON);
      Allowances a = Allowances.of(new HeightTrust(1 - tail, errors), t, null);
      CellTraversability j =
          new CellTraversability(limits, t, Grounds.noHazard(SPEC), null, UnresolvedRule.SAY, a);
      j.judge(1, 1);
      double best = 1;
      double worse = 1;
      int open = 0;
      boolean near = false;
      for (int k = 0; k < Headings.COUNT; k++) {
        double azimuth = Math.toRadians(Headings.of(SPEC).azimuthDeg(k));
        double e = Math.sin(azimuth);
        double m = Math.cos(azimuth);
        double grade = t.gradEast().at(1, 1) * e + t.gradNorth().at(1, 1) * m;
        double cross = t.gradEast().at(1, 1) * m - t.gradNorth().at(1, 1) * e;
        double slopes =
            above((tan(20) - grade) / sigma)
                + above((tan(17) + grade) / sigma)
                + above((tan(14) - cross) / sigma)
                + above((tan(14) + cross) / sigma);
        // Ahead lies the neighbour that the heading points at; between two it may be either.
        double[] trough = new double[2];
        for (int i = 0; i < 2 && n % 2 == 0; i++) {
          double turn = (i - 0.5) * 1e-3;
          double along = Math.max(Math.abs(e), Math.abs(m)) * (1 + turn);
          int row = 1 - (int) Math.round(m / along);
          int col = 1 + (int) Math.round(e / along);
          double next = t.gradEast().at(row, col) * e + t.gradNorth().at(row, col) * m;
          double sharp = Math.max(0, (next - grade) / (1 + next * grade));
          trough[i] = above((limits.trough - sharp) / breakSigma);
        }
        best = Math.min(best, slopes + Math.min(trough[0], trough[1]));
        worse = Math.min(worse, slopes + Math.max(trough[0], trough[1]));
        // The sum decides on slope, one limit by itself ahead.
        boolean holds = slopes < tail && trough[0] < tail;
        near |= Math.abs(slopes - tail) < 1e-3 || Math.abs(trough[0] - tail) < 1e-3;
        near |= (trough[0] < tail) != (trough[1] < tail);
        open |= holds ? 1 << k : 0;
      }
      double whole = 2 * above((0.35 - stepM) / 0.03) + above((0.5 - riseM) / 0.04);
      boolean shut = 2 * above((0.35 - stepM) / 0.03) > tail || above((0.5 - riseM) / 0.04) > tail;
      // Headings better than 1e-4 are not looked for.
      assertTrue(j.noGo01 >= Math.min(1, best + whole) - 2e-4, "case " + n);
      assertTrue(j.noGo01 <= Math.min(1, worse + whole) + 2e-4, "case " + n);
      if (!near && !shut) {
        assertEquals(open, j.ownBits, "case " + n);
        int count = Integer.bitCount(open);
        seen[count == 0 ? 0 : count == 32 ? 1 : 2]++;
        if (n % 2 == 1 && count > 0) {
          double share =
              boxed(Math.hypot(t.gradEast().at(1, 1), t.gradNorth().at(1, 1)), sigma, tail);
          assertEquals(Math.max(share, Math.min(count, 31) / 32.0), j.openShare, 0.02, "case " + n);
        }
        if (count == 0) {
          // A window that only the confidence shut is no way for tacks.
          assertEquals(0, j.tackBits, "case " + n);
          assertEquals(Mobility.NO_GO, j.cls, "case " + n);
        }
      }
      if (shut) {
        seen[3]++;
        assertEquals(Mobility.NO_GO, j.cls, "case " + n);
        assertEquals(0, j.bits);
      }
    }
    for (int i = 0; i < 4; i++) {
      assertTrue(seen[i] > 4, "kind " + i + ": " + seen[i]);
    }
  }

  /** Share of directions on which each limit keeps half the tail, 1 where all keep it together. */
  private static double boxed(double t, double sigma, double tail) {
    int within = 0;
    boolean every = true;
    for (int i = 0; i < 720; i++) {
      double grade = t * Math.cos(Math.PI * i / 360);
      double cross = t * Math.sin(Math.PI * i / 360);
      double sum = 0;
      double most = 0;
      double[] left = {tan(20) - grade, tan(17) + grade, tan(14) - cross, tan(14) + cross};
      for (double l : left) {
        sum += above(l / sigma);
        most = Math.max(most, above(l / sigma));
      }
      every &= sum <= tail;
      within += most <= tail / 2 ? 1 : 0;
    }
    return every ? 1 : within / 720.0;
  }

  private static CellTraversability sure(Terrain t, Vehicle v, double sigma, double breakSigma) {
    LayerErrors errors =
        new LayerErrors(null, sigma, breakSigma, new StepError(1, 1e-9, 1e-9, 1e-9), null, 1e-9);
    Allowances a = Allowances.of(new HeightTrust(0.9, errors), t, null);
    CellTraversability j =
        new CellTraversability(
            new MoveLimits(v, Body.MOON), t, Grounds.noHazard(SPEC), null, UnresolvedRule.SAY, a);
    j.judge(1, 1);
    return j;
  }

  /** Level ground in a bowl: the break ahead is the whole slope or a little less on any heading. */
  @Test
  void aBowlIsSharpOnEveryHeading() {
    Vehicle v = vehicle(true, 0.5, 9, 60, 60, 60);
    double allowed = new MoveLimits(v, Body.MOON).trough;
    Terrain t = Grounds.plane(SPEC, 0, 0);
    for (int i = 0; i < 9; i++) {
      int row = i / 3 - 1;
      int col = i % 3 - 1;
      double outwards = i == 4 ? 0 : allowed / Math.hypot(row, col);
      t.gradEast().values()[i] = (float) (outwards * col);
      t.gradNorth().values()[i] = (float) (-outwards * row);
    }
    CellTraversability j = sure(t, v, 1e-3, 0.5 * allowed);
    // At most as far off as a heading at 26.6 degrees is from the cell that it looks at.
    double cosine = Math.cos(Math.atan(0.5));
    assertTrue(j.noGo01 <= above(2 - 2 * Math.cos(Math.PI / 4 - Math.atan(0.5))) + 1e-4);
    assertTrue(j.noGo01 >= above(2 - 2 * cosine) - 1e-4, "" + j.noGo01);
  }

  /**
   * Climb 20, side 13 degrees, 1.645 sigmas of 0.01 off each; on 21.8 degrees a window from 30 to
   * 32 degrees off the fall line is left, between two headings of which one is open as measured.
   */
  @Test
  void aWindowThatOnlyTheConfidenceNarrowedIsNoWayForTacks() {
    Vehicle v = Vehicles.plain(20.0, 20.0, 13.0);
    Terrain t = Grounds.plane(SPEC, 0, tan(21.8));
    CellTraversability j = sure(t, v, 0.01, 0.01);
    assertEquals(0, j.bits);
    assertEquals(Mobility.NO_GO, j.cls);
    assertTrue(sure(t, v, 1e-6, 0.01).ownBits != 0);
    // Shut on all headings as measured as well: tacks are a way, 36.35 degrees off the fall line.
    double corner = Math.toDegrees(Math.atan(Math.hypot(tan(20), tan(15))));
    CellTraversability tacked =
        sure(
            Grounds.plane(SPEC, 0, tan(corner - 0.01)),
            Vehicles.plain(20.0, 20.0, 15.0),
            1e-7,
            0.01);
    assertEquals(0, tacked.ownBits);
    assertEquals(1 << 2 | 1 << 30 | 1 << 14 | 1 << 18, tacked.tackBits);
    assertEquals(Mobility.SLOW, tacked.cls);
  }

  /** Wheels 2.6 m apart, 1.3 m high: tips sideways at 45 degrees, less a margin of 5. */
  @Test
  void tippingIsNamedWithItsMargin() {
    GridSpec fine = new GridSpec(25, 25, 0.5, 0.5, 0, 12.5, "");
    Terrain t = Grounds.plane(fine, tan(12), 0);
    MoveLimits limits = new MoveLimits(Vehicles.full(4200, 40, 40, 0.3, 5, null), Body.MOON);
    CellTraversability j =
        new CellTraversability(
            limits,
            t,
            Grounds.noHazard(fine),
            new WheelLayout(limits.vehicle(), fine),
            UnresolvedRule.SAY,
            Allowances.NONE);
    j.judge(12, 12);
    // tan 17 over tan 45; the side takes tan 12 over tan 40 = 0.253, without a margin more.
    assertEquals(1 - tan(17), j.margin01, 1e-4);
    assertEquals(Limit.TIP, Limit.ofCode(j.code));
    assertFalse(j.fullOfRocks(0));
    CellTraversability full =
        new CellTraversability(
            limits,
            t,
            Grounds.hazard(fine, Double.POSITIVE_INFINITY),
            null,
            UnresolvedRule.SAY,
            Allowances.NONE);
    assertTrue(full.fullOfRocks(0));
  }

  /** Share of each limit that a heading takes. */
  private static double[] uses(RowPoseEstimator pose, int k, Vehicle v) {
    double grade = pose.grade(k);
    return new double[] {
      grade / tan(v.limits().climbDeg()),
      -grade / tan(v.limits().descendDeg()),
      Math.abs(pose.cross(k)) / tan(v.limits().sideDeg()),
      pose.bellyGroundM(k) / v.body().clearanceM(),
      pose.endsGroundM(k) / v.body().clearanceM(),
      pose.offPlaneM(k) / v.limits().stepM()
    };
  }

  private static int most(double[] uses, int from, int to) {
    int at = from;
    for (int i = from; i < to; i++) {
      at = uses[i] > uses[at] ? i : at;
    }
    return at;
  }

  /**
   * Wheels, belly and ends on rough ground ({@link PoseByHandTest} holds where they lie): what is
   * met counts where the slope holds, the limit that takes most headings is named.
   */
  @Test
  void wheelsOnRoughGround() {
    Random random = new Random(62);
    GridSpec fine = new GridSpec(21, 21, 0.5, 0.5, 0, 10.5, "");
    int[] seen = new int[3];
    int[] named = new int[NAMES.length];
    for (int n = 0; n < 700; n++) {
      double east = 0.22 * random.nextGaussian();
      double north = 0.22 * random.nextGaussian();
      double roughM = 0.16 * random.nextDouble();
      Terrain t = Grounds.plane(fine, east, north);
      for (int i = 0; i < fine.cells(); i++) {
        t.heightM().values()[i] += (float) (roughM * random.nextGaussian());
      }
      double[] deg = {
        10 + 25 * random.nextDouble(), 10 + 25 * random.nextDouble(), 10 + 25 * random.nextDouble()
      };
      double clearM = 0.12 + 0.4 * random.nextDouble();
      Vehicle v = vehicle(n % 2 == 0, clearM, 0.08 + 0.4 * random.nextDouble(), deg);
      MoveLimits limits = new MoveLimits(v, Body.MOON);
      WheelLayout layout = CellTraversability.layout(v, fine);
      CellTraversability j =
          new CellTraversability(
              limits, t, Grounds.noHazard(fine), layout, UnresolvedRule.SAY, Allowances.NONE);
      j.judge(10, 10);
      RowPoseEstimator pose =
          new RowPoseEstimator(
              layout,
              limits,
              fine,
              t.heightM().values(),
              t.gradEast().values(),
              t.gradNorth().values(),
              Allowances.NONE);
      pose.at(10, 10);
      pose.requireBody();
      int open = 0;
      double worst = 0;
      double least = 9;
      Limit worstLimit = null;
      Limit leastLimit = null;
      int[] lost = new int[NAMES.length];
      for (int k = 0; k < Headings.COUNT; k++) {
        double[] uses = uses(pose, k, v);
        int bySlope = most(uses, 0, 3);
        int all = uses[bySlope] <= 1 ? most(uses, 0, 6) : bySlope;
        double use = uses[all];
        open |= use <= 1 ? 1 << k : 0;
        lost[all] += use > 1 ? 1 : 0;
        worstLimit = use > worst ? NAMES[all] : worstLimit;
        worst = Math.max(worst, use);
        leastLimit = use < least ? NAMES[all] : leastLimit;
        least = Math.min(least, use);
      }
      String on = "ground " + n;
      assertEquals(open, j.ownBits, on);
      int count = Integer.bitCount(open);
      if (count == 32) {
        seen[0]++;
        assertEquals(Mobility.GO, j.cls, on);
        assertEquals(1 - worst, j.margin01, 1e-9, on);
        assertEquals(worstLimit, Limit.ofCode(j.code), on);
        assertEquals(1, j.openShare);
      } else if (count > 0) {
        seen[1]++;
        assertEquals(Mobility.SLOW, j.cls, on);
        assertEquals(0, j.margin01, on);
        assertEquals(count / 32.0, j.openShare, 1e-12, on);
        int[] sorted = lost.clone();
        Arrays.sort(sorted);
        if (sorted[5] > sorted[4]) {
          Limit most =
              NAMES[
                  IntStream.range(0, 6)
                      .filter(i -> lost[i] == sorted[5])
                      .findFirst()
                      .orElseThrow()];
          assertEquals(most, Limit.ofCode(j.code), on);
          named[List.of(NAMES).indexOf(most)]++;
        }
      } else if (j.tackBits == 0 && !j.narrow) {
        seen[2]++;
        assertEquals(Mobility.NO_GO, j.cls, on);
        if (Math.abs(j.margin01 - (1 - least)) < 1e-9) {
          assertEquals(leastLimit, Limit.ofCode(j.code), on);
        } else {
          // The plane of the gradient is too steep by itself: slope over the corner of the bounds.
          double corner = Math.hypot(tan(Math.max(deg[0], deg[1])), tan(deg[2]));
          assertEquals(1 - Math.max(1, Math.hypot(east, north) / corner), j.margin01, 1e-5, on);
        }
      }
      assertTrue(Double.isNaN(j.noGo01));
    }
    for (int i = 0; i < 3; i++) {
      assertTrue(seen[i] > 10, "kind " + i + ": " + seen[i]);
    }
    for (int i : named) {
      assertTrue(i > 0, Arrays.toString(named));
    }
  }
}
