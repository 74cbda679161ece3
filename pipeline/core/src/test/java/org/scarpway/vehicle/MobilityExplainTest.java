package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Extrapolation;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.Lengths;
import org.scarpway.terrain.StepError;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.CellMobility.Check;
import org.scarpway.vehicle.CellMobility.OnHeading;

/** What is told of single cells: plane geometry, the layers themselves, and the vehicle's file. */
class MobilityExplainTest {
  private static final GridSpec SPEC = Grounds.square(3, 5);
  private static final int MIDDLE = 4;
  private static final Vehicle FULL = Vehicles.full(4200, 20, 15, 0.3, 5, Vehicles.LUNAR);

  private static double tan(double deg) {
    return Math.tan(Math.toRadians(deg));
  }

  static double deg(double tan) {
    return Math.toDegrees(Math.atan(tan));
  }

  /** Rises to the north; step 0.1 m, roughness 0.05 m, rise between the axles 0.2 m. */
  static Terrain slope(double deg) {
    return Grounds.of(SPEC, (x, y) -> tan(deg) * y, 0.1, 0.05, 0.2);
  }

  private static Terrain with(Terrain t, Extrapolation carried, Lengths lengths) {
    return new Terrain(
        t.heightM(),
        t.slopeDeg(),
        t.gradEast(),
        t.gradNorth(),
        t.roughnessM(),
        t.stepM(),
        t.convexityM(),
        carried,
        lengths);
  }

  private static CellMobility told(Terrain t, Hazard h, Vehicle v) {
    return MobilityExplain.at(t, h, v, Body.MOON, MIDDLE);
  }

  static CellMobility told(Terrain t, Vehicle v) {
    return told(t, Grounds.noHazard(SPEC), v);
  }

  static Check find(List<Check> checks, String what) {
    return checks.stream().filter(c -> c.what().contains(what)).findFirst().orElse(null);
  }

  static void tells(List<Check> checks, String what, Limit limit, double got, double allowed) {
    Check check = find(checks, what);
    assertEquals(limit, check.limit(), what);
    assertEquals(got, check.got(), 1e-4 * Math.max(1, Math.abs(got)), what);
    assertEquals(allowed, check.allowed(), 1e-4 * Math.max(1, Math.abs(allowed)), what);
  }

  @Test
  void limitsOfTheWholeCell() {
    MoveLimits limits = new MoveLimits(FULL, Body.MOON);
    CellMobility m = told(slope(12), FULL);
    double rutM = limits.model.sinkageM(tan(12));
    assertTrue(rutM > 0.01);
    assertEquals(rutM, m.sinkageM(), 1e-5);
    assertEquals("lunar", m.soil());
    assertEquals(12, m.slopeDeg(), 1e-4);
    assertEquals(100, m.headingsPct());
    tells(m.checks(), "keep-out", Limit.KEEP_OUT, 0, 0);
    tells(m.checks(), "gap or pocket", Limit.ROOM, 0, 0);
    tells(m.checks(), "no way leads through", Limit.ROCKS, 0, 0);
    tells(m.checks(), "step height", Limit.STEP, 0.1, 0.3 - rutM);
    tells(m.checks(), "between the axles", Limit.CLEARANCE, 0.2, 0.42 - rutM);
    tells(m.checks(), "sinkage", Limit.SINKAGE, rutM, 0.3);
    tells(m.checks(), "roughness", Limit.ROUGHNESS, 0.05, 0.525);
    assertEquals(7, m.checks().size());
    // On ground without a sinkage law, for a vehicle without these limits, there are none.
    CellMobility plain = told(slope(12), Vehicles.plain(20.0, 20.0, 15.0));
    assertEquals(3, plain.checks().size());
    assertNull(plain.soil());
    assertEquals(0, plain.sinkageM());
    assertTrue(plain.pullN() == Double.POSITIVE_INFINITY);
  }

