package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Extrapolation;
import org.scarpway.terrain.Lengths;
import org.scarpway.terrain.Terrain;

/**
 * A vehicle of 3.4 m between the axles, 2.6 m between the wheels, 4.6 m by 3.2 m: slopes, crests
 * and breaks may be shown over 1.25 of their length, steps and roughness over 4 times theirs.
 */
class ResolutionTest {
  private static final Vehicle FULL = Vehicles.full(4200, 20, 15, 0.3, 5, Vehicles.LUNAR);
  private static final List<Limit> ON_SLOPES =
      List.of(Limit.CLIMB, Limit.DESCEND, Limit.SIDE, Limit.TIP, Limit.TRACTION, Limit.POWER);
  private static final double FOOTPRINT_M = Math.hypot(4.6, 3.2);

  private static Terrain terrain(
      double slopeM,
      double roughnessM,
      double givenM,
      double stepM,
      double convexityM,
      double breakM,
      Extrapolation extrapolation) {
    Terrain t = Grounds.plane(Grounds.square(3, 5), 0, 0);
    Lengths lengths =
        new Lengths(
            slopeM,
            new Lengths.Length(roughnessM, givenM),
            new Lengths.Length(stepM, stepM),
            convexityM,
            breakM);
    return new Terrain(
        t.heightM(),
        t.slopeDeg(),
        t.gradEast(),
        t.gradNorth(),
        t.roughnessM(),
        t.stepM(),
        t.convexityM(),
        extrapolation,
        lengths);
  }

  private static Resolution of(Vehicle v, Terrain t, boolean posed, UnresolvedRule rule) {
    return new Resolution(new MoveLimits(v, Body.MOON), t, posed, rule);
  }

  private static void assertHidden(Terrain t, boolean posed, List<Limit> hidden) {
    Resolution r = of(FULL, t, posed, UnresolvedRule.SLOW);
    for (Limit limit : Limit.values()) {
      assertEquals(!hidden.contains(limit), r.shows(limit), limit + " of " + hidden);
    }
    assertEquals(hidden.isEmpty(), r.complete());
    assertEquals(!hidden.isEmpty(), r.slows());
    assertFalse(r.shuts());
    assertEquals(!hidden.isEmpty(), of(FULL, t, posed, UnresolvedRule.NO_GO).shuts());
    assertFalse(of(FULL, t, posed, UnresolvedRule.NO_GO).slows());
    assertFalse(of(FULL, t, posed, UnresolvedRule.SAY).slows());
    assertFalse(of(FULL, t, posed, UnresolvedRule.SAY).shuts());
  }

  @Test
  void eachLimitUpToItsLength() {
    double rough = 4 * FOOTPRINT_M;
    assertHidden(terrain(3.25, rough, rough, 10.4, 4.25, 4.25, null), false, List.of());
    // Across the vehicle first, then along it.
    assertHidden(
        terrain(3.26, rough, rough, 10.4, 4.25, 4.25, null), false, List.of(Limit.SIDE, Limit.TIP));
    assertHidden(
        terrain(4.25, rough, rough, 10.4, 4.25, 4.25, null), false, List.of(Limit.SIDE, Limit.TIP));
    assertHidden(terrain(4.26, rough, rough, 10.4, 4.25, 4.25, null), false, ON_SLOPES);
    assertHidden(
        terrain(3, rough + 0.01, rough, 10.4, 4.25, 4.25, null), false, List.of(Limit.ROUGHNESS));
    assertHidden(terrain(3, 1, 1, 10.41, 4.25, 4.25, null), false, List.of(Limit.STEP));
    assertHidden(terrain(3, 1, 1, 1, 4.26, 4.25, null), false, List.of(Limit.CLEARANCE));
    assertHidden(terrain(3, 1, 1, 1, 4.25, 4.26, null), false, List.of(Limit.APPROACH));
    // Wheels set on the ground show slopes, belly and overhangs whatever the layers do.
    assertHidden(terrain(90, 90, 90, 90, 90, 90, null), true, List.of(Limit.STEP, Limit.ROUGHNESS));
  }

