package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.CellMobility.Check;
import org.scarpway.vehicle.CellMobility.OnHeading;

class MobilityPropertiesTest {
  private static final GridSpec SPEC = Grounds.square(2, 5);

  private static Mobility run(double ge, double gn, double stepM, double detour, Vehicle v) {
    Terrain t = Grounds.of(SPEC, (x, y) -> ge * x + gn * y, stepM, 0.05, 0.1);
    try (Workers w = new Workers(1)) {
      return MobilityStage.compute(t, Grounds.hazard(SPEC, detour), v, Body.MOON, w, Progress.NONE);
    }
  }

  @Property(tries = 200, seed = "20260")
  void tighterLimitsNeverEaseACell(
      @ForAll @DoubleRange(min = -0.6, max = 0.6) double ge,
      @ForAll @DoubleRange(min = -0.6, max = 0.6) double gn,
      @ForAll @DoubleRange(min = 0, max = 0.5) double stepM,
      @ForAll @DoubleRange(min = 0, max = 10) double tighter,
      @ForAll @IntRange(min = 0, max = 4) int which) {
    Vehicle loose = Vehicles.full(4200, 22, 18, 0.4, 2, null);
    Vehicle tight =
        Vehicles.full(
            4200,
            which == 0 ? 22 - tighter : 22,
            which == 1 ? 18 - tighter : 18,
            which == 2 ? 0.4 - tighter / 40 : 0.4,
            which == 3 ? 2 + 3 * tighter : 2,
            which == 4 ? Vehicles.LUNAR : null);
    Mobility a = run(ge, gn, stepM, 1, loose);
    Mobility b = run(ge, gn, stepM, 1, tight);
    assertTrue(b.cls().values()[0] >= a.cls().values()[0]);
    assertEquals(0, b.field().allowed(0) & ~a.field().allowed(0));
    assertTrue(b.headingsPct().values()[0] <= a.headingsPct().values()[0] + 1e-4);
    for (int k = 0; k < Headings.COUNT; k++) {
      // A drive slowed by slip may need less hotel energy saved elsewhere; time never improves.
      assertTrue(b.field().timeSPerM(0, k) >= a.field().timeSPerM(0, k) * (1 - 1e-6));
    }
  }

  @Property(tries = 100, seed = "20260")
  void moreRocksNeverQuicken(
      @ForAll @DoubleRange(min = -0.3, max = 0.3) double ge,
      @ForAll @DoubleRange(min = 1, max = 3) double detour,
      @ForAll @DoubleRange(min = 0, max = 3) double more) {
    Mobility a = run(ge, 0.1, 0.1, detour, Vehicles.full());
    Mobility b = run(ge, 0.1, 0.1, detour + more, Vehicles.full());
    for (int k = 0; k < Headings.COUNT; k++) {
      assertTrue(b.field().timeSPerM(0, k) >= a.field().timeSPerM(0, k));
      assertTrue(b.field().energyJPerM(0, k) >= a.field().energyJPerM(0, k));
    }
  }

  @Property(tries = 100, seed = "20260")
  void quarterTurnsAndMirrorsMoveTheHeadings(
      @ForAll @DoubleRange(min = -0.5, max = 0.5) double ge,
      @ForAll @DoubleRange(min = -0.5, max = 0.5) double gn) {
    Mobility plain = run(ge, gn, 0.1, 1, Vehicles.full());
    Mobility turned = run(gn, -ge, 0.1, 1, Vehicles.full());
    Mobility mirrored = run(-ge, gn, 0.1, 1, Vehicles.full());
    assertEquals(plain.cls().values()[0], turned.cls().values()[0]);
    assertEquals(plain.cls().values()[0], mirrored.cls().values()[0]);
    assertEquals(plain.headingsPct().values()[0], turned.headingsPct().values()[0], 1e-3);
    for (int k = 0; k < Headings.COUNT; k++) {
      double time = plain.field().timeSPerM(0, k);
      close(time, turned.field().timeSPerM(0, (k + 8) % Headings.COUNT));
      close(time, mirrored.field().timeSPerM(0, (Headings.COUNT - k) % Headings.COUNT));
    }
  }

  private static void close(double expected, double got) {
    if (expected < Double.POSITIVE_INFINITY && got < Double.POSITIVE_INFINITY) {
      assertEquals(expected, got, 1e-4 * expected);
    }
  }

  @Property(tries = 200, seed = "20260")
  void explanationAgreesWithTheVerdict(
      @ForAll @DoubleRange(min = -0.6, max = 0.6) double ge,
      @ForAll @DoubleRange(min = -0.6, max = 0.6) double gn,
      @ForAll @DoubleRange(min = 0, max = 0.5) double stepM) {
    Vehicle v = Vehicles.full(4200, 20, 15, 0.3, 5, Vehicles.LUNAR);
    Terrain t = Grounds.of(SPEC, (x, y) -> ge * x + gn * y, stepM, 0.05, 0.1);
    CellMobility c = MobilityExplain.at(t, Grounds.noHazard(SPEC), v, Body.MOON, 0);
    Mobility m = run(ge, gn, stepM, 1, v);
    assertEquals(m.cls().values()[0], c.cls());
    boolean cellHeld = c.checks().stream().allMatch(Check::held);
    for (int k = 0; k < Headings.COUNT; k++) {
      OnHeading h = c.headings().get(k);
      boolean held = cellHeld && h.checks().stream().allMatch(Check::held);
      boolean borderline =
          h.checks().stream().anyMatch(x -> Math.abs(x.got() - x.allowed()) < 1e-4);
      assertTrue(borderline || held == (h.allowed() && !h.byTacks()), h.toString());
      assertEquals(m.field().allows(0, k), h.allowed());
    }
  }
}
