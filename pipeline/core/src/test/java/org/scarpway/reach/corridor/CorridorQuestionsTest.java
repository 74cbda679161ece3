package org.scarpway.reach.corridor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.CorridorRequest;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.question.CorridorRequest.Stop;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.Alternative;
import org.scarpway.reach.question.CorridorResult.PinchPoint;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.CorridorResult.TradeOff;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.TraversalCost;

/** Stops in any order, trade-offs, alternatives and pinch points of corridors. */
class CorridorQuestionsTest {
  private static final GridSpec SPEC = Fields.grid(81, 121, 1, -0.5, -40.5);
  private static final Stop WEST = Questions.stop("west", 10, 0);
  private static final Stop EAST = Questions.stop("east", 110, 0);

  private static CorridorResult solve(CorridorRequest request, TraversalInput ground) {
    try (Workers workers = new Workers(2)) {
      return CorridorSolver.solve(request, ground, workers, Progress.NONE);
    }
  }

  private static CorridorRequest anyOrder(Stop... stops) {
    return Questions.corridor("c", List.of(stops), true, Cost.TIME, List.of(5.0), 0, 50, 0);
  }

  @Test
  void stopsInAnyOrderAreVisitedInTheBestOne() {
    // A slope: up is slower than down, so that the two ways round a tour differ.
    TraversalCost slope =
        Fields.slope(SPEC, 0.1, 0.2, g -> g > 0 ? 2 / (1 + 4 * g) : 2 / (1 - g), k -> true);
    Stop[] stops = {
      Questions.stop("a", 20, 30),
      Questions.stop("b", 100, -35),
      Questions.stop("c", 60, 5),
      Questions.stop("d", 15, -30),
      Questions.stop("e", 95, 30)
    };
    double[][] s = new double[5][];
    for (int i = 0; i < 5; i++) {
      s[i] = Fields.timesOut(slope, stops[i].xM(), stops[i].yM());
    }
    double[] west = Fields.timesOut(slope, WEST.xM(), WEST.yM());
    double[] least = {Double.POSITIVE_INFINITY};
    List<String> best = new ArrayList<>();
    permute(
        new int[] {0, 1, 2, 3, 4},
        0,
        order -> {
          double t = west[cell(stops[order[0]])];
          for (int i = 1; i < 5; i++) {
            t += s[order[i - 1]][cell(stops[order[i]])];
          }
          t += s[order[4]][cell(WEST)];
          if (t < least[0]) {
            least[0] = t;
            best.clear();
            for (int i : order) {
              best.add(stops[i].name());
            }
          }
        });
    TraversalInput ground = Fields.ground(slope, Fields.heights(SPEC, 0.1, 0.2));
    CorridorResult r =
        solve(anyOrder(WEST, stops[0], stops[1], stops[2], stops[3], stops[4], WEST), ground);
    assertEquals(best, r.visits().subList(1, 6).stream().map(Visit::name).toList());
    assertTrue(r.order().proven());
    assertEquals(least[0], r.order().atLeast(), 1e-6 * least[0]);
    assertEquals(least[0], r.bestCost(), 0.01 * least[0]);
    double before = -1;
    for (Visit v : r.visits()) {
      assertTrue(v.timeS() > before);
      before = v.timeS();
    }
    assertEquals(r.bestCost(), before, 1e-6 * before);
    assertNull(
        solve(Questions.corridor("c", List.of(WEST, EAST), Cost.TIME, List.of(5.0), 0), ground)
            .order());
  }

  private static int cell(Stop s) {
    return SPEC.cellOf(s.xM(), s.yM());
  }

  private static void permute(int[] order, int from, java.util.function.Consumer<int[]> each) {
    if (from == order.length) {
      each.accept(order);
      return;
    }
    for (int i = from; i < order.length; i++) {
      swap(order, from, i);
      permute(order, from + 1, each);
      swap(order, from, i);
    }
  }

  private static void swap(int[] a, int i, int k) {
    int v = a[i];
    a[i] = a[k];
    a[k] = v;
  }

  @Test
  void manyStopsComeWithABound() {
    List<Stop> stops = new ArrayList<>();
    stops.add(WEST);
    for (int i = 0; i < 18; i++) {
      stops.add(Questions.stop("s" + i, 5 + (i * 37) % 110, -38 + (i * 29) % 76));
    }
    stops.add(EAST);
    CorridorResult r =
        solve(
            Questions.corridor("c", stops, true, Cost.DISTANCE, List.of(5.0), 0, 50, 0),
            Fields.level(Fields.level(SPEC, (x, y) -> 1)));
    assertEquals(20, r.visits().stream().map(Visit::name).distinct().count());
    assertTrue(r.order().atLeast() <= r.bestCost() * 1.01);
    assertTrue(r.order().gapPct() >= 0 && r.order().gapPct() < 8, r.order().toString());
  }

