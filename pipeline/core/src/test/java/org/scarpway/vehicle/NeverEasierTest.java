package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.HornGradient;
import org.scarpway.terrain.Terrain;

/**
 * A cell never gets easier when a limit is tightened, rocks or roughness increase or the soil
 * weakens: by closed forms on planes, and with the wheels on random rough ground.
 */
class NeverEasierTest {
  private static final GridSpec COARSE = Grounds.square(2, 5);
  private static final GridSpec FINE = Grounds.square(18, 1);

  private static Mobility run(Terrain t, Vehicle v, double detour) {
    GridSpec spec = t.gradEast().spec();
    try (Workers w = new Workers(1)) {
      return MobilityStage.compute(t, Grounds.hazard(spec, detour), v, Body.MOON, w, Progress.NONE);
    }
  }

  /** The same vehicle with one number made worse. */
  private static Vehicle worse(int which, double by) {
    Vehicle v = Vehicles.full(4200, 22, 18, 0.4, 2, null);
    Vehicle.Chassis b = v.body();
    Vehicle.Limits l = v.limits();
    Vehicle.Drive d = v.drive();
    Vehicle.Chassis body =
        new Vehicle.Chassis(
            b.lengthM(),
            b.widthM(),
            which == 0 ? b.clearanceM() * (1 - 0.8 * by) : b.clearanceM(),
            b.frontOverhangM(),
            b.rearOverhangM(),
            which == 1 ? b.cgHeightM() * (1 + 2 * by) : b.cgHeightM());
    Vehicle.Limits limits =
        new Vehicle.Limits(
            which == 2 ? l.climbDeg() * (1 - 0.6 * by) : l.climbDeg(),
            which == 3 ? l.descendDeg() * (1 - 0.6 * by) : l.descendDeg(),
            which == 4 ? l.sideDeg() * (1 - 0.6 * by) : l.sideDeg(),
            which == 5 ? l.stepM() * (1 - 0.8 * by) : l.stepM(),
            which == 6 ? l.tipMarginDeg() + 20 * by : l.tipMarginDeg());
    Vehicle.Drive drive =
        VehicleParts.drive(
            which == 7 ? d.speedMs() * (1 - 0.5 * by) : d.speedMs(),
            d.crawlMs(),
            which == 8 ? d.powerW() * (1 - 0.6 * by) : d.powerW(),
            d.efficiency(),
            d.regeneration(),
            d.hotelW(),
            d.rolling());
    Double massKg = which == 9 ? Double.valueOf(v.massKg() * (1 + by)) : v.massKg();
    Vehicle.Wheels w = v.wheels();
    List<Double> tracksM = new ArrayList<>(w.tracksM());
    tracksM.replaceAll(track -> which == 11 ? track * (1 - 0.6 * by) : track);
    if (which == 12) {
      tracksM.set(0, tracksM.get(0) * (1 - 0.6 * by));
    }
    Vehicle.Wheels wheels = VehicleParts.wheels(w.axlesM(), tracksM, w.radiusM(), w.widthM());
    return new Vehicle(
        "worse", "", massKg, body, wheels, limits, v.slowFrom(), drive, null, null, null);
  }

  private static void notEasier(Mobility a, Mobility b, boolean anyHeading) {
    for (int cell = 0; cell < a.cls().values().length; cell++) {
      String where = "cell " + cell;
      assertTrue(b.cls().values()[cell] >= a.cls().values()[cell], where);
      float share = a.headingsPct().values()[cell];
      assertTrue(Float.isNaN(share) || b.headingsPct().values()[cell] <= share + 1e-3, where);
      for (int k = 0; k < Headings.COUNT; k++) {
        double before = a.field().timeSPerM(cell, k);
        double after = b.field().timeSPerM(cell, k);
        // Tacks on a heading that was open only between its windows are compared with the hull of
        // all headings by TacksTest; here with what the cell's own headings give.
        boolean ownBefore = a.field().allows(cell, k) && a.field().pathRatio(cell, k) == 1;
        boolean ownAfter = b.field().allows(cell, k) && b.field().pathRatio(cell, k) == 1;
        assertTrue(!ownAfter || ownBefore, where + " heading " + k);
        if (anyHeading && ownBefore) {
          assertTrue(after >= before * (1 - 1e-6), where + " heading " + k);
        }
      }
    }
  }

