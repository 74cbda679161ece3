package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** Bounds that must hold with a probability, against normal errors summed up heading by heading. */
class SlopeOddsTest {
  private static final GridSpec SPEC = Grounds.square(6, 5);
  private static final int DIRECTIONS = 240;

  private static Allowances allowances(double confidence) {
    TerrainParams params = new TerrainParams(SlopeMethod.HORN, 8, 2.6, 3.4, 0.1, null, null);
    HeightTrust trust = new HeightTrust(confidence, LayerErrors.of(params, SPEC));
    return Allowances.of(trust, Grounds.plane(SPEC, 0, 0), null);
  }

  /** Probability that a normal value lies above x sigmas, by Simpson's rule up to 10. */
  private static double above(double x) {
    if (x < 0) {
      return 1 - above(-x);
    }
    int n = 100;
    double h = Math.max(0, 10 - x) / n;
    double sum = 0;
    for (int i = 0; i <= n; i++) {
      double at = x + i * h;
      sum += Math.exp(-0.5 * at * at) * (i == 0 || i == n ? 1 : i % 2 == 1 ? 4 : 2);
    }
    return sum * h / 3 / Math.sqrt(2 * Math.PI);
  }

  private static double tan(double deg) {
    return Math.tan(Math.toRadians(deg));
  }

  /** One kind of vehicle, its limits and errors. */
  private static final class Drawn {
    final double up;
    final double down;
    final double side;
    final double along;
    final double across;
    final double tail;
    final SlopeBounds bounds;

    Drawn(Random random, double largest) {
      double climb = 14 + 14 * random.nextDouble();
      double descend = 14 + 14 * random.nextDouble();
      double rated = 12 + 14 * random.nextDouble();
      up = tan(climb);
      down = tan(descend);
      side = tan(rated);
      along = largest * (0.1 + random.nextDouble());
      across = largest * (0.1 + random.nextDouble());
      tail = 0.02 + 0.2 * random.nextDouble();
      MoveLimits limits = new MoveLimits(Vehicles.plain(climb, descend, rated), Body.MOON);
      bounds = new SlopeBounds(limits, allowances(1 - tail), along, across);
    }

    double[] each(double grade, double cross) {
      return new double[] {
        above((up - grade) / along),
        above((down + grade) / along),
        above((side - cross) / across),
        above((side + cross) / across)
      };
    }

    double broken(double grade, double cross) {
      double sum = 0;
      for (double p : each(grade, cross)) {
        sum += p;
      }
      return sum;
    }
  }

  @Test
  void aHeadingIsOpenWhereAllLimitsTogetherKeepTheConfidence() {
    Random random = new Random(81);
    int open = 0;
    int shut = 0;
    for (int n = 0; n < 3000; n++) {
      Drawn d = new Drawn(random, 0.03);
      double grade = 0.9 * (random.nextDouble() - 0.5);
      double cross = 0.9 * (random.nextDouble() - 0.5);
      double broken = d.broken(grade, cross);
      assertEquals(Math.min(1, broken), d.bounds.broken(grade, cross), 2e-6);
      if (Math.abs(broken - d.tail) < 0.01 * d.tail) {
        continue;
      }
      boolean holds = broken < d.tail;
      d.bounds.at(Math.hypot(grade, cross));
      double use = d.bounds.use(grade, cross);
      assertEquals(holds, use <= LimitUse.FULL, "case " + n + ", broken with " + broken);
      double[] row = new double[1];
      for (int sign = -1; sign <= 1; sign += 2) {
        double[] g = {sign * grade};
        double[] c = {sign * cross};
        d.bounds.fillUse(d.bounds.plain(), sign, 1, g, c, 9, row);
        assertEquals(holds, row[0] <= LimitUse.FULL, "row " + n);
        assertEquals(Math.min(9, use), row[0], 1e-9);
      }
      open += holds ? 1 : 0;
      shut += holds ? 0 : 1;
    }
    assertTrue(open > 400 && shut > 400, open + " open, " + shut + " shut");
  }

