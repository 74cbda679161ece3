package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * Pull along and load across a slope against the grip of four wheels that are loaded alike, force
 * by force.
 */
class FrictionCircleTest {
  private static final double G = Body.MOON.gravityMs2();
  private static final GridSpec COARSE = Grounds.square(3, 5);
  private static final GridSpec FINE = Grounds.square(25, 0.5);

  /** Four wheels on soil, no limit of its own, no height of the centre of gravity. */
  private record Drawn(double massKg, double radiusM, double widthM, Soil soil) {
    static Drawn of(Random random) {
      Soil soil =
          VehicleParts.soil(
              "drawn",
              new Soil.Bekker(1, 1400, 400_000 + 2_000_000 * random.nextDouble()),
              new Soil.Shear(
                  400 * random.nextDouble(),
                  25 + 17 * random.nextDouble(),
                  0.01 + 0.02 * random.nextDouble()),
              null);
      return new Drawn(
          100 + 3000 * random.nextDouble(),
          0.25 + 0.3 * random.nextDouble(),
          0.15 + 0.2 * random.nextDouble(),
          soil);
    }

    Vehicle vehicle() {
      return new Vehicle(
          "drawn",
          "",
          massKg,
          new Vehicle.Chassis(3.2, 2.1, 0.9, null, null, null),
          VehicleParts.wheels(List.of(1.15, -1.15), 1.85, radiusM, widthM),
          null,
          null,
          VehicleParts.drive(3.3, null, null, null, null, null, null),
          soil,
          null,
          null);
    }

    /** Share of the grip that a heading takes. */
    double taken(double grade, double cross) {
      double weightN = massKg * G;
      double slope2 = 1 + grade * grade + cross * cross;
      double wheelN = weightN / Math.sqrt(slope2) / 4;
      double z = BekkerSinkage.wheelM(soil.bekker(), widthM, 2 * radiusM, wheelN);
      double contactM = BekkerSinkage.contactLengthM(radiusM, z);
      double restN = 4 * CompactionResistance.newtons(soil.bekker(), widthM, z);
      double alongN = weightN * Math.sin(Math.atan(grade));
      double acrossN = weightN * cross / Math.sqrt(slope2 * (1 + grade * grade));
      if (alongN + restN < 0) {
        return Math.hypot(alongN + restN, acrossN) / thrustN(contactM, wheelN, Slip.USABLE);
      }
      double least = Double.POSITIVE_INFINITY;
      for (int i = 1; i <= 240; i++) {
        double slip = Slip.USABLE * i / 240;
        double resistN = restN * Math.sqrt(SlipSinkage.factor(slip, wheelN));
        double asksN = Math.hypot(alongN + resistN, acrossN);
        least = Math.min(least, asksN / thrustN(contactM, wheelN, slip));
      }
      return least;
    }

    private double thrustN(double contactM, double wheelN, double slip) {
      return 4
          * JanosiShear.fullN(soil.shear(), widthM * contactM, wheelN)
          * JanosiShear.share(slip, contactM, soil.shear().kM());
    }
  }

  @Test
  void holdsWherePullAndLoadKeepWithinTheGrip() {
    Random random = new Random(311);
    int[] counts = new int[2];
    for (int i = 0; i < 300; i++) {
      Drawn d = Drawn.of(random);
      MoveLimits limits = new MoveLimits(d.vehicle(), Body.MOON);
      for (int j = 0; j < 20; j++) {
        double t = Math.tan(Math.toRadians(45 * random.nextDouble()));
        double psi = 2 * Math.PI * random.nextDouble();
        double grade = t * Math.cos(psi);
        double cross = t * Math.sin(psi);
        double taken = d.taken(grade, cross);
        if (Math.abs(taken - 1) > 0.01) {
          boolean straight = grade <= limits.tractionUp && -grade <= limits.tractionDown;
          boolean held = straight && limits.circle.holds(grade, cross);
          assertEquals(taken < 1, held, d + ", " + grade + " along, " + cross + ", " + taken);
          counts[held ? 1 : 0]++;
        }
      }
    }
    assertTrue(counts[0] > 1000 && counts[1] > 1000, counts[0] + " shut, " + counts[1]);
  }

  /** Without a soil grip is no limit, on any slope. */
  @Test
  void withoutSoilEveryHeadingHolds() {
    Vehicle v = new Drawn(900, 0.4, 0.3, null).vehicle();
    MoveLimits limits = new MoveLimits(v, Body.MOON);
    for (double grade : new double[] {-3, 0, 0.4, 3}) {
      assertTrue(limits.circle.holds(grade, 3), "grade " + grade);
      assertEquals(Double.POSITIVE_INFINITY, limits.circle.up(Math.hypot(grade, 3)));
    }
  }