  @Test
  void everyHeadingOfAPlane() {
    MoveLimits limits = new MoveLimits(FULL, Body.MOON);
    CellMobility m = told(slope(12), FULL);
    for (int k = 0; k < Headings.COUNT; k++) {
      OnHeading h = m.headings().get(k);
      double azimuth = Math.toRadians(Headings.of(SPEC).azimuthDeg(k));
      double grade = tan(12) * Math.cos(azimuth);
      double cross = -tan(12) * Math.sin(azimuth);
      assertEquals(Math.toDegrees(azimuth), h.azimuthDeg(), 1e-9);
      assertTrue(h.allowed() && !h.byTacks());
      assertEquals(deg(grade), h.gradeDeg(), 1e-4);
      assertEquals(deg(cross), h.crossDeg(), 1e-4);
      double speed = Math.min(limits.speedCapMs(tan(12), 0.1, 0.05), limits.model.speedMs(grade));
      assertEquals(speed, h.speedMs(), 0.01);
      // Traction of the grade and 1800 W for a metre at that speed.
      double want = limits.model.tractionJPerM(grade) + 1800 / h.speedMs();
      assertEquals(want, h.energyJm(), 0.01 * want + 5);
      assertEquals(limits.model.slip(grade), h.slip(), 1e-6);
      boolean up = grade >= 0;
      if (Math.abs(grade) > 1e-9) {
        tells(
            h.checks(),
            up ? "climb" : "descent",
            up ? Limit.CLIMB : Limit.DESCEND,
            deg(Math.abs(grade)),
            20);
        assertNull(find(h.checks(), up ? "descent" : "climb"));
      }
      tells(h.checks(), "side slope", Limit.SIDE, deg(Math.abs(cross)), 15);
      tells(h.checks(), "break in slope", Limit.APPROACH, 0, deg(limits.trough));
      // Axles 1.7 m off, tracks 2.6 m, 1.3 m high, a margin of 5 degrees.
      double tip =
          Math.min(1.7 / 1.3 / Math.abs(Math.cos(azimuth)), 1 / Math.abs(Math.sin(azimuth)));
      tells(h.checks(), "tipping slope", Limit.TIP, 12, deg(tip) - 5);
      tells(h.checks(), "soil carries", Limit.TRACTION, deg(grade), deg(limits.tractionUp));
      tells(h.checks(), "by power", Limit.POWER, deg(grade), deg(limits.power));
      if (grade < -1e-9) {
        tells(h.checks(), "soil holds", Limit.TRACTION, deg(-grade), deg(limits.tractionDown));
      } else if (grade > 1e-9) {
        assertNull(find(h.checks(), "soil holds"));
      }
      assertNull(find(h.checks(), "probability"));
      assertNull(find(h.checks(), "within sight"));
    }
    // On the level the heading on which it tips first: sideways at 45 degrees.
    for (OnHeading h : told(slope(0), FULL).headings()) {
      tells(h.checks(), "tipping slope", Limit.TIP, 0, 40);
    }
  }

  @Test
  void hazardsAndGroundThatIsNotKnown() {
    Hazard.Cause[] causes = {Hazard.Cause.KEEP_OUT, Hazard.Cause.NARROW, Hazard.Cause.POCKET};
    for (Hazard.Cause cause : causes) {
      Hazard h = Grounds.noHazard(SPEC);
      h.causes().values()[MIDDLE] = (byte) cause.bit();
      CellMobility m = told(slope(3), h, FULL);
      boolean out = cause == Hazard.Cause.KEEP_OUT;
      tells(m.checks(), "keep-out", Limit.KEEP_OUT, out ? 1 : 0, 0);
      tells(m.checks(), "gap or pocket", Limit.ROOM, out ? 0 : 1, 0);
      assertEquals(Mobility.NO_GO, m.cls());
      assertEquals(out ? Limit.KEEP_OUT : Limit.ROOM, m.binding());
      assertTrue(m.headings().stream().noneMatch(OnHeading::allowed));
      assertTrue(Double.isNaN(m.headings().get(3).speedMs() + m.headings().get(3).energyJm()));
      assertTrue(Double.isNaN(m.headings().get(3).slip()));
    }
    CellMobility rocks = told(slope(3), Grounds.hazard(SPEC, Double.POSITIVE_INFINITY), FULL);
    tells(rocks.checks(), "no way leads through", Limit.ROCKS, 1, 0);
    Terrain gone = slope(3);
    gone.gradNorth().values()[MIDDLE] = Float.NaN;
    CellMobility unknown = told(gone, FULL);
    assertEquals(0, unknown.cls());
    assertEquals(Limit.VOID, unknown.binding());
    assertTrue(unknown.headings().isEmpty());
    assertTrue(told(slope(0), Vehicles.plain(20.0, 20.0, 15.0)).binding() == null);
  }

