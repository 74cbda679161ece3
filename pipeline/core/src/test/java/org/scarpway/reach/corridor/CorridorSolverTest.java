package org.scarpway.reach.corridor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.question.CorridorRequest.Stop;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.Alternative;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.survey.RouteLeg;
import org.scarpway.reach.survey.RouteSurvey;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

class CorridorSolverTest {
  private static final GridSpec SPEC = Fields.grid(81, 121, 1, -0.5, -40.5);

  private static CorridorResult solve(
      TraversalInput ground, Cost cost, int alternatives, Stop... stops) {
    try (Workers workers = new Workers(2)) {
      return CorridorSolver.solve(
          Questions.corridor("c", List.of(stops), cost, List.of(5.0), alternatives),
          ground,
          workers,
          Progress.NONE);
    }
  }

  private static final Stop WEST = Questions.stop("west", 10, 0);
  private static final Stop EAST = Questions.stop("east", 110, 0);

  /** A wall across the middle with a narrow gap in the north and a wide one in the south. */
  private static TraversalCost wall() {
    return Fields.level(
        SPEC,
        (x, y) ->
            Math.abs(x - 60) < 2.6 && !(y > 8.4 && y < 13.6) && !(y > -35.6 && y < -24.4) ? 0 : 1);
  }

  @Test
  void straightAcrossFlatGround() {
    CorridorResult r =
        solve(Fields.level(Fields.level(SPEC, (x, y) -> 2)), Cost.TIME, 0, WEST, EAST);
    assertEquals(50, r.bestCost(), 1e-6);
    ProfilePoint last = r.centreline().get(r.centreline().size() - 1);
    assertEquals(100, last.distanceM(), 1e-6);
    assertEquals(50, last.timeS(), 1e-6);
    assertEquals(110, last.xM(), 1e-9);
    assertEquals(0, last.yM(), 1e-9);
    assertEquals(2, r.centreline().get(5).speedMs(), 1e-6);
    assertTrue(r.centreline().size() <= 102, "one point per cell, got " + r.centreline().size());
    // Through (60, y) the way is 2 hypot(50, y).
    assertEquals(
        100 * (2 * Math.hypot(50, 14) / 100 - 1), r.excessPct().values()[SPEC.cellOf(60, 14)], 0.3);
    assertTrue(Float.isNaN(r.excessPct().values()[SPEC.cellOf(60, 30)]), "beyond the corridor");
    assertEquals(0, r.excessPct().values()[SPEC.cellOf(60, 0)], 0.05);
    assertTrue(r.pinchPoints().isEmpty());
  }

  @Test
  void theWayGoesThroughTheGapAndNamesItAsPinch() {
    CorridorResult r = solve(Fields.level(wall()), Cost.DISTANCE, 0, WEST, EAST);
    double expected = 2 * Math.hypot(47.5, 8.5) + 5;
    assertEquals(expected, r.bestCost(), 0.01 * expected);
    for (ProfilePoint p : r.centreline()) {
      assertTrue(wall().allowed(SPEC.cellOf(p.xM(), p.yM())) != 0);
    }
    CorridorResult.PinchPoint pinch = r.pinchPoints().get(0);
    assertEquals(60, pinch.xM(), 4);
    assertTrue(pinch.yM() > 8 && pinch.yM() < 14);
    assertTrue(pinch.widthM() <= 5 && pinch.widthM() >= 1, "width " + pinch.widthM());
    assertEquals(50, pinch.distanceM(), 4);
  }

  @Test
  void alternativesTakeOtherGround() {
    CorridorResult r = solve(Fields.level(wall()), Cost.TIME, 1, WEST, EAST);
    assertEquals(1, r.alternatives().size(), r.warnings().toString());
    Alternative a = r.alternatives().get(0);
    assertTrue(a.sharedPct() <= 50);
    assertTrue(a.excessPct() > 0);
    assertTrue(
        a.line().stream().anyMatch(p -> Math.abs(p.xM() - 60) < 1 && p.yM() < -24),
        "the second way takes the southern gap");
    double expected = 2 * Math.hypot(47.5, 24.5) + 5;
    assertEquals(expected, a.timeS(), 0.05 * expected);
    CorridorResult many = solve(Fields.level(wall()), Cost.TIME, 9, WEST, EAST);
    assertTrue(many.warnings().stream().anyMatch(w -> w.contains("alternatives differ enough")));
  }

