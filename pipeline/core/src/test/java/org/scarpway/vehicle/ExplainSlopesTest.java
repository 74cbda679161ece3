package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.scarpway.vehicle.MobilityExplainTest.deg;
import static org.scarpway.vehicle.MobilityExplainTest.find;
import static org.scarpway.vehicle.MobilityExplainTest.slope;
import static org.scarpway.vehicle.MobilityExplainTest.tells;
import static org.scarpway.vehicle.MobilityExplainTest.told;

import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.RiceGradient;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.vehicle.CellMobility.Check;
import org.scarpway.vehicle.CellMobility.OnHeading;

/** What is told of speed lost, of stopping within sight, of grip and of limits broken by chance. */
class ExplainSlopesTest {
  private static double tan(double deg) {
    return Math.tan(Math.toRadians(deg));
  }

  private static Vehicle with(Vehicle v, Vehicle.SlowFrom slow, Vehicle.Drive drive) {
    return new Vehicle(
        v.name(),
        "",
        v.massKg(),
        v.body(),
        v.wheels(),
        v.limits(),
        slow,
        drive,
        v.soil(),
        v.batteryKwh(),
        v.crew());
  }

  /**
   * 9 kW at 0.65 carry 4200 kg on the Moon straight up at v = P / (m g (sin + 0.12 cos)), of a
   * rated 4.2 m/s; all but the crawl of 0.8 m/s may be lost.
   */
  @Test
  void speedThatIsLost() {
    Vehicle full = Vehicles.full(4200, 30, 30, 0.3, 5, null);
    Vehicle v = with(full, new Vehicle.SlowFrom(null, null, null, null, null, 20.0), full.drive());
    double most = 100 * (1 - 0.8 / 4.2);
    for (int i = 0; i <= 5; i++) {
      // Entries of the table lie 0.005 apart.
      double t = 0.1 * i;
      double a = Math.atan(t);
      double speed =
          9000 * 0.65 / (4200 * Body.MOON.gravityMs2() * (Math.sin(a) + 0.12 * Math.cos(a)));
      double lost = 100 * (1 - Math.min(4.2, speed) / 4.2);
      CellMobility m = told(slope(deg(t)), v);
      Check check = find(m.checks(), "speed lost");
      if (lost > 0) {
        assertEquals(Limit.POWER, check.limit());
        assertEquals(lost, check.got(), 0.01);
        assertEquals(most, check.allowed(), 1e-9);
      } else {
        assertNull(check);
      }
    }
    assertNull(find(told(slope(20), full).checks(), "speed lost"));
  }

  /** Brakes of 0.4 m/s2 on the Moon hold a descent whose pull is less, with a little left. */
  @Test
  void gradesOnWhichItStopsWithinSight() {
    Vehicle full = Vehicles.full(4200, 40, 40, 0.3, 0, null);
    Vehicle v =
        with(
            full,
            full.slowFrom(),
            new Vehicle.Drive(
                4,
                0.8,
                null,
                null,
                null,
                null,
                0.1,
                0,
                1,
                null,
                false,
                new Vehicle.Sight(15, 0.4, 1)));
    MoveLimits limits = new MoveLimits(v, Body.MOON);
    CellMobility m = told(slope(8), v);
    for (OnHeading h : m.headings()) {
      Check sight = find(h.checks(), "stops on within sight");
      boolean up = h.gradeDeg() >= 0;
      double most = up ? limits.stoppedUp : limits.stopped;
      if (most < Double.POSITIVE_INFINITY) {
        assertEquals(Limit.SIGHT, sight.limit());
        assertTrue(sight.what().startsWith(up ? "climb" : "descent"), sight.what());
        assertEquals(Math.abs(h.gradeDeg()), sight.got(), 1e-4);
        assertEquals(deg(most), sight.allowed(), 1e-9);
      } else {
        assertNull(sight);
      }
    }
    assertTrue(limits.stopped < tan(40));
  }

  /**
   * On every heading, climbs too, sight is named where the same vehicle would be faster without it.
   */
  @Test
  void headingsOnWhichSightTakesSpeed() {
    Random random = new Random(19);
    int climbs = 0;
    int others = 0;
    for (int i = 0; i < 40; i++) {
      Vehicle blind = Vehicles.full(4200, 30, 30, 0.3, 5, i % 2 == 0 ? null : Vehicles.LUNAR);
      Vehicle.Drive d = blind.drive();
      Vehicle.Sight sight = new Vehicle.Sight(3 + 25 * random.nextDouble(), 0.6, 1);
      Vehicle.Drive seen =
          new Vehicle.Drive(
              d.speedMs(),
              d.crawlMs(),
              d.powerW(),
              d.efficiency(),
              d.regeneration(),
              d.hotelW(),
              d.rolling(),
              d.turnRadiusM(),
              d.passes(),
              d.mobilityIndex(),
              d.tracked(),
              sight);
      double slopeDeg = 20 * random.nextDouble();
      List<OnHeading> all = told(slope(slopeDeg), blind).headings();
      List<OnHeading> within =
          told(slope(slopeDeg), with(blind, blind.slowFrom(), seen)).headings();
      for (int k = 0; k < all.size(); k++) {
        OnHeading h = within.get(k);
        boolean slower = h.speedMs() < all.get(k).speedMs() * (1 - 1e-9);
        if (h.allowed() && !h.byTacks()) {
          // Tables of speed have entries 0.00125 apart, so corners of the curve are cut.
          boolean corner = h.speedMs() > all.get(k).speedMs() * (1 - 1e-3);
          assertTrue(slower == h.bySight() || corner, i + " " + h + " of " + all.get(k).speedMs());
          climbs += h.bySight() && h.gradeDeg() > 1 ? 1 : 0;
          others += h.bySight() ? 0 : 1;
        }
        assertFalse(all.get(k).bySight());
      }
    }
    assertTrue(climbs > 100 && others > 100, climbs + " climbs, " + others + " others");
  }