  /** The next cell to the north rises 0.5, this one 0.1; beyond the edge there is no break. */
  @Test
  void theBreakAhead() {
    Terrain t = Grounds.plane(SPEC, 0, 0.1);
    for (int col = 0; col < 3; col++) {
      t.gradNorth().values()[col] = 0.5f;
    }
    List<OnHeading> rose = told(t, FULL).headings();
    // The gradient of the ground at hand towards the next, within what both overhangs clear.
    double allowed = deg(new MoveLimits(FULL, Body.MOON).trough);
    tells(rose.get(0).checks(), "break in slope", Limit.APPROACH, deg(0.5) - deg(0.1), allowed);
    tells(rose.get(8).checks(), "break in slope", Limit.APPROACH, 0, allowed);
    tells(rose.get(16).checks(), "break in slope", Limit.APPROACH, 0, allowed);
    CellMobility edge = MobilityExplain.at(t, Grounds.noHazard(SPEC), FULL, Body.MOON, 0);
    tells(edge.headings().get(0).checks(), "break in slope", Limit.APPROACH, 0, allowed);
    tells(edge.headings().get(24).checks(), "break in slope", Limit.APPROACH, 0, allowed);
    CellMobility last = MobilityExplain.at(t, Grounds.noHazard(SPEC), FULL, Body.MOON, 8);
    tells(last.headings().get(8).checks(), "break in slope", Limit.APPROACH, 0, allowed);
    tells(last.headings().get(0).checks(), "break in slope", Limit.APPROACH, 0, allowed);
  }

  /** Between headings by tacks: speed and energy of a metre made good, as the field has them. */
  @Test
  void tacksAsTheFieldHasThem() {
    Vehicle v = Vehicles.full(4200, 20, 15, 0.3, 0, null);
    double corner = deg(Math.hypot(tan(20), tan(15)));
    for (double slopeDeg : new double[] {corner - 0.01, 18, 5}) {
      Terrain t = slope(slopeDeg);
      Mobility m;
      try (Workers workers = new Workers(1)) {
        m = MobilityStage.compute(t, Grounds.noHazard(SPEC), v, Body.MOON, workers, Progress.NONE);
      }
      CellMobility told = told(t, v);
      int tacked = 0;
      for (int k = 0; k < Headings.COUNT; k++) {
        OnHeading h = told.headings().get(k);
        assertEquals(m.field().allows(MIDDLE, k), h.allowed());
        if (h.allowed()) {
          double g = m.field().grade(MIDDLE, k);
          double length = Math.sqrt(1 + g * g);
          assertEquals(length / m.field().timeSPerM(MIDDLE, k), h.speedMs(), 1e-5);
          double joules = m.field().energyJPerM(MIDDLE, k) / length;
          assertEquals(joules, h.energyJm(), 1e-5 * joules);
          assertEquals(m.field().pathRatio(MIDDLE, k) > 1, h.byTacks());
          tacked += h.byTacks() ? 1 : 0;
        }
      }
      assertEquals(slopeDeg > 20 ? 4 : 0, tacked);
      assertEquals(m.headingsPct().values()[MIDDLE], told.headingsPct(), 1e-4);
    }
  }