  /**
   * The highest grade that is held on a slope, by halving over headings from straight down to
   * straight up; entries of the table are 1/64 of the slopes between apart, on a concave curve.
   */
  @Test
  void theHighestGradeOfEachSlope() {
    Random random = new Random(314);
    int told = 0;
    for (int i = 0; i < 30; i++) {
      Drawn d = Drawn.of(random);
      MoveLimits limits = new MoveLimits(d.vehicle(), Body.MOON);
      double from = Math.max(0, limits.tractionUp);
      if (!(limits.tractionUp > 0.02) || !(limits.tractionDown > from + 0.1)) {
        continue;
      }
      for (int j = 0; j < 3; j++) {
        double t = from + (limits.tractionDown - from) * (0.05 + 0.85 * random.nextDouble());
        double low = -t;
        double high = t;
        for (int k = 0; k < 20; k++) {
          double grade = (low + high) / 2;
          boolean held = d.taken(grade, Math.sqrt(t * t - grade * grade)) <= 1;
          low = held ? grade : low;
          high = held ? high : grade;
        }
        assertEquals(low, limits.circle.up(t), 0.01, d + ", slope " + t);
        told++;
      }
    }
    assertTrue(told > 20, told + " slopes");
  }

  /** What is open on a plane, heading by heading and as a share of all, on both kinds of cells. */
  @Test
  void noHeadingAsksForMoreThanTheGrip() {
    Random random = new Random(312);
    int open = 0;
    int shutByGripAlone = 0;
    try (Workers workers = new Workers(1)) {
      for (int i = 0; i < 60; i++) {
        Drawn d = Drawn.of(random);
        MoveLimits limits = new MoveLimits(d.vehicle(), Body.MOON);
        double steepest = Math.atan(Math.max(0.2, limits.tractionDown));
        double t = Math.tan(steepest * (0.5 + 0.6 * random.nextDouble()));
        double azimuth = 2 * Math.PI * random.nextDouble();
        double ge = t * Math.sin(azimuth);
        double gn = t * Math.cos(azimuth);
        for (GridSpec spec : List.of(COARSE, FINE)) {
          Mobility m =
              MobilityStage.compute(
                  Grounds.plane(spec, ge, gn),
                  Grounds.noHazard(spec),
                  d.vehicle(),
                  Body.MOON,
                  workers,
                  Progress.NONE);
          int cell = spec.cells() / 2;
          Headings headings = Headings.of(spec);
          for (int k = 0; k < Headings.COUNT; k++) {
            double grade = ge * headings.east(k) + gn * headings.north(k);
            double cross = ge * headings.north(k) - gn * headings.east(k);
            double taken = d.taken(grade, cross);
            boolean straight = grade <= limits.tractionUp && -grade <= limits.tractionDown;
            if (m.field().allows(cell, k) && m.field().pathRatio(cell, k) == 1) {
              assertTrue(taken <= 1.01 && straight, d + ", slope " + t + ", heading " + k);
              open++;
            } else if (straight && taken > 1.01) {
              shutByGripAlone++;
            }
          }
          if (spec.equals(COARSE)) {
            int held = 0;
            for (int a = 0; a < 720; a++) {
              double psi = Math.toRadians((a + 0.5) / 2);
              held += d.taken(t * Math.cos(psi), t * Math.sin(psi)) <= 1 ? 1 : 0;
            }
            assertEquals(held / 7.2, m.headingsPct().values()[cell], 1.5, d + ", slope " + t);
          }
        }
      }
    }
    assertTrue(open > 300 && shutByGripAlone > 200, open + " open, " + shutByGripAlone + " shut");
  }

  /** Normal errors of grade and cross grade, drawn. */
  @Test
  void oddsAreAboveTheRealisedShare() {
    Random random = new Random(313);
    int telling = 0;
    for (int i = 0; i < 150; i++) {
      Drawn d = Drawn.of(random);
      MoveLimits limits = new MoveLimits(d.vehicle(), Body.MOON);
      if (!(limits.tractionUp > 0.05)) {
        continue;
      }
      double along = 0.005 + 0.05 * random.nextDouble();
      boolean alike = i % 3 > 0;
      double across = alike ? along : along * (0.5 + random.nextDouble());
      CircleOdds odds =
          new CircleOdds(limits.circle, limits.tractionUp, limits.tractionDown, along, across);
      double t = limits.tractionDown * random.nextDouble();
      double psi = 2 * Math.PI * random.nextDouble();
      double grade = t * Math.cos(psi);
      double cross = t * Math.sin(psi);
      int draws = 4000;
      int broken = 0;
      for (int j = 0; j < draws; j++) {
        double g = grade + along * random.nextGaussian();
        double c = cross + across * random.nextGaussian();
        boolean straight = g <= limits.tractionUp && -g <= limits.tractionDown;
        broken += straight && limits.circle.holds(g, c) ? 0 : 1;
      }
      double share = (double) broken / draws;
      double bound = odds.broken(grade, cross);
      double noise = 4 * Math.sqrt(share * (1 - share) / draws);
      assertTrue(bound >= share - noise - 1e-4, d + ": " + bound + " below " + share);
      if (alike && share > 0.02 && share < 0.25) {
        telling++;
        assertTrue(bound <= 4 * share, d + ": " + bound + " far above " + share);
      }
    }
    assertTrue(telling > 10, telling + " telling cases");
  }
}