  @Test
  void stopsThatCannotBeJoinedAreNamed() {
    TraversalCost split = Fields.level(SPEC, (x, y) -> Math.abs(x - 60) < 1.1 ? 0 : 1);
    String message =
        assertThrows(UserError.class, () -> solve(anyOrder(WEST, EAST, WEST), Fields.level(split)))
            .getMessage();
    assertTrue(message.contains("no way from 'west' to 'east'"), message);
    assertTrue(message.contains(", ways end at x 5"), message);
  }

  /** Lanes side by side, walled off from each other: a way is one lane, so all can be listed. */
  private static final double[][] LANES = {
    // speed, joules per metre, hazard
    {4, 900, 0.75}, {3, 300, 0.5}, {2, 500, 0.25}, {2, 1000, 0.75}, {1, 200, 1}, {1, 400, 0}
  };

  private static TraversalInput lanes() {
    int n = SPEC.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    float[] hazard = new float[n];
    byte[] ground = new byte[n];
    GradeTable[] tables = new GradeTable[LANES.length + 1];
    for (int i = 0; i < n; i++) {
      double x = SPEC.xM(i % SPEC.cols());
      int row = i / SPEC.cols();
      int lane = row / 13;
      boolean open = x < 20 || x > 100;
      boolean inLane = row % 13 >= 4 && row % 13 < 9 && lane < LANES.length;
      allowed[i] = open || inLane ? -1 : 0;
      ground[i] = (byte) (open || !inLane ? LANES.length : lane);
      cap[i] = open || !inLane ? 1000 : (float) LANES[lane][0];
      hazard[i] = open || !inLane ? 0 : (float) LANES[lane][2];
    }
    for (int t = 0; t < LANES.length; t++) {
      double j = LANES[t][1];
      tables[t] = new GradeTable(-1, 1, new double[] {2000, 2000}, new double[] {j, j}, 0, 0);
    }
    tables[LANES.length] =
        new GradeTable(-1, 1, new double[] {2000, 2000}, new double[] {0.01, 0.01}, 0, 0);
    TraversalCost field =
        new TraversalCost(SPEC, allowed, new float[n], new float[n], cap, ground, tables);
    Mobility m = Fields.mobility(field, Fields.vehicle(null, null));
    return new TraversalInput(m, FloatGrid.empty(SPEC), new FloatGrid(SPEC, hazard));
  }

  @Test
  void tradeOffsAreTheSupportedLanes() {
    CorridorResult r =
        solve(
            Questions.corridor("c", List.of(WEST, EAST), false, Cost.TIME, List.of(5.0), 0, 50, 28),
            lanes());
    List<TradeOff> found = r.tradeOffs();
    assertTrue(found.size() >= 3, found.size() + " ways");
    for (TradeOff a : found) {
      int lane = laneOf(a);
      // 80 to 81 cells of the lane, the rest costs next to nothing.
      assertEquals(80.5 / LANES[lane][0], a.timeS(), 1 / LANES[lane][0]);
      assertEquals(80.5 * LANES[lane][1], a.energyJ(), 1.5 * LANES[lane][1]);
      assertEquals(80.5 * LANES[lane][2], a.hazardM(), 1.5 * LANES[lane][2] + 1e-9);
      for (TradeOff b : found) {
        assertTrue(!TradeOffs.better(b, a), b + " is better than " + a);
      }
      // No lane of all has a lower weighted sum than the one found for these weights.
      double unitS = r.centreline().get(r.centreline().size() - 1).timeS();
      double unitJ = r.centreline().get(r.centreline().size() - 1).energyJ();
      double unitM = 80.5 * LANES[0][2];
      double got = Double.NaN;
      double least = Double.POSITIVE_INFINITY;
      for (int k = 0; k < LANES.length; k++) {
        double sum =
            80.5
                * (a.timeWeight() / LANES[k][0] / unitS
                    + a.energyWeight() * LANES[k][1] / unitJ
                    + a.hazardWeight() * LANES[k][2] / unitM);
        got = k == lane ? sum : got;
        least = Math.min(least, sum);
      }
      assertTrue(got <= least * 1.02, "lane " + lane + ": " + got + ", least " + least);
    }
    // The fourth lane is worse than the first three in everything.
    assertTrue(found.stream().noneMatch(t -> laneOf(t) == 3));
    List<Integer> lanes = found.stream().map(CorridorQuestionsTest::laneOf).distinct().toList();
    assertEquals(lanes.size(), found.size(), "every way once");
    assertTrue(lanes.containsAll(List.of(0, 1, 4, 5)), "the extremes are there: " + lanes);
  }