  /** 0.9 by normal errors: 1.2816 sigmas of each, 1.6449 of a step up or down. */
  @Test
  void whatTheErrorOfTheHeightsTakes() {
    LayerErrors errors =
        new LayerErrors(null, 0.02, 0.05, new StepError(1, 0.03, 1e-9, 1e-9), null, 0.04);
    Vehicle v = Vehicles.full(4200, 20, 15, 0.3, 5, null);
    MoveLimits limits = new MoveLimits(v, Body.MOON);
    Terrain t = slope(12);
    CellMobility m =
        MobilityExplain.at(
            t,
            Grounds.noHazard(SPEC),
            new MobilityExplain.Limits(
                v, Body.MOON, UnresolvedRule.SAY, new HeightTrust(0.9, errors)),
            null,
            MIDDLE);
    tells(m.checks(), "step height", Limit.STEP, 0.1, 0.3 - 1.6448536 * 0.03);
    tells(m.checks(), "between the axles", Limit.CLEARANCE, 0.2, 0.42 - 1.2815516 * 0.04);
    GradientOdds odds =
        new GradientOdds(
            limits,
            tan(20),
            tan(20),
            Allowances.of(new HeightTrust(0.9, errors), t, null),
            0.02,
            0.02);
    for (int k = 0; k < Headings.COUNT; k++) {
      OnHeading h = m.headings().get(k);
      tells(h.checks(), "break in slope", Limit.APPROACH, 0, deg(limits.trough - 1.2815516 * 0.05));
      double grade = tan(h.gradeDeg());
      double cross = tan(h.crossDeg());
      Check p = find(h.checks(), "probability");
      assertEquals(odds.broken(grade, cross), p.got(), 1e-5);
      assertEquals(0.1, p.allowed(), 1e-12);
      // On 12 degrees the side is nearer than climb and descent but near the fall line.
      double ratio = Math.abs(cross) / (tan(15) - 0.0329) - Math.abs(grade) / (tan(20) - 0.0329);
      if (Math.abs(ratio) > 0.05) {
        assertEquals(
            ratio > 0 ? Limit.SIDE : grade > 0 ? Limit.CLIMB : Limit.DESCEND, p.limit(), "" + k);
      }
    }
  }

  @Test
  void stepsThatAreEstimatedFromFarAway() {
    Extrapolation.Scale far = new Extrapolation.Scale(30, 2.6, 0.5, 0.4);
    Check c =
        find(told(with(slope(3), new Extrapolation(null, null, far), null), FULL).checks(), "step");
    assertEquals("step height over the cells, where speed is down to crawl", c.what());
    Extrapolation.Scale near = new Extrapolation.Scale(5, 2.6, 0.5, 0.4);
    c =
        find(
            told(with(slope(3), new Extrapolation(null, null, near), null), FULL).checks(), "step");
    assertEquals("step height", c.what());
  }

  @Test
  void limitsThatTheCellsDoNotShow() {
    Lengths far = new Lengths(9, new Lengths.Length(300, 300), new Lengths.Length(1, 1), 3, 3);
    Terrain t = with(slope(3), null, far);
    for (UnresolvedRule rule : UnresolvedRule.values()) {
      CellMobility m =
          MobilityExplain.at(t, Grounds.noHazard(SPEC), FULL, null, Body.MOON, rule, MIDDLE);
      Check shut = find(m.checks(), "not shown");
      assertEquals(rule == UnresolvedRule.NO_GO, shut != null);
      if (shut != null) {
        tells(m.checks(), "not shown", Limit.UNRESOLVED, 1, 0);
      }
      Check rough = find(m.checks(), "roughness");
      assertEquals(300, rough.lengthM());
      assertFalse(rough.shown() || rough.decides());
      Check step = find(m.checks(), "step height");
      assertTrue(step.shown() && step.decides());
      assertEquals(1, step.lengthM());
      Check side = find(m.headings().get(0).checks(), "side slope");
      assertFalse(side.shown());
      assertTrue(side.decides());
      assertEquals(9, side.lengthM());
    }
  }

  /** On the level every heading is a climb of nothing, which no soil has to hold. */
  @Test
  void limitsThatAreNotThere() {
    for (OnHeading h : told(slope(0), FULL).headings()) {
      tells(h.checks(), "climb", Limit.CLIMB, 0, 20);
      assertNull(find(h.checks(), "soil holds"));
      assertNull(find(h.checks(), "descent"));
    }
    CellMobility plain = told(slope(3), Vehicles.plain(20.0, 20.0, 15.0));
    assertNull(find(plain.headings().get(0).checks(), "break in slope"));
    assertNull(find(told(slope(3), Vehicles.full()).checks(), "sinkage"));
  }

  /** The cell to the east is sharper, those to the north and south are not. */
  @Test
  void theBreakAheadToTheEast() {
    Terrain t = Grounds.plane(SPEC, 0.1, 0);
    for (int row = 0; row < 3; row++) {
      t.gradEast().values()[row * 3 + 2] = 0.5f;
    }
    List<OnHeading> rose = told(t, FULL).headings();
    assertEquals(deg(0.5) - deg(0.1), find(rose.get(8).checks(), "break").got(), 1e-4);
    assertEquals(0, find(rose.get(24).checks(), "break").got());
    assertEquals(0, find(rose.get(0).checks(), "break").got(), 1e-4);
  }
}
