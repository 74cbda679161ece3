package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
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

  @Property(tries = 100, seed = "20260")
  void explanationAgreesWithTheVerdict(
      @ForAll @DoubleRange(min = -0.6, max = 0.6) double ge,
      @ForAll @DoubleRange(min = -0.6, max = 0.6) double gn,
      @ForAll @DoubleRange(min = 0, max = 0.5) double stepM,
      @ForAll boolean skewed) {
    Vehicle v = Vehicles.full(4200, 20, 15, 0.3, 5, Vehicles.LUNAR);
    v = skewed ? Vehicles.onTracks(v, 1.1, 1.8, 2.6) : v;
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
      assertEquals(!held, !c.exceeded(h).isEmpty(), "what closes heading " + h);
    }
  }
}