  @Property(tries = 300, seed = "20261")
  void worseVehicleOnPlanes(
      @ForAll @DoubleRange(min = -0.5, max = 0.5) double ge,
      @ForAll @DoubleRange(min = -0.5, max = 0.5) double gn,
      @ForAll @DoubleRange(min = 0, max = 0.4) double stepM,
      @ForAll @DoubleRange(min = 0, max = 0.4) double convexityM,
      @ForAll @DoubleRange(min = 0, max = 1) double by,
      @ForAll @IntRange(min = 0, max = 12) int which) {
    Terrain t = Grounds.of(COARSE, (x, y) -> ge * x + gn * y, stepM, 0.05, convexityM);
    notEasier(run(t, worse(10, 0), 1), run(t, worse(which, by), 1), true);
  }

  @Property(tries = 120, seed = "20262")
  void worseVehicleWithWheelsOnRoughGround(
      @ForAll @LongRange(min = 0, max = 1_000_000) long seed,
      @ForAll @DoubleRange(min = 0.02, max = 0.2) double roughM,
      @ForAll @DoubleRange(min = 0, max = 1) double by,
      @ForAll @IntRange(min = 0, max = 9) int which) {
    Terrain t = rough(seed, roughM, 0.05);
    Mobility a = run(t, worse(10, 0), 1);
    assertTrue(a.notes().get(0).startsWith("Wheels set on the ground"));
    notEasier(a, run(t, worse(which, by), 1), true);
  }

  /**
   * Ruts, slip and loss do not shrink because climbing is barred: descents of the same cell stay
   * open. A heavier vehicle sinks deeper but may slip less, and is left out.
   */
  @Property(tries = 80, seed = "20265")
  void limitsDoNotMakeSoilFirmer(
      @ForAll @DoubleRange(min = 0.1, max = 0.4) double slope,
      @ForAll @DoubleRange(min = 0.4, max = 2) double firmness,
      @ForAll @DoubleRange(min = 0.2, max = 1) double by,
      @ForAll @IntRange(min = 0, max = 5) int which) {
    int[] limiting = {2, 3, 4, 6, 8, 12};
    Soil.Bekker b = Vehicles.LUNAR.bekker();
    Soil.Bekker firm = new Soil.Bekker(b.n(), b.kc() * firmness, b.kphi() * firmness);
    Soil soil = VehicleParts.soil("soil", firm, Vehicles.LUNAR.shear(), null);
    Vehicle.SlowFrom slow = new Vehicle.SlowFrom(null, null, null, 30.0, 0.05, 35.0);
    Vehicle before = Vehicles.slowFrom(worse(10, 0).withSoil(soil), slow);
    Vehicle after = Vehicles.slowFrom(worse(limiting[which], by).withSoil(soil), slow);
    MoveLimits a = new MoveLimits(before, Body.MOON);
    MoveLimits c = new MoveLimits(after, Body.MOON);
    assertTrue(c.soft.sinkageM(slope) >= a.soft.sinkageM(slope));
    assertTrue(c.soft.slip(slope) >= a.soft.slip(slope));
    assertTrue(c.soft.lossShare(slope) >= a.soft.lossShare(slope));
    assertTrue(c.bellyM(slope) <= a.bellyM(slope) && c.stepM(slope) <= a.stepM(slope));
    assertTrue((c.soft.slowCauses(slope) != 0) || !(a.soft.slowCauses(slope) != 0));
    // A step between what the ruts of the slope and those of the level leave.
    double stepM = 0.5 * (a.stepM(slope) + a.stepM(0));
    Terrain t = Grounds.of(COARSE, (x, y) -> slope * x, stepM, 0.05, 0);
    notEasier(run(t, before, 1), run(t, after, 1), false);
  }

