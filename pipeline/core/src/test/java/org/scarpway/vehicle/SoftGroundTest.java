package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/** Slip, sinkage and loss of speed: class and margin, belly and step above the ruts. */
class SoftGroundTest {
  private static final GridSpec COARSE = Grounds.square(3, 5);
  private static final GridSpec FINE = Grounds.square(25, 0.5);
  private static final double G = Body.MOON.gravityMs2();

  private static Soil soil(double share) {
    return VehicleParts.soil(
        "soft",
        new Soil.Bekker(1, 1400 * share, 820_000 * share),
        new Soil.Shear(170, 35, 0.0178),
        null);
  }

  private static Vehicle on(double share, Vehicle.SlowFrom slow) {
    return Vehicles.slowFrom(Vehicles.full(4200, 20, 15, 0.3, 5, soil(share)), slow);
  }

  private static Vehicle.SlowFrom slow(Double slipPct, Double sinkageM, Double lossPct) {
    return new Vehicle.SlowFrom(null, null, null, slipPct, sinkageM, lossPct);
  }

  private static Mobility run(GridSpec spec, double t, double stepM, double bumpM, Vehicle v) {
    try (Workers w = new Workers(1)) {
      return MobilityStage.compute(
          Grounds.of(spec, (x, y) -> t * x, stepM, 0, bumpM),
          Grounds.noHazard(spec),
          v,
          Body.MOON,
          w,
          Progress.NONE);
    }
  }

  private static int middle(GridSpec spec) {
    return spec.cells() / 2;
  }

  private static byte cls(Mobility m, GridSpec spec) {
    return m.cls().values()[middle(spec)];
  }

  /** Each key alone decides between go and slow where the model crosses it. */
  @Test
  void eachKeySlows() {
    Random random = new Random(20_268);
    int[] seen = new int[4];
    for (int i = 0; i < 30; i++) {
      double share = Math.exp(-1.2 * random.nextDouble());
      // Slopes that the table holds, where nothing lies between its entries.
      double t = 0.005 * random.nextInt(25);
      DriveModel model = new DriveModel(on(share, null), G);
      double slipPct = 100 * model.slip(t);
      double sinkageM = model.sinkageM(t);
      double lossPct = 100 * (1 - model.speedMs(t) / 4.2);
      GridSpec spec = i % 2 == 0 ? COARSE : FINE;
      for (double factor : new double[] {0.97, 1.03}) {
        for (int key = 0; key < 3; key++) {
          Vehicle.SlowFrom from =
              slow(
                  key == 0 ? Double.valueOf(slipPct * factor) : null,
                  key == 1 ? Double.valueOf(sinkageM * factor) : null,
                  key == 2 ? Double.valueOf(lossPct * factor) : null);
          Mobility m = run(spec, t, 0, 0, on(share, from));
          String where = "key " + key + ", slope " + t + ", factor " + factor;
          assertEquals(factor < 1 ? Mobility.SLOW : Mobility.GO, cls(m, spec), where);
          seen[key]++;
        }
      }
      assertEquals(Mobility.GO, cls(run(spec, t, 0, 0, on(share, null)), spec));
    }
    assertEquals(60, seen[0]);
  }

  /**
   * What is left of the largest of the shares: of clearance and step, usable slip, speed to lose.
   */
  @Test
  void marginOnTheLevelCountsThem() {
    for (double share : new double[] {1, 0.4, 0.2}) {
      DriveModel model = new DriveModel(on(share, null), G);
      double sunk = model.sinkageM(0) / 0.3;
      double slipped = model.slip(0) / 0.6;
      double lost = (4.2 - model.speedMs(0)) / (4.2 - 0.8);
      for (GridSpec spec : new GridSpec[] {COARSE, FINE}) {
        float plain = run(spec, 0, 0, 0, on(share, null)).margin01().values()[middle(spec)];
        assertEquals(1 - Math.max(sunk, slipped), plain, 1e-6);
        Mobility m = run(spec, 0, 0, 0, on(share, slow(null, null, 99.0)));
        double use = Math.max(Math.max(sunk, slipped), lost);
        assertEquals(1 - use, m.margin01().values()[middle(spec)], 1e-6);
        Limit expected = sunk == use ? Limit.SINKAGE : lost == use ? null : Limit.TRACTION;
        Limit got = Limit.ofCode(m.limit().values()[middle(spec)]);
        assertTrue(expected == null ? got != Limit.SINKAGE : got == expected, "share " + share);
      }
    }
  }

