package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.Lengths;
import org.scarpway.terrain.Terrain;

/**
 * Verdicts on single cells by hand: which of several limits binds and how much is left, what slows,
 * what is told of no-go by chance, and wheels set on rough ground heading by heading.
 */
class CellTraversabilityTest {
  private static final GridSpec SPEC = Grounds.square(3, 5);

  private static double tan(double deg) {
    return Math.tan(Math.toRadians(deg));
  }

  private static Terrain with(Terrain t, Lengths lengths) {
    return new Terrain(
        t.heightM(),
        t.slopeDeg(),
        t.gradEast(),
        t.gradNorth(),
        t.roughnessM(),
        t.stepM(),
        t.convexityM(),
        null,
        lengths);
  }

  private static CellTraversability judge(
      Terrain t, Hazard h, Vehicle v, UnresolvedRule rule, Allowances allowances) {
    GridSpec spec = t.gradEast().spec();
    CellTraversability judge =
        new CellTraversability(
            new MoveLimits(v, Body.MOON),
            t,
            h,
            CellTraversability.layout(v, spec),
            rule,
            allowances);
    judge.judge(spec.rows() / 2, spec.cols() / 2);
    return judge;
  }

  private static Terrain slope(double deg, double stepM, double roughnessM) {
    double t = tan(deg);
    return Grounds.of(SPEC, (x, y) -> t * y, stepM, roughnessM, 0);
  }

  private static CellTraversability plain(double deg, double stepM, double roughnessM) {
    Terrain t = slope(deg, stepM, roughnessM);
    return judge(t, Grounds.noHazard(SPEC), Vehicles.full(), UnresolvedRule.SAY, Allowances.NONE);
  }

  private static void assertVerdict(CellTraversability j, byte cls, Limit limit, double margin) {
    assertEquals(cls, j.cls);
    assertEquals(limit, j.code == 0 ? null : Limit.ofCode(j.code));
    assertEquals(margin, j.margin01, 1e-5);
  }

  /** Climb 20, side 15, step 0.3; slow from 12 degrees, 0.15 m and 0.1 m on; crawl at 0.525 m. */
  @Test
  void theTighterLimitBinds() {
    double side = tan(6) / tan(15);
    assertVerdict(plain(0, 0, 0), Mobility.GO, null, 1);
    assertVerdict(plain(0, 0.1, 0), Mobility.GO, Limit.STEP, 2.0 / 3);
    assertVerdict(plain(6, 0.05, 0), Mobility.GO, Limit.SIDE, 1 - side);
    assertVerdict(plain(6, 0.14, 0), Mobility.GO, Limit.STEP, 1 - 0.14 / 0.3);
    assertVerdict(plain(11.9, 0, 0), Mobility.GO, Limit.SIDE, 1 - tan(11.9) / tan(15));
    assertVerdict(plain(12.1, 0, 0), Mobility.SLOW, Limit.SIDE, 1 - tan(12.1) / tan(15));
    assertVerdict(plain(0, 0.149, 0), Mobility.GO, Limit.STEP, 1 - 0.149 / 0.3);
    assertVerdict(plain(0, 0.151, 0), Mobility.SLOW, Limit.STEP, 1 - 0.151 / 0.3);
    assertVerdict(plain(0, 0, 0.099), Mobility.GO, Limit.ROUGHNESS, 1 - 0.099 / 0.525);
    assertVerdict(plain(0, 0, 0.11), Mobility.SLOW, Limit.ROUGHNESS, 1 - 0.11 / 0.525);
    assertVerdict(plain(0, 0, 9), Mobility.SLOW, Limit.ROUGHNESS, 0);
    assertVerdict(plain(6, 0.36, 0), Mobility.NO_GO, Limit.STEP, -0.2);
    // Beyond the corner of climb and side: the slope over it.
    double corner = Math.hypot(tan(20), tan(15));
    assertVerdict(plain(40, 0, 0), Mobility.NO_GO, Limit.CLIMB, 1 - tan(40) / corner);
    assertVerdict(plain(40, 0.36, 0), Mobility.NO_GO, Limit.CLIMB, 1 - tan(40) / corner);
    assertVerdict(plain(40, 0.6, 0), Mobility.NO_GO, Limit.STEP, -1);
    CellTraversability shut = plain(40, 0.6, 0);
    assertEquals(0, shut.bits | shut.ownBits | shut.tackBits);
    assertEquals(0, shut.openShare);
    assertTrue(Double.isNaN(shut.noGo01));
    assertEquals(4.2 * 0.1 / 0.11, plain(0, 0, 0.11).capMs, 1e-6);
    assertEquals(0.8, plain(0, 0, 9).capMs, 1e-9);
  }

  /**
   * 23 degrees to the north: uphill or downhill headings are lost first where they are rated less.
   */
  @Test
  void theLimitThatTakesMostHeadingsIsNamed() {
    Limit[] limits = {Limit.CLIMB, Limit.DESCEND, Limit.SIDE};
    for (int i = 0; i < 3; i++) {
      Vehicle v = Vehicles.plain(i == 0 ? 20.0 : 30.0, i == 1 ? 20.0 : 30.0, i == 2 ? 20.0 : 30.0);
      CellTraversability j =
          judge(slope(23, 0, 0), Grounds.noHazard(SPEC), v, UnresolvedRule.SAY, Allowances.NONE);
      assertVerdict(j, Mobility.SLOW, limits[i], 0);
      double lost = Math.acos(tan(20) / tan(23)) / Math.PI * (i == 2 ? 2 : 1);
      assertEquals(1 - lost, j.openShare, 1e-5);
      assertEquals(j.ownBits, j.bits);
    }
    // Both ways along the fall line and across it: the side is lost on more headings.
    CellTraversability both =
        judge(
            slope(21, 0, 0),
            Grounds.noHazard(SPEC),
            Vehicles.plain(20.0, 20.0, 15.0),
            UnresolvedRule.SAY,
            Allowances.NONE);
    assertVerdict(both, Mobility.SLOW, Limit.SIDE, 0);
  }