  /** What is told of all headings of a slope, against each of many. */
  @Test
  void whatIsToldOfAllHeadings() {
    Random random = new Random(82);
    int[] seen = new int[6];
    for (int n = 0; n < 240; n++) {
      Drawn d = new Drawn(random, n % 2 == 0 ? 0.03 : 0.1);
      double t = 0.7 * random.nextDouble();
      double most = 0;
      double leastWorst = 1;
      double boxed = 0;
      for (int k = 0; k < DIRECTIONS; k++) {
        double psi = 2 * Math.PI * k / DIRECTIONS;
        double grade = t * Math.cos(psi);
        double cross = t * Math.sin(psi);
        most = Math.max(most, d.broken(grade, cross));
        double worst = 0;
        int within = 1;
        for (double p : d.each(grade, cross)) {
          worst = Math.max(worst, p);
          within &= p <= d.tail / 2 ? 1 : 0;
        }
        leastWorst = Math.min(leastWorst, worst);
        boxed += within;
      }
      SlopeBounds b = d.bounds;
      b.at(t);
      String what = "case " + n;
      if (Math.abs(most - d.tail) > 0.02 * d.tail) {
        assertEquals(most < d.tail, b.everyHeading(t), what);
        seen[most < d.tail ? 0 : 1]++;
      }
      if (Math.abs(leastWorst - d.tail) > 0.03 * d.tail) {
        assertEquals(leastWorst > d.tail, b.shuts(t), what);
        seen[leastWorst > d.tail ? 2 : 3]++;
      }
      double share = most < d.tail ? 1 : boxed / DIRECTIONS;
      if (Math.abs(most - d.tail) > 0.02 * d.tail) {
        assertEquals(share, b.share(t), 0.02, what);
        if (share > 0.02 || b.share(t) == 0) {
          assertEquals(share > 0, b.open(t), what);
          seen[share > 0 ? 4 : 5]++;
        }
      }
    }
    for (int i = 0; i < 6; i++) {
      assertTrue(seen[i] > 10, "kind " + i + ": " + seen[i]);
    }
  }

  /** Errors of the cross grade that leave no side slope at all. */
  @Test
  void errorsThatTakeTheWholeSideLimit() {
    MoveLimits limits = new MoveLimits(Vehicles.plain(20.0, 20.0, 10.0), Body.MOON);
    SlopeBounds b = new SlopeBounds(limits, allowances(0.9), 0.01, 0.2);
    for (double t : new double[] {0, 0.05, 0.3}) {
      b.at(t);
      assertTrue(b.use(t, 0) > 1 && b.use(0, t) > 1 && b.use(-t, 0) > 1, "slope " + t);
      assertFalse(b.open(t) || b.everyHeading(t));
      assertTrue(b.shuts(t));
      assertEquals(0, b.share(t));
      assertEquals(LimitUse.BLOCKED, b.leastUse(t));
      assertEquals(Limit.SIDE, b.nearest(t));
      assertEquals(Limit.SIDE, b.limit(t, 0));
      assertEquals(Limit.SIDE, b.limit(0, t));
    }
    // On the level the four probabilities are those of tan 10 over 0.2, twice.
    assertEquals(2 * above(tan(10) / 0.2), b.broken(0, 0), 1e-5);
    assertTrue(Double.isNaN(new SlopeBounds(limits).broken(0, 0)));
  }

  /** No descent is left: what may be one by the error of the heights is shut, and named so. */
  @Test
  void whereNoDescentIsLeftOnlyClimbsThatAreSureAreOpen() {
    MoveLimits downhill = new MoveLimits(Vehicles.plain(20.0, 0.0, 15.0), Body.MOON);
    SlopeBounds d = new SlopeBounds(downhill, allowances(0.9), 0.01, 0.01);
    assertTrue(d.down < 0, "down " + d.down);
    for (int i = 0; i <= 20; i++) {
      double grade = -0.2 + 0.0199 * i;
      boolean sure = 1 - above(grade / 0.01) > 0.9;
      if (grade < 0.8 * -d.down || !sure) {
        assertTrue(d.use(grade, 0) > 1, "grade " + grade);
        assertEquals(Limit.DESCEND, d.limit(grade, 0), "grade " + grade);
      }
    }
    assertTrue(d.use(0.1, 0) <= 1);
    assertEquals(Limit.DESCEND, d.nearest(0.003));
    assertEquals(LimitUse.BLOCKED, d.leastUse(0.003));
  }