  private static int laneOf(TradeOff t) {
    ProfilePoint p =
        t.line().stream().filter(q -> Math.abs(q.xM() - 60) < 1).findFirst().orElseThrow();
    return SPEC.rowOf(p.yM()) / 13;
  }

  @Test
  void withoutEnergyAndHazardOnlyTimeIsLeft() {
    CorridorResult r =
        solve(
            Questions.corridor("c", List.of(WEST, EAST), false, Cost.TIME, List.of(5.0), 0, 50, 10),
            Fields.level(Fields.level(SPEC, (x, y) -> 1)));
    assertEquals(1, r.tradeOffs().size());
    assertEquals(100, r.tradeOffs().get(0).timeS(), 1e-6);
  }

  @Test
  void alternativesShareNoMoreThanStated() {
    TraversalCost flat = Fields.level(SPEC, (x, y) -> 1);
    for (double most : new double[] {25, 50}) {
      CorridorResult r =
          solve(
              Questions.corridor(
                  "c", List.of(WEST, EAST), false, Cost.TIME, List.of(5.0), 3, most, 0),
              Fields.level(flat));
      assertTrue(r.alternatives().size() >= 2, r.warnings().toString());
      Geometry taken = line(r.centreline()).buffer(r.besideM(), 32);
      for (Alternative a : r.alternatives()) {
        Geometry way = line(a.line());
        double measured = 100 * way.intersection(taken).getLength() / way.getLength();
        assertTrue(measured <= most + 3, measured + " % measured on the lines, most " + most);
        assertEquals(measured, a.sharedPct(), 3, "as told");
        assertTrue(a.sharedPct() <= most);
        taken = taken.union(way.buffer(r.besideM(), 32));
      }
    }
  }

  private static Geometry line(List<ProfilePoint> points) {
    return new GeometryFactory()
        .createLineString(
            points.stream().map(p -> new Coordinate(p.xM(), p.yM())).toArray(Coordinate[]::new));
  }

  @Test
  void everyPassageIsOnePinchPointWithTheGroundBehindIt() {
    // Two walls with one gap each, of 6 and 3 cells, two cells thick; the line hugs both.
    TraversalCost walls =
        Fields.level(
            SPEC,
            (x, y) ->
                (Math.abs(x - 40.5) < 1.1 && !(y > 9.6 && y < 15.6))
                        || (Math.abs(x - 80.5) < 1.1 && !(y > -20.4 && y < -17.4))
                    ? 0
                    : 1);
    CorridorResult r =
        solve(
            Questions.corridor("c", List.of(WEST, EAST, WEST), Cost.TIME, List.of(5.0), 0),
            Fields.level(walls));
    List<PinchPoint> found = r.pinchPoints();
    assertEquals(2, found.size(), found.toString());
    assertEquals(3, found.get(0).widthM(), 1e-5);
    assertEquals(80.5, found.get(0).xM(), 1.01);
    assertEquals(-19, found.get(0).yM(), 0.51);
    assertEquals(6, found.get(1).widthM(), 1e-5);
    assertEquals(40.5, found.get(1).xM(), 1.01);
    assertEquals(13, found.get(1).yM(), 0.51);
    // East of the wall's last column, and the gap's cells that are not closed.
    assertEquals(39 * 81, found.get(0).behindM2(), 2 * 3);
    assertEquals(79 * 81 - 2 * 78, found.get(1).behindM2(), 2 * 6 + 6);
    ProfilePoint near =
        r.centreline().stream()
            .filter(p -> Math.abs(p.distanceM() - found.get(0).distanceM()) < 1e-6)
            .findFirst()
            .orElse(null);
    assertNotNull(near);
    assertEquals(found.get(0).xM(), near.xM(), 2);
  }

  @Test
  void aLineAlongAWallInTheOpenHasNoPinch() {
    TraversalCost wall = Fields.level(SPEC, (x, y) -> Math.abs(x - 60) < 0.6 && y < 12 ? 0 : 1);
    CorridorResult r =
        solve(
            Questions.corridor("c", List.of(WEST, EAST), Cost.TIME, List.of(5.0), 0),
            Fields.level(wall));
    assertEquals(List.of(), r.pinchPoints());
  }
}