  /** Between two headings: within asin(tan 2 / tan 20) of a fall line at 7 degrees. */
  @Test
  void aWindowThatNoHeadingMeets() {
    double t = tan(20);
    double a = Math.toRadians(7);
    Terrain ground = Grounds.plane(SPEC, t * Math.sin(a), t * Math.cos(a));
    CellTraversability j =
        judge(
            ground,
            Grounds.noHazard(SPEC),
            Vehicles.plain(20.0, 20.0, 2.0),
            UnresolvedRule.SAY,
            Allowances.NONE);
    assertTrue(j.narrow);
    assertEquals(0, j.bits);
    assertEquals(4 * Math.asin(tan(2) / t) / (2 * Math.PI), j.openShare, 1e-5);
    assertVerdict(j, Mobility.SLOW, Limit.SIDE, 0);
    CellTraversability open = plain(3, 0, 0);
    assertFalse(open.narrow);
    open.judge(0, 0);
    assertEquals(1, open.openShare);
  }

  /** A soil that is not known takes every verdict but those that no soil can change. */
  @Test
  void withoutASoil() {
    Hazard h = Grounds.noHazard(SPEC);
    Terrain t = slope(5, 0, 0);
    h.causes().values()[0] = (byte) Hazard.Cause.KEEP_OUT.bit();
    h.causes().values()[1] = (byte) Hazard.Cause.NARROW.bit();
    t.gradEast().values()[2] = Float.NaN;
    h.detourFactor().values()[3] = Float.NaN;
    CellTraversability j = judge(t, h, Vehicles.full(), UnresolvedRule.SAY, Allowances.NONE);
    Limit[] kept = {Limit.KEEP_OUT, Limit.ROOM, Limit.VOID, Limit.ROCK_DATA, Limit.SOIL_DATA};
    for (int cell = 0; cell < 5; cell++) {
      j.judge(cell / 3, cell % 3);
      j.withoutSoil();
      assertEquals(kept[cell], Limit.ofCode(j.code), "cell " + cell);
      assertEquals(cell < 2 ? Mobility.NO_GO : 0, j.cls);
      assertEquals(cell < 2 ? -1 : Double.NaN, j.margin01);
      assertEquals(0, j.bits);
    }
  }

  /** Slopes over 9 m are not those of a vehicle of 3.4 m. */
  @Test
  void limitsThatTheCellsDoNotShow() {
    Lengths far = new Lengths(9, new Lengths.Length(1, 1), new Lengths.Length(1, 1), 3, 3);
    Terrain gentle = with(slope(6, 0, 0), far);
    Hazard none = Grounds.noHazard(SPEC);
    CellTraversability say =
        judge(gentle, none, Vehicles.full(), UnresolvedRule.SAY, Allowances.NONE);
    assertTrue(say.unresolved);
    assertVerdict(say, Mobility.GO, Limit.SIDE, 1 - tan(6) / tan(15));
    assertFalse(say.halfUsed());
    say.withoutSoil();
    assertFalse(say.unresolved);
    CellTraversability half =
        judge(
            with(slope(9, 0, 0), far), none, Vehicles.full(), UnresolvedRule.SAY, Allowances.NONE);
    assertTrue(half.halfUsed());
    // The step is shown, so its use tells nothing of what is not.
    CellTraversability step =
        judge(
            with(slope(6, 0.2, 0), far),
            none,
            Vehicles.full(),
            UnresolvedRule.SAY,
            Allowances.NONE);
    assertFalse(step.halfUsed());
    // Level ground: less is used of what is not shown than anything to speak of.
    CellTraversability level =
        judge(
            with(slope(0, 0, 0), far), none, Vehicles.full(), UnresolvedRule.SAY, Allowances.NONE);
    assertTrue(level.unresolved);
    assertFalse(level.halfUsed());
    CellTraversability slow =
        judge(gentle, none, Vehicles.full(), UnresolvedRule.SLOW, Allowances.NONE);
    assertVerdict(slow, Mobility.SLOW, Limit.UNRESOLVED, 0);
    assertEquals(0.8, slow.capMs, 1e-9);
    assertEquals(-1, slow.bits);
    CellTraversability shut =
        judge(gentle, none, Vehicles.full(), UnresolvedRule.NO_GO, Allowances.NONE);
    assertVerdict(shut, Mobility.NO_GO, Limit.UNRESOLVED, -1);
    assertEquals(0, shut.bits);
    // What is too steep as measured is so whatever the cells show, and no longer in doubt.
    CellTraversability steep =
        judge(
            with(slope(40, 0, 0), far),
            none,
            Vehicles.full(),
            UnresolvedRule.SLOW,
            Allowances.NONE);
    assertEquals(Limit.CLIMB, Limit.ofCode(steep.code));
    assertFalse(steep.unresolved || steep.halfUsed());
  }
}