  /** The least of climb, traction and power uphill, of descent and traction downhill. */
  @Test
  void theLeastOfTheGradesBindsAndIsNamed() {
    Vehicle full = Vehicles.full(4200, 20, 15, 0.3, 0, Vehicles.LUNAR);
    Vehicle weak = Vehicles.powered(full, 1500);
    Soil sand =
        VehicleParts.soil("sand", Vehicles.LUNAR.bekker(), new Soil.Shear(10, 12, 0.02), null);
    Vehicle slides = Vehicles.full(4200, 35, 15, 0.3, 0, sand);
    Vehicle gentle = Vehicles.full(4200, 3, 15, 0.3, 0, Vehicles.LUNAR);
    Limit[] uphill = {Limit.POWER, Limit.TRACTION, Limit.CLIMB};
    Limit[] downhill = {Limit.DESCEND, Limit.TRACTION, Limit.DESCEND};
    List<Vehicle> vehicles = List.of(weak, slides, gentle);
    for (int i = 0; i < 3; i++) {
      DriveModel model = new DriveModel(vehicles.get(i), Body.MOON.gravityMs2());
      double rated = Math.tan(Math.toRadians(vehicles.get(i).limits().climbDeg()));
      double power = model.steepestPoweredGrade();
      double up = Math.min(rated, Math.min(power, model.steepestDrivenGrade()));
      double down = Math.min(rated, model.steepestHeldGrade());
      SlopeBounds b = new SlopeBounds(new MoveLimits(vehicles.get(i), Body.MOON));
      assertEquals(up, b.up, 1e-12, "vehicle " + i);
      assertEquals(down, b.down, 1e-12);
      assertEquals(uphill[i], b.upLimit);
      assertEquals(downhill[i], b.downLimit);
      assertEquals(uphill[i], b.limit(up, 0));
      assertEquals(downhill[i], b.limit(-down, 0));
      assertEquals(Limit.SIDE, b.limit(0, 1));
      SlopeBounds sure =
          new SlopeBounds(
              new MoveLimits(vehicles.get(i), Body.MOON), allowances(0.9), 0.004, 0.004);
      assertEquals(uphill[i], sure.upLimit);
      assertEquals(downhill[i], sure.downLimit);
      assertEquals(Limit.SIDE, sure.sideLimit);
      // 1.645 sigmas: a tail of 0.05 for each of two.
      assertEquals(up - 1.6448536 * 0.004, sure.up, 1e-7);
      assertEquals(down - 1.6448536 * 0.004, sure.down, 1e-7);
      assertEquals(tan(15) - 1.6448536 * 0.004, sure.side, 1e-7);
    }
  }

  /** A limit of 0 is no plain share; without errors the bounds themselves shut a slope. */
  @Test
  void boundsOfNothing() {
    for (int zero = 0; zero < 4; zero++) {
      Vehicle v =
          Vehicles.plain(zero == 0 ? 0.0 : 20.0, zero == 1 ? 0.0 : 20.0, zero == 2 ? 0.0 : 15.0);
      SlopeBounds b = new SlopeBounds(new MoveLimits(v, Body.MOON));
      assertEquals(zero == 3, b.plain());
    }
    SlopeBounds b = new SlopeBounds(new MoveLimits(Vehicles.plain(20.0, 20.0, 15.0), Body.MOON));
    double corner = Math.hypot(tan(20), tan(15));
    b.at(0.4);
    assertTrue(!b.shuts(0.99 * corner) && b.shuts(1.01 * corner));
  }

  /** No descent is left below 1.645 sigmas of 0.01: gentle climbs may be descents. */
  @Test
  void climbsThatMayBeDescentsAreNamedSo() {
    MoveLimits downhill = new MoveLimits(Vehicles.plain(20.0, 0.0, 15.0), Body.MOON);
    SlopeBounds d = new SlopeBounds(downhill, allowances(0.9), 0.01, 0.01);
    for (double grade : new double[] {0, 0.005, 0.011}) {
      assertEquals(Limit.DESCEND, d.limit(grade, 0), "grade " + grade);
      assertTrue(d.use(grade, 0) > 1, "grade " + grade);
    }
    for (double grade : new double[] {0.017, 0.1, 0.3}) {
      assertEquals(Limit.CLIMB, d.limit(grade, 0), "grade " + grade);
      assertTrue(d.use(grade, 0) <= 1, "grade " + grade);
    }
  }