  /** Bumps and steps close ground where they meet belly or wheel above the rut of the slope. */
  @Test
  void rutsTakeClearanceAndStep() {
    Random random = new Random(20_269);
    for (int i = 0; i < 40; i++) {
      double share = Math.exp(-1.2 * random.nextDouble());
      double t = 0.12 * random.nextDouble();
      double rutM = new DriveModel(on(share, null), G).sinkageM(t);
      for (double factor : new double[] {0.98, 1.02}) {
        Mobility step = run(COARSE, t, (0.3 - rutM) * factor, 0, on(share, null));
        Mobility bump = run(COARSE, t, 0, (0.42 - rutM) * factor, on(share, null));
        assertEquals(factor > 1, cls(step, COARSE) == Mobility.NO_GO, "step on slope " + t);
        assertEquals(factor > 1, cls(bump, COARSE) == Mobility.NO_GO, "bump on slope " + t);
      }
    }
  }

  /**
   * Wheels that sink deeper than belly or step allow, on planes with hairs on them: the sinkage or
   * the traction is the cause in all cases, in what is explained too.
   */
  @Test
  void wheelsThatSinkTooDeepAreTheCause() {
    Random random = new Random(20_270);
    int sunk = 0;
    for (int i = 0; i < 60; i++) {
      Vehicle v = on(0.01 + 0.2 * random.nextDouble(), null);
      double t = 0.2 * random.nextDouble();
      double rutM = new DriveModel(v, G).sinkageM(t);
      GridSpec spec = i % 2 == 0 ? COARSE : FINE;
      double hairM = 3e-5 * random.nextDouble();
      if (rutM > 0.3 * 1.001) {
        sunk++;
        Mobility m = run(spec, t, hairM, hairM, v);
        Limit limit = Limit.ofCode(m.limit().values()[middle(spec)]);
        assertEquals(Mobility.NO_GO, cls(m, spec));
        String where = limit + ", ruts of " + rutM + " m on slope " + t;
        assertTrue(limit == Limit.SINKAGE || limit == Limit.TRACTION, where);
        CellMobility told =
            MobilityExplain.at(
                Grounds.of(spec, (x, y) -> t * x, hairM, 0, hairM),
                Grounds.noHazard(spec),
                v,
                Body.MOON,
                middle(spec));
        assertEquals(limit, told.binding());
        List<CellMobility.Check> checks = new ArrayList<>(told.checks());
        told.headings().forEach(h -> checks.addAll(h.checks()));
        for (CellMobility.Check c : checks) {
          boolean contact = c.limit() == Limit.STEP || c.limit() == Limit.CLEARANCE;
          assertTrue(c.held() || !contact, c + ", " + where);
        }
      }
    }
    assertTrue(sunk > 20, sunk + " of 60");
  }

  /** A ridge between the wheels, on cells that show it, by the belly's height above the ruts. */
  @Test
  void bellyMeetsARidgeAboveTheRuts() {
    double rutM = new DriveModel(on(1, null), G).sinkageM(0);
    Vehicle v = Vehicles.slowFrom(Vehicles.full(4200, 20, 15, 3, 5, soil(1)), null);
    for (double factor : new double[] {0.98, 1.02}) {
      double highM = (0.42 - rutM) * factor;
      GridSpec spec = FINE;
      double axisM = spec.xM(12);
      try (Workers w = new Workers(1)) {
        Mobility m =
            MobilityStage.compute(
                Grounds.of(spec, (x, y) -> Math.abs(x - axisM) < 0.3 ? highM : 0, 0, 0, 0),
                Grounds.noHazard(spec),
                v,
                Body.MOON,
                w,
                Progress.NONE);
        // Along the ridge, wheels on level ground on either side.
        assertEquals(factor < 1, m.field().allows(middle(spec), 0), "ridge of " + highM);
      }
    }
  }

  /** Deeper with more slip and with a lighter wheel's law; a heavier wheel always sinks deeper. */
  @Test
  void sinkageGrowsWithSlipAndLoad() {
    for (double n : new double[] {0.3, 1, 2.9}) {
      Soil.Bekker bekker = new Soil.Bekker(n, 1000, 800_000);
      for (double slip = 0; slip <= 0.6; slip += 0.05) {
        double before = 0;
        for (double loadN = 20; loadN < 3000; loadN *= 1.1) {
          double factor = SlipSinkage.factor(slip, loadN);
          assertTrue(factor >= (1 + slip) / (1 - slip / 2) - 1e-12);
          assertTrue(slip == 0 || factor > SlipSinkage.factor(slip - 0.05, loadN));
          double z = BekkerSinkage.wheelM(bekker, 0.3, 0.8, loadN) * factor;
          assertTrue(z > before, "n " + n + ", slip " + slip + ", load " + loadN);
          before = z;
        }
      }
    }
    assertEquals(1, SlipSinkage.factor(0, 100), 1e-15);
    assertEquals(SlipSinkage.factor(0.4, 80), SlipSinkage.factor(0.4, 10), 1e-15);
  }
}