  /** A step carried down from more than four times its length says nothing of steps. */
  @Test
  void stepsCarriedFromFarAway() {
    for (double fromM : new double[] {10.39, 10.41}) {
      Extrapolation.Scale scale = new Extrapolation.Scale(fromM, 2.6, 0.5, 0.4);
      Terrain t = terrain(3, 1, 1, 2.6, 3, 3, new Extrapolation(null, null, scale));
      assertHidden(t, false, fromM > 10.4 ? List.of(Limit.STEP) : List.of());
      assertEquals(fromM > 10.4, IsotropicLimits.stepExtrapolatedTooFar(t));
    }
    Terrain t = terrain(3, 1, 1, 2.6, 3, 3, new Extrapolation(null, null, null));
    assertFalse(IsotropicLimits.stepExtrapolatedTooFar(t));
  }

  @Test
  void limitsThatTheVehicleDoesNotStateAreNotMissed() {
    Vehicle plain = Vehicles.plain(20.0, null, null);
    Resolution r = of(plain, terrain(90, 90, 90, 90, 1, 90, null), false, UnresolvedRule.SAY);
    assertFalse(r.shows(Limit.CLIMB));
    for (Limit limit : Limit.values()) {
      assertTrue(limit == Limit.CLIMB || r.shows(limit), limit.label());
    }
    // Ground that was put together by hand.
    Terrain given = Grounds.plane(Grounds.square(3, 5), 0, 0);
    Resolution all = of(FULL, given, false, UnresolvedRule.NO_GO);
    assertTrue(all.complete() && all.roughnessDecides && !all.shuts());
    assertTrue(Double.isNaN(all.lengthM(Limit.CLIMB)));
    assertNull(all.tell(5, 1, 10));
  }

  /** Without wheels the body's own length and width stand for axles and tracks. */
  @Test
  void aBodyWithoutWheels() {
    for (double slopeM : new double[] {1.25 * 3, 1.25 * 3.01}) {
      Resolution r =
          of(
              Vehicles.plain(20.0, 20.0, null),
              terrain(slopeM, 1, 1, 1, 1, 1, null),
              false,
              UnresolvedRule.SAY);
      assertEquals(slopeM == 3.75, r.shows(Limit.CLIMB));
    }
    for (double slopeM : new double[] {1.25 * 2, 1.25 * 2.01}) {
      Resolution r =
          of(
              Vehicles.plain(null, null, 15.0),
              terrain(slopeM, 1, 1, 1, 1, 1, null),
              false,
              UnresolvedRule.SAY);
      assertEquals(slopeM == 2.5, r.shows(Limit.SIDE));
    }
  }

  @Test
  void eachLimitHasItsLength() {
    Resolution r = of(FULL, terrain(2, 5, 6, 7, 8, 9, null), true, UnresolvedRule.SAY);
    for (Limit limit : ON_SLOPES) {
      assertEquals(2, r.lengthM(limit));
    }
    assertEquals(7, r.lengthM(Limit.STEP));
    assertEquals(8, r.lengthM(Limit.CLEARANCE));
    assertEquals(9, r.lengthM(Limit.APPROACH));
    assertEquals(6, r.lengthM(Limit.ROUGHNESS));
    assertTrue(Double.isNaN(r.lengthM(Limit.KEEP_OUT)));
  }

