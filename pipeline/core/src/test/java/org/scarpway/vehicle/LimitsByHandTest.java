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
 * Every limit on slopes, one by one and together, on planes of any slope and aspect, on cells that
 * do not resolve the wheels and on cells that do. Expected: pitch and roll of the plane on the
 * heading (plane geometry), each held against its limit as an angle.
 */
class LimitsByHandTest {
  private static final double NONE = Double.POSITIVE_INFINITY;
  private static final GridSpec COARSE = Grounds.square(3, 5);
  private static final GridSpec FINE = Grounds.square(25, 0.5);

  // Axles 1.7 m ahead and 1.5 m behind the centre of gravity, 1.9 m high, on tracks of 2.6 m.
  private static final double FRONT_M = 1.7;
  private static final double REAR_M = 1.5;
  private static final double TRACK_M = 2.6;
  private static final double CG_M = 1.9;
  private static final double MASS_KG = 3000;
  private static final double ROLLING = 0.15;

  /** Angles (deg), infinite where there is no such limit. */
  private record Limits(
      double climb,
      double descend,
      double side,
      double soil,
      double power,
      boolean tips,
      double margin) {

    Vehicle vehicle() {
      // Hard soil that takes next to no shear: thrust is friction alone, H = W tan phi.
      Soil friction =
          VehicleParts.soil(
              "hard", new Soil.Bekker(1, 0, 1e17), new Soil.Shear(0, soil, 1e-9), null);
      // Power for the crawl speed at an angle a: W (sin a + rolling cos a) v.
      double a = Math.toRadians(power);
      double weightN = MASS_KG * Body.MOON.gravityMs2();
      double powerW = weightN * (Math.sin(a) + ROLLING * Math.cos(a)) * 0.5 / 0.8;
      boolean noSoil = soil == NONE;
      boolean anyPower = power < NONE;
      return new Vehicle(
          "bounded",
          "",
          MASS_KG,
          new Vehicle.Chassis(4, 3, 0.5, null, null, tips ? CG_M : null),
          VehicleParts.wheels(List.of(FRONT_M, -REAR_M), TRACK_M, 0.4, 0.3),
          new Vehicle.Limits(or(climb), or(descend), or(side), null, tips ? margin : null),
          null,
          VehicleParts.drive(
              3,
              anyPower ? 0.5 : null,
              anyPower ? powerW : null,
              anyPower ? 0.8 : null,
              null,
              null,
              anyPower ? ROLLING : null),
          noSoil ? null : friction,
          null,
          null);
    }

    private static Double or(double deg) {
      return deg == NONE ? null : deg;
    }

    /** Share of each limit that a heading takes, tangents of angles, and which limit it is. */
    double[] uses(double slopeDeg, double psiDeg) {
      double t = tan(slopeDeg);
      double along = t * Math.cos(Math.toRadians(psiDeg));
      double across = Math.abs(t * Math.sin(Math.toRadians(psiDeg)));
      double tip = 0;
      if (tips && t > 0) {
        // The vertical through the centre of gravity leaves the rectangle of the wheels.
        double fore = (along >= 0 ? REAR_M : FRONT_M) / (CG_M * Math.abs(along) / t);
        double aside = TRACK_M / 2 / (CG_M * across / t);
        tip = tan(slopeDeg + margin) / Math.min(fore, aside);
      }
      return new double[] {
        Math.max(0, along) / tan(climb),
        Math.max(0, -along) / tan(descend),
        across / tan(side),
        tip,
        // Wheels that nothing resists hold no slope that is steeper than friction on any heading.
        (t > tan(soil) ? t : Math.abs(along)) / tan(soil),
        Math.max(0, along) / tan(power)
      };
    }
  }

  private static final Limit[] NAMES = {
    Limit.CLIMB, Limit.DESCEND, Limit.SIDE, Limit.TIP, Limit.TRACTION, Limit.POWER
  };

  private static double tan(double deg) {
    return deg == NONE ? NONE : Math.tan(Math.toRadians(deg));
  }

  private static double most(double[] uses) {
    double most = 0;
    for (double use : uses) {
      most = Math.max(most, use);
    }
    return most;
  }