  @Test
  void excessIsThatOfFrontsOverAllGroundAsFarAsTheCorridorGoes() {
    for (int seed = 0; seed < 6; seed++) {
      TraversalCost field = FrontTest.rough(SPEC, 300 + seed);
      int from = SPEC.cellOf(20, -10);
      int to = SPEC.cellOf(80, 15);
      if (field.allowed(from) == 0 || field.allowed(to) == 0) {
        continue;
      }
      Stop start = Questions.stop("start", 20, -10);
      Stop end = Questions.stop("end", 80, 15);
      for (Cost cost : new Cost[] {Cost.TIME, Cost.ENERGY}) {
        Quantity q = cost == Cost.TIME ? Quantity.TIME_S : Quantity.ENERGY_J;
        CorridorResult r = solve(Fields.ground(field, FloatGrid.empty(SPEC)), cost, 0, start, end);
        double[] out = whole(field, q, Direction.OUT, from);
        double[] home = whole(field, q, Direction.HOME, to);
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < SPEC.cells(); i++) {
          least = Math.min(least, out[i] + home[i]);
        }
        // The best of all is a way that can be driven (without heights, energy is reduced energy).
        least = Math.max(least, r.bestCost());
        BitSet crossed = new BitSet();
        for (int i = 1; i < r.centreline().size(); i++) {
          ProfilePoint p = r.centreline().get(i - 1);
          ProfilePoint n = r.centreline().get(i);
          crossed.set(SPEC.cellOf((p.xM() + n.xM()) / 2, (p.yM() + n.yM()) / 2));
        }
        int inside = 0;
        for (int i = 0; i < SPEC.cells(); i++) {
          float pct = (float) Math.max(0, 100 * (out[i] + home[i] - least) / r.bestCost());
          if (crossed.get(i)) {
            assertTrue(r.excessPct().values()[i] <= Math.min(pct, 1e-6), "on the line, cell " + i);
          } else {
            assertEquals(pct <= 5 ? pct : Float.NaN, r.excessPct().values()[i], 1e-6, "cell " + i);
          }
          inside += pct <= 5 ? 1 : 0;
        }
        assertTrue(inside > 100 && inside < 0.7 * SPEC.cells(), inside + " cells");
      }
    }
  }

  private static double[] whole(TraversalCost field, Quantity q, Direction direction, int source) {
    return Fields.values(Front.spread(new Costs(field, q, direction), Progress.NONE, source));
  }

  @Test
  void stopsAreVisitedInOrderAndLegsJoin() {
    Stop north = Questions.stop("north", 60, 30);
    CorridorResult r =
        solve(Fields.level(Fields.level(SPEC, (x, y) -> 1)), Cost.TIME, 0, WEST, north, EAST, WEST);
    double expected = 2 * Math.hypot(50, 30) + 100;
    assertEquals(expected, r.bestCost(), 0.005 * expected);
    assertEquals(0, r.excessPct().values()[SPEC.cellOf(60, 30)], 0.05);
    assertEquals(0, r.excessPct().values()[SPEC.cellOf(60, 0)], 0.05);
    double before = -1;
    for (ProfilePoint p : r.centreline()) {
      assertTrue(p.timeS() >= before);
      before = p.timeS();
    }
  }

  @Test
  void profileTellsPitchRollAndEnergyOnASlope() {
    TraversalCost f = Fields.slope(SPEC, 0, 0.2, v -> 1, k -> true);
    TraversalInput g = Fields.ground(f, Fields.heights(SPEC, 0, 0.2));
    CorridorResult east = solve(g, Cost.TIME, 0, WEST, EAST);
    ProfilePoint p = east.centreline().get(20);
    // The hill rises on the left of whoever drives east.
    assertEquals(Math.toDegrees(Math.atan(0.2)), p.rollDeg(), 1e-4);
    assertEquals(0, p.pitchDeg(), 1e-6);
    CorridorResult up =
        solve(g, Cost.TIME, 0, Questions.stop("low", 60, -30), Questions.stop("high", 60, 30));
    ProfilePoint q = up.centreline().get(20);
    assertEquals(Math.toDegrees(Math.atan(0.2)), q.pitchDeg(), 1e-4);
    assertEquals(0, q.rollDeg(), 1e-6);
    assertEquals(0.2 * (q.yM() - SPEC.southM()), q.heightM(), 1e-4);
  }

  @Test
  void leastEnergyOnRoughGroundIsARealWay() {
    TraversalCost f = FrontTest.rough(SPEC, 40);
    int n = SPEC.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    for (int i = 0; i < n; i++) {
      allowed[i] = f.allowed(i) == 0 ? 0 : -1;
      east[i] = f.gradEast(i) / 4;
      north[i] = f.gradNorth(i) / 4;
      cap[i] = f.speedCapMs(i);
    }
    for (Stop s : List.of(WEST, EAST)) {
      allowed[SPEC.cellOf(s.xM(), s.yM())] = -1;
    }
    TraversalCost field =
        new TraversalCost(SPEC, allowed, east, north, cap, new byte[n], FrontTest.regenerating());
    TraversalInput g = Fields.ground(field, FloatGrid.empty(SPEC));
    CorridorResult r = solve(g, Cost.ENERGY, 0, WEST, EAST);
    for (ProfilePoint p : r.centreline()) {
      assertTrue(field.allowed(SPEC.cellOf(p.xM(), p.yM())) != 0);
    }
    CostField labels =
        Front.spread(
            new Costs(field, ReachRequest.Quantity.ENERGY_J, Costs.Direction.OUT),
            Progress.NONE,
            SPEC.cellOf(10, 0));
    double label = labels.value(SPEC.cellOf(110, 0));
    assertEquals(label, r.bestCost(), 0.03 * label);
    CorridorResult quick = solve(g, Cost.TIME, 0, WEST, EAST);
    assertTrue(
        quick.centreline().get(quick.centreline().size() - 1).energyJ() >= r.bestCost() * 0.999);
  }

  @Test
  void impossibleStopsAreRefused() {
    TraversalCost split = Fields.level(SPEC, (x, y) -> Math.abs(x - 60) < 1.1 ? 0 : 1);
    String noWay =
        assertThrows(UserError.class, () -> solve(Fields.level(split), Cost.TIME, 0, WEST, EAST))
            .getMessage();
    assertTrue(noWay.contains("no way from 'west' to 'east'"), noWay);
    // The last cells before the wall, in the row of the eastern stop.
    double endM = 60 - 1.1;
    endM =
        SPEC.xM(SPEC.colOf(endM)) < endM
            ? SPEC.xM(SPEC.colOf(endM))
            : SPEC.xM(SPEC.colOf(endM) - 1);
    String place =
        String.format(
            Locale.ROOT, "ways end at x %.1f m, y %.1f m, %.0f m from it", endM, 0.0, 110 - endM);
    assertTrue(noWay.contains(place), noWay + "; expected " + place);
    String barred =
        assertThrows(
                UserError.class,
                () -> solve(Fields.level(split), Cost.TIME, 0, WEST, Questions.stop("wall", 60, 0)))
            .getMessage();
    assertTrue(barred.contains("stop 'wall'"), barred);
    String one =
        assertThrows(UserError.class, () -> solve(Fields.level(split), Cost.TIME, 0, WEST))
            .getMessage();
    assertTrue(one.contains("two or more"), one);
    String energy =
        assertThrows(UserError.class, () -> solve(Fields.level(split), Cost.ENERGY, 0, WEST, WEST))
            .getMessage();
    assertTrue(energy.contains("no energy model"), energy);
  }

  @Test
  void stopsInOneCellMakeAnEmptyWay() {
    CorridorResult r =
        solve(Fields.level(Fields.level(SPEC, (x, y) -> 1)), Cost.TIME, 0, WEST, WEST);
    assertEquals(0, r.bestCost());
    assertFalse(r.centreline().isEmpty());
    assertEquals(0, r.excessPct().values()[SPEC.cellOf(10, 0)]);
    List<RouteLeg> legs = RouteSurvey.legs(r);
    assertEquals(1, legs.size());
    assertEquals(0, legs.get(0).lengthM());
    assertEquals(RouteCurve.OPEN, legs.get(0).curve());
  }

  @Test
  void everyLegIsSurveyedForItself() {
    TraversalCost f = Fields.slope(SPEC, 0.06, 0, v -> 1, k -> true);
    TraversalInput g = Fields.ground(f, Fields.heights(SPEC, 0.06, 0));
    Stop middle = Questions.stop("middle", 60, 0);
    List<RouteLeg> legs =
        RouteSurvey.legs(solve(g, Cost.DISTANCE, 0, WEST, WEST, middle, EAST, middle));
    assertEquals(4, legs.size());
    assertEquals(0, legs.get(0).lengthM());
    double[] up = {0, 6, 6, 0};
    double[] down = {0, 0, 0, 6};
    for (int i = 0; i < 4; i++) {
      RouteLeg leg = legs.get(i);
      double lengthM = i == 0 ? 0 : 50 * Math.hypot(1, 0.06);
      assertEquals(lengthM, leg.lengthM(), 1e-4, "leg " + i);
      assertEquals(up[i], leg.steepestUpPct(), "leg " + i);
      assertEquals(down[i], leg.steepestDownPct(), "leg " + i);
      assertEquals(lengthM, leg.recordedM(), 1e-4, "leg " + i);
      assertEquals(0, leg.obstructedM());
      assertEquals(up[i] > 0 ? 3 : 0, leg.riseM(), 1e-4, "leg " + i);
    }
    assertEquals("middle", legs.get(2).from());
    assertEquals("east", legs.get(2).to());
  }
}