  @Test
  void whatIsNotShownIsTold() {
    Terrain t = terrain(3, 30, 30, 12, 3, 3, null);
    for (UnresolvedRule rule : UnresolvedRule.values()) {
      Resolution r = of(FULL, t, false, rule);
      assertFalse(r.roughnessDecides);
      assertNull(r.tell(5, 1, 0));
      Unresolved told = r.tell(30, 4, 80);
      assertNotNull(told);
      assertEquals(37.5, told.sharePct(), 1e-12);
      assertEquals(5, told.usedPct(), 1e-12);
      assertEquals(List.of(Limit.STEP, Limit.ROUGHNESS), told.limits());
      String text = told.text();
      assertTrue(Character.isUpperCase(text.charAt(0)), text);
      assertTrue(text.contains("(shown over 12 m, meant for 2.6 m),"), text);
      assertTrue(text.contains("(shown over 30 m, meant for 5.6 m; neither slows"), text);
      assertTrue(text.contains("on 37.5 % of the ground (on 5.0 %"), text);
      String end =
          switch (rule) {
            case SAY -> "the ground may be worse.";
            case SLOW -> "slow there at best";
            case NO_GO -> "no-go there";
          };
      assertTrue(text.contains(end), text);
    }
    // Shown by the law over a length that is near enough: it decides.
    Resolution given = of(FULL, terrain(3, 30, 20, 2, 3, 3, null), false, UnresolvedRule.SAY);
    assertTrue(given.roughnessDecides && !given.shows(Limit.ROUGHNESS));
    assertFalse(given.tell(1, 0, 1).text().contains("neither"));
    // Two limits over the same lengths share the words.
    String both =
        of(FULL, terrain(3.3, 1, 1, 1, 3, 3, null), false, UnresolvedRule.SAY).tell(1, 0, 1).text();
    assertEquals(2, both.split("shown over", -1).length, both);
    String six =
        of(FULL, terrain(5, 1, 1, 1, 3, 3, null), false, UnresolvedRule.SAY).tell(1, 0, 1).text();
    assertEquals(4, six.split("shown over", -1).length, six);
  }

  /** What is told of several soils is what is told of each of those that lie anywhere. */
  @Test
  void everySoilIsAskedForWhatTheCellsDoNotShow() {
    Terrain t = terrain(5, 1, 1, 1, 3, 3, null);
    Vehicle own = Vehicles.full(4200, 20, 15, 0.3, 5, null);
    Soil firm = VehicleParts.soil("firm", Vehicles.LUNAR.bekker(), null, null);
    List<Soil> soils = List.of(firm, Vehicles.LUNAR);
    Set<List<Limit>> seen = new HashSet<>();
    for (int bits = 1; bits < 8; bits++) {
      ByteGrid soilAt = ByteGrid.empty(t.heightM().spec());
      Set<Limit> want = EnumSet.noneOf(Limit.class);
      for (int cell = 0, next = 0; cell < soilAt.values().length; cell++, next++) {
        while ((bits >>> next % 3 & 1) == 0) {
          next++;
        }
        soilAt.values()[cell] = (byte) (next % 3);
      }
      for (int i = 0; i < 3; i++) {
        if ((bits >>> i & 1) != 0) {
          Vehicle v = i == 0 ? own : own.withSoil(soils.get(i - 1));
          want.addAll(told(v, t, null).limits());
        }
      }
      Unresolved all = told(own, t, new SoilMap(soils, soilAt));
      assertEquals(want, EnumSet.copyOf(all.limits()), "soils " + bits);
      seen.add(all.limits());
      // Where they meet, each of them may lie.
      Arrays.fill(soilAt.values(), SoilMap.severalIndex(2));
      assertTrue(told(own, t, new SoilMap(soils, soilAt)).limits().contains(Limit.TRACTION));
    }
    assertEquals(2, seen.size(), "with traction and without");
    assertTrue(seen.stream().anyMatch(l -> l.contains(Limit.TRACTION)));
  }

  private static Unresolved told(Vehicle v, Terrain t, SoilMap soils) {
    try (Workers workers = new Workers(1)) {
      return MobilityStage.compute(
              t, Grounds.noHazard(t.heightM().spec()), v, soils, Body.MOON, workers, Progress.NONE)
          .unresolved();
    }
  }
}