  /** What the circle of grip leaves for the grade on the slope of each heading's own plane. */
  @Test
  void gripBesideTheSideSlope() {
    Vehicle v = Vehicles.full(4200, 30, 30, 0.3, 0, Vehicles.LUNAR);
    MoveLimits limits = new MoveLimits(v, Body.MOON);
    int met = 0;
    for (double slopeDeg = 2; slopeDeg < 30; slopeDeg += 2) {
      for (OnHeading h : told(slope(slopeDeg), v).headings()) {
        double held = limits.circle.up(tan(slopeDeg));
        if (held < Double.POSITIVE_INFINITY) {
          tells(h.checks(), "beside the side slope", Limit.TRACTION, h.gradeDeg(), deg(held));
          met++;
        } else {
          assertNull(find(h.checks(), "beside the side slope"));
        }
      }
    }
    assertTrue(met > 32, "" + met);
  }

  /**
   * Wheels on rough ground, heights of a known error: the limit that is nearest on the slope of the
   * wheels, not on that of the cell, and the slope of the cell itself counted once more.
   */
  @Test
  void limitsThatMayBeBroken() {
    GridSpec fine = Grounds.square(25, 0.5);
    Random random = new Random(313);
    Set<Limit> named = EnumSet.noneOf(Limit.class);
    int both = 0;
    for (int n = 0; n < 100; n++) {
      Vehicle v =
          Vehicles.full(
              4200,
              16 + 8 * random.nextDouble(),
              18 + 8 * random.nextDouble(),
              0.3,
              12 + 8 * random.nextDouble(),
              null);
      double t = tan(v.limits().steepestDeg()) * (0.9 + 0.09 * random.nextDouble());
      double uphill = 2 * Math.PI * random.nextDouble();
      Terrain ground = Grounds.plane(fine, t * Math.sin(uphill), t * Math.cos(uphill));
      double scale = 0.2 + 0.6 * random.nextDouble();
      for (int i = 0; i < fine.cells(); i++) {
        double z = scale * ground.heightM().values()[i] + 0.05 * random.nextGaussian();
        ground.heightM().values()[i] = (float) z;
      }
      LayerErrors errors =
          LayerErrors.of(new TerrainParams(SlopeMethod.HORN, 5, 2.6, 3.4, 0.04, null, null), fine);
      HeightTrust trust = new HeightTrust(0.9, errors);
      MoveLimits limits = new MoveLimits(v, Body.MOON);
      WheelLayout layout = new WheelLayout(v, fine);
      Allowances a = Allowances.of(trust, ground, layout);
      SlopeBounds bounds = new SlopeBounds(limits, a, a.gradientSigma, a.gradientSigma);
      RowPoseEstimator pose =
          new RowPoseEstimator(
              layout,
              limits,
              fine,
              ground.heightM().values(),
              ground.gradEast().values(),
              ground.gradNorth().values(),
              a);
      pose.at(12, 12);
      double cell = RiceGradient.exceedance(t, tan(v.limits().steepestDeg()), errors.gradient());
      CellMobility m =
          MobilityExplain.at(
              ground,
              Grounds.noHazard(fine),
              new MobilityExplain.Limits(v, Body.MOON, UnresolvedRule.SAY, trust),
              null,
              12 * 25 + 12);
      Check step = find(m.checks(), "probability that a step");
      assertEquals(Limit.STEP, step.limit());
      assertEquals(0.1, step.allowed(), 1e-12);
      for (int k = 0; k < Headings.COUNT; k++) {
        double grade = pose.grade(k);
        double cross = pose.cross(k);
        bounds.at(Math.hypot(grade, cross));
        Check check = find(m.headings().get(k).checks(), "probability that a slope");
        assertEquals(bounds.limit(grade, cross), check.limit(), "ground " + n + ", heading " + k);
        double slopes = pose.slopesBroken(k);
        assertEquals(Math.min(1, slopes + cell), check.got(), 1e-4);
        named.add(check.limit());
        both += cell > 0.01 && slopes > 0.01 && slopes + cell < 1 ? 1 : 0;
      }
    }
    assertTrue(named.contains(Limit.TIP) && named.size() >= 3, named.toString());
    assertTrue(both > 50, "" + both);
  }
}