  private static SlopeBounds plain(Double climb, Double descend, Double side) {
    return new SlopeBounds(new MoveLimits(Vehicles.plain(climb, descend, side), Body.MOON));
  }

  /** A bound of 0 leaves what lies along it; what is not limited is not compared with. */
  @Test
  void boundsAtTheirEnds() {
    SlopeBounds straight = plain(20.0, 20.0, 0.0);
    straight.at(0.1);
    assertEquals(0.1 / tan(20), straight.use(0.1, 0), 1e-12);
    assertEquals(0.1 / tan(20), straight.use(-0.1, 0), 1e-12);
    SlopeBounds free = plain(null, null, null);
    assertEquals(Limit.CLIMB, free.upLimit);
    assertEquals(Limit.DESCEND, free.downLimit);
    assertTrue(Double.isNaN(free.leastUse(0.3)));
    assertTrue(Double.isNaN(plain(0.0, 0.0, 15.0).leastUse(0.3)));
    double corner = Math.hypot(tan(20), tan(15));
    assertEquals(0.1 / corner, plain(0.0, 20.0, 15.0).leastUse(0.1), 1e-12);
    assertEquals(0.1 / corner, plain(20.0, 0.0, 15.0).leastUse(0.1), 1e-12);
    // Alike: along before across, up before down.
    SlopeBounds even = plain(20.0, 20.0, 20.0);
    assertEquals(Limit.CLIMB, even.nearest(1));
    assertEquals(Limit.CLIMB, even.limit(0.1, 0.1));
    assertEquals(Limit.CLIMB, even.limit(0, 0));
    assertEquals(Limit.SIDE, even.limit(0.1, 0.1000001));
    MoveLimits limits = new MoveLimits(Vehicles.plain(20.0, 20.0, 15.0), Body.MOON);
    assertNull(new SlopeBounds(limits, allowances(0.9), 0, 0).odds);
    SlopeBounds sure = new SlopeBounds(limits, allowances(0.9), 0.01, 0.01);
    double every = sure.odds.everyHeading;
    assertTrue(sure.everyHeading(every) && !sure.everyHeading(every + 1e-9));
  }

  /** Slope and margin stand on end: tipping leaves nothing, which is what was rated anyhow. */
  @Test
  void nothingLeftByTippingAndByRating() {
    Vehicle v =
        new Vehicle(
            "none",
            "",
            null,
            new Vehicle.Chassis(4, 2.2, 0.4, null, null, 1.0),
            VehicleParts.wheels(List.of(1.4, -1.2), List.of(2.0, 2.0), 0.3, 0.3),
            new Vehicle.Limits(0.0, 0.0, 0.0, null, 10.0),
            null,
            VehicleParts.drive(3, null, null, null, null, null, null),
            null,
            null,
            null);
    SlopeBounds b = new SlopeBounds(new MoveLimits(v, Body.MOON));
    b.at(tan(81));
    assertEquals(Limit.CLIMB, b.upLimit);
    assertEquals(Limit.DESCEND, b.downLimit);
    assertEquals(Limit.SIDE, b.sideLimit);
    assertEquals(0, b.up + b.down + b.side);
    assertFalse(b.plain());
  }

  /** Axles of different tracks: within the rectangle of the bounds nothing tips. */
  @Test
  void theRectangleOfSkewedBoundsStands() {
    Random random = new Random(83);
    for (int n = 0; n < 200; n++) {
      double front = 1.2 + 1.4 * random.nextDouble();
      double rear = 1.2 + 1.4 * random.nextDouble();
      Vehicle v = Vehicles.onTracks(Vehicles.full(4200, 35, 35, 0.3, 4, null), front, 1.2, rear);
      SlopeBounds b = new SlopeBounds(new MoveLimits(v, Body.MOON));
      double t = 0.6 * random.nextDouble();
      b.at(t);
      for (int k = 0; k < DIRECTIONS; k++) {
        double psi = 2 * Math.PI * k / DIRECTIONS;
        double grade = t * Math.cos(psi);
        double cross = t * Math.sin(psi);
        if (grade <= b.up && -grade <= b.down && Math.abs(cross) <= b.side) {
          assertTrue(b.use(grade, cross) <= LimitUse.FULL, "case " + n);
        }
      }
    }
  }
}