  private static Terrain rough(long seed, double roughM, double roughnessM) {
    Random random = new Random(seed);
    Terrain flat = Grounds.of(FINE, (x, y) -> 0, 0.1, roughnessM, 0);
    double ge = 0.4 * random.nextDouble() - 0.2;
    double gn = 0.4 * random.nextDouble() - 0.2;
    for (int i = 0; i < FINE.cells(); i++) {
      double x = i % 18;
      double y = -Math.floorDiv(i, 18);
      flat.heightM().values()[i] = (float) (ge * x + gn * y + roughM * random.nextGaussian());
    }
    HornGradient.fill(
        flat.heightM().values(),
        18,
        18,
        0,
        18,
        1,
        1,
        flat.gradEast().values(),
        flat.gradNorth().values());
    return flat;
  }

  @Property(tries = 100, seed = "20263")
  void rocksAndRoughness(
      @ForAll @DoubleRange(min = -0.4, max = 0.4) double ge,
      @ForAll @DoubleRange(min = -0.4, max = 0.4) double gn,
      @ForAll @DoubleRange(min = 0, max = 0.6) double roughnessM,
      @ForAll @DoubleRange(min = 0, max = 0.6) double more,
      @ForAll @DoubleRange(min = 1, max = 3) double detour,
      @ForAll @DoubleRange(min = 0, max = 3) double longer) {
    Grounds.Surface plane = (x, y) -> ge * x + gn * y;
    Vehicle v = Vehicles.full();
    Mobility a = run(Grounds.of(COARSE, plane, 0.1, roughnessM, 0.1), v, detour);
    Terrain rougher = Grounds.of(COARSE, plane, 0.1, roughnessM + more, 0.1);
    Mobility b = run(rougher, v, detour + longer);
    for (int k = 0; k < Headings.COUNT; k++) {
      assertEquals(a.field().allows(0, k), b.field().allows(0, k));
      assertTrue(b.field().timeSPerM(0, k) >= a.field().timeSPerM(0, k));
      assertTrue(b.field().energyJPerM(0, k) >= a.field().energyJPerM(0, k));
    }
    assertTrue(b.cls().values()[0] >= a.cls().values()[0]);
  }

  /**
   * Weaker in any of its numbers: softer in sinkage, less cohesion or friction, more shear needed.
   */
  @Property(tries = 60, seed = "20264")
  void weakerSoil(
      @ForAll @DoubleRange(min = -0.4, max = 0.4) double ge,
      @ForAll @DoubleRange(min = -0.4, max = 0.4) double gn,
      @ForAll @DoubleRange(min = 0, max = 1) double by,
      @ForAll @DoubleRange(min = 2, max = 40) double slipPct,
      @ForAll @IntRange(min = 0, max = 3) int which) {
    Terrain t = Grounds.of(COARSE, (x, y) -> ge * x + gn * y, 0.1, 0.05, 0.1);
    Soil.Bekker b = Vehicles.LUNAR.bekker();
    Soil.Shear s = Vehicles.LUNAR.shear();
    double left = 1 - 0.8 * by;
    Soil weaker =
        VehicleParts.soil(
            "weaker",
            which == 0 ? new Soil.Bekker(b.n(), b.kc() * left, b.kphi() * left) : b,
            new Soil.Shear(
                which == 1 ? s.cohesionPa() * left : s.cohesionPa(),
                which == 2 ? s.frictionDeg() * left : s.frictionDeg(),
                which == 3 ? s.kM() * (1 + 5 * by) : s.kM()),
            null);
    Vehicle v =
        Vehicles.slowFrom(
            Vehicles.full(4200, 22, 18, 0.4, 2, Vehicles.LUNAR),
            new Vehicle.SlowFrom(12.0, 0.15, 0.1, slipPct, 0.05, 35.0));
    // Softer soil also lengthens the contact and may so need less slip: only what can be crossed
    // and where is compared for it, speed for the rest.
    notEasier(run(t, v, 1), run(t, v.withSoil(weaker), 1), which != 0);
  }
}