  /** Headings that are open and shut, counted. */
  private static int[] holds(Limits limits, double slopeDeg, double azimuthDeg, Workers workers) {
    int[] counts = new int[2];
    double t = tan(slopeDeg);
    double ge = t * Math.sin(Math.toRadians(azimuthDeg));
    double gn = t * Math.cos(Math.toRadians(azimuthDeg));
    for (GridSpec spec : List.of(COARSE, FINE)) {
      String where = limits + ", " + slopeDeg + " deg towards " + azimuthDeg + ", " + spec.cellXM();
      Mobility m =
          MobilityStage.compute(
              Grounds.plane(spec, ge, gn),
              Grounds.noHazard(spec),
              limits.vehicle(),
              Body.MOON,
              workers,
              Progress.NONE);
      int cell = spec.cells() / 2;
      double worst = 0;
      boolean[] mayShut = new boolean[NAMES.length];
      boolean[] isWorst = new boolean[NAMES.length];
      int surelyShut = 0;
      boolean sure = true;
      for (int k = 0; k < Headings.COUNT; k++) {
        double[] uses = limits.uses(slopeDeg, azimuthDeg - Headings.of(spec).azimuthDeg(k));
        double use = most(uses);
        boolean open = m.field().allows(cell, k) && m.field().pathRatio(cell, k) == 1;
        if (Math.abs(use - 1) > 2e-3) {
          assertEquals(use < 1, open, where + ", heading " + k + ", use " + use);
          counts[use < 1 ? 0 : 1]++;
          surelyShut += use < 1 ? 0 : 1;
        } else {
          sure = false;
        }
        worst = Math.max(worst, use);
        for (int i = 0; i < uses.length; i++) {
          mayShut[i] |= uses[i] > 1 - 2e-3;
        }
      }
      for (int k = 0; k < Headings.COUNT; k++) {
        double[] uses = limits.uses(slopeDeg, azimuthDeg - Headings.of(spec).azimuthDeg(k));
        for (int i = 0; i < uses.length; i++) {
          isWorst[i] |= uses[i] > worst * (1 - 2e-3);
        }
      }
      explains(limits, spec, slopeDeg, azimuthDeg, cell, sure ? surelyShut : -1);
      Limit named = Limit.ofCode(m.limit().values()[cell]);
      int which = List.of(NAMES).indexOf(named);
      if (surelyShut > 0) {
        assertTrue(m.cls().values()[cell] != Mobility.GO, where);
        assertTrue(m.margin01().values()[cell] <= 0, where);
        assertTrue(mayShut[which], where + ": " + named);
      } else if (sure && spec.equals(FINE)) {
        assertEquals(Mobility.GO, m.cls().values()[cell], where);
        assertEquals(1 - worst, m.margin01().values()[cell], 2e-3, where);
        assertTrue(isWorst[which], where + ": " + named);
      }
    }
    return counts;
  }

  /** The share of headings is that of 7200 directions, or of the 32 that wheels are set on. */
  private static void explains(
      Limits limits, GridSpec spec, double slopeDeg, double azimuthDeg, int cell, int shut) {
    double t = tan(slopeDeg);
    double ge = t * Math.sin(Math.toRadians(azimuthDeg));
    double gn = t * Math.cos(Math.toRadians(azimuthDeg));
    CellMobility told =
        MobilityExplain.at(
            Grounds.plane(spec, ge, gn), Grounds.noHazard(spec), limits.vehicle(), Body.MOON, cell);
    assertEquals(slopeDeg, told.slopeDeg(), 1e-4);
    if (spec.equals(COARSE)) {
      int open = 0;
      for (int i = 0; i < 7200; i++) {
        open += most(limits.uses(slopeDeg, (i + 0.5) / 20)) <= 1 ? 1 : 0;
      }
      assertEquals(open / 72.0, told.headingsPct(), 0.3, limits + ", " + slopeDeg + " deg");
    } else if (shut >= 0 && shut < Headings.COUNT) {
      assertEquals(100 * (1 - shut / 32.0), told.headingsPct(), 1e-9);
    }
  }

  private static void oneByOne(Limits limits, double mostDeg) {
    Random random = new Random(41);
    int[] counts = new int[2];
    try (Workers workers = new Workers(1)) {
      for (int i = 0; i < 40; i++) {
        double slopeDeg = 2 + (mostDeg - 2) * random.nextDouble();
        int[] more = holds(limits, slopeDeg, 360 * random.nextDouble(), workers);
        counts[0] += more[0];
        counts[1] += more[1];
      }
    }
    assertTrue(counts[0] > 200 && counts[1] > 200, counts[0] + " open, " + counts[1] + " shut");
  }

  @Test
  void climb() {
    oneByOne(new Limits(17, NONE, NONE, NONE, NONE, false, 0), 40);
  }

  @Test
  void descent() {
    oneByOne(new Limits(NONE, 17, NONE, NONE, NONE, false, 0), 40);
  }

  @Test
  void side() {
    oneByOne(new Limits(NONE, NONE, 14, NONE, NONE, false, 0), 40);
  }

  @Test
  void friction() {
    oneByOne(new Limits(NONE, NONE, NONE, 19, NONE, false, 0), 40);
  }

  @Test
  void power() {
    oneByOne(new Limits(NONE, NONE, NONE, NONE, 16, false, 0), 40);
  }

  @Test
  void tipping() {
    oneByOne(new Limits(NONE, NONE, NONE, NONE, NONE, true, 0), 50);
  }

  @Test
  void tippingWithAMargin() {
    oneByOne(new Limits(NONE, NONE, NONE, NONE, NONE, true, 9), 45);
  }

  /** Any of them may bind. */
  @Test
  void together() {
    Random random = new Random(42);
    try (Workers workers = new Workers(1)) {
      for (int i = 0; i < 150; i++) {
        Limits limits =
            new Limits(
                15 + 20 * random.nextDouble(),
                15 + 20 * random.nextDouble(),
                12 + 20 * random.nextDouble(),
                random.nextBoolean() ? NONE : 15 + 20 * random.nextDouble(),
                NONE,
                random.nextBoolean(),
                8 * random.nextDouble());
        holds(limits, 2 + 35 * random.nextDouble(), 360 * random.nextDouble(), workers);
      }
    }
  }
}
