package org.scarpway.reach.corridor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.FrontTest;
import org.scarpway.reach.front.Line;
import org.scarpway.reach.question.CorridorRequest;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.question.CorridorRequest.Stop;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.survey.RouteLeg;
import org.scarpway.reach.survey.RouteSurvey;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/**
 * Corridors of every kind in every direction, drawn at random from seeds: each ends with answers
 * that are finite and agree with each other, or says that there is no way where there is none.
 */
class AnyCorridorTest {
  enum Kind {
    FLAT(40, 40, 0, 1, 1),
    MILD(48, 56, 0.12, 1, 1),
    STEEP(52, 60, 0.48, 0.4, 0.2);

    final int rows;
    final int cols;
    final double steepness;
    final double climb;
    final double side;

    Kind(int rows, int cols, double steepness, double climb, double side) {
      this.rows = rows;
      this.cols = cols;
      this.steepness = steepness;
      this.climb = climb;
      this.side = side;
    }
  }

  private record Wave(double east, double north, double phase, double heightM) {}

  /** Waves of random directions and lengths, turned or mirrored as told. */
  private record Hills(Kind kind, List<Wave> waves, int turn, boolean mirror) {
    static Hills random(Kind kind, Random random) {
      List<Wave> waves = new ArrayList<>();
      for (int i = 0; i < 5; i++) {
        double length = 12 + 25 * random.nextDouble();
        double angle = 2 * Math.PI * random.nextDouble();
        double size = kind.steepness * length / (2 * Math.PI) * random.nextDouble();
        waves.add(
            new Wave(
                Math.cos(angle) * 2 * Math.PI / length,
                Math.sin(angle) * 2 * Math.PI / length,
                6 * random.nextDouble(),
                size));
      }
      return new Hills(kind, waves, 0, false);
    }

    Hills turned() {
      return new Hills(kind, waves, 2, mirror);
    }

    Hills mirrored() {
      return new Hills(kind, waves, turn, true);
    }

    GridSpec spec() {
      return Fields.grid(kind.rows, kind.cols, 1, -0.5 * kind.cols, -0.5 * kind.rows);
    }

    /** Where a place of the plain hills lies. */
    double[] place(double x, double y) {
      double sx = mirror ? -x : x;
      return turn == 2 ? new double[] {-sx, -y} : new double[] {sx, y};
    }

    /** Height, slope to the east and to the north. */
    double[] at(double x, double y) {
      double[] p = place(x, y);
      double[] h = new double[3];
      for (Wave w : waves) {
        double phase = w.east * p[0] + w.north * p[1] + w.phase;
        h[0] += w.heightM * Math.sin(phase);
        h[1] += w.heightM * w.east * Math.cos(phase);
        h[2] += w.heightM * w.north * Math.cos(phase);
      }
      double back = turn == 2 ? -1 : 1;
      h[1] *= mirror ? -back : back;
      h[2] *= back;
      return h;
    }

    TraversalInput ground(Vehicle vehicle) {
      GridSpec spec = spec();
      Headings headings = Headings.of(spec);
      int n = spec.cells();
      int[] allowed = new int[n];
      float[] east = new float[n];
      float[] north = new float[n];
      float[] cap = new float[n];
      FloatGrid height = FloatGrid.empty(spec);
      for (int i = 0; i < n; i++) {
        double[] h = at(spec.xM(i % spec.cols()), spec.yM(i / spec.cols()));
        height.values()[i] = (float) h[0];
        east[i] = (float) h[1];
        north[i] = (float) h[2];
        cap[i] = 3;
        for (int k = 0; k < Headings.COUNT; k++) {
          double grade = h[1] * headings.east(k) + h[2] * headings.north(k);
          double cross = h[1] * headings.north(k) - h[2] * headings.east(k);
          boolean open = Math.abs(grade) <= kind.climb && Math.abs(cross) <= kind.side;
          allowed[i] |= open ? 1 << k : 0;
        }
      }
      TraversalCost field =
          new TraversalCost(spec, allowed, east, north, cap, new byte[n], FrontTest.regenerating());
      return Fields.ground(field, height, vehicle);
    }
  }

  private static Vehicle cart(double turnM) {
    Vehicle.Drive drive = VehicleParts.drive(1, null, null, null, null, null, null, turnM);
    return new Vehicle("cart", "", null, null, null, null, null, drive, null, null, null);
  }

  private static CorridorResult solve(CorridorRequest request, TraversalInput ground) {
    try (Workers workers = new Workers(2)) {
      return CorridorSolver.solve(request, ground, workers, Progress.NONE);
    }
  }

  private static CorridorRequest request(
      List<Stop> stops, boolean anyOrder, Cost cost, int alternatives, int tradeOffs) {
    return Questions.corridor(
        "c", stops, anyOrder, cost, List.of(2.0, 5.0), alternatives, 50, tradeOffs);
  }

  /** Stops about the middle of the ground, in every direction and a hair off it. */
  private static List<Stop> stops(GridSpec spec, Random random, int n) {
    List<Stop> stops = new ArrayList<>();
    double far = 0.42 * Math.min(spec.rows(), spec.cols());
    double angle = random.nextInt(32) * Math.PI / 16;
    for (int i = 0; i < n; i++) {
      double r = far * (i < 2 ? 1 : random.nextDouble());
      double a = i < 2 ? angle + i * Math.PI : 7 * random.nextDouble();
      a += random.nextInt(3) * 1e-3 * random.nextDouble();
      stops.add(Questions.stop("s" + i, r * Math.sin(a), r * Math.cos(a)));
    }
    return stops;
  }

  @ParameterizedTest
  @EnumSource(Kind.class)
  void everyCorridorEndsWithAnAnswer(Kind kind) {
    Random random = new Random(70 + kind.ordinal());
    int answered = 0;
    for (int i = 0; i < 40; i++) {
      Hills hills = Hills.random(kind, random);
      double turnM = i % 2 == 0 ? 0 : 1 + 4 * random.nextDouble();
      TraversalInput ground = hills.ground(cart(turnM));
      List<Stop> stops = stops(hills.spec(), random, i % 4 == 3 ? 4 : 2);
      Cost cost = Cost.values()[random.nextInt(3)];
      CorridorRequest request =
          request(stops, i % 8 == 7, cost, i % 5 == 1 ? 2 : 0, i % 5 == 2 ? 4 : 0);
      String what = kind + " " + i;
      if (!joined(ground, stops)) {
        assertThrows(UserError.class, () -> solve(request, ground), what);
        continue;
      }
      check(solve(request, ground), ground, turnM, what);
      answered++;
    }
    assertTrue(answered >= (kind == Kind.STEEP ? 8 : 40), kind + ": " + answered);
  }

  private static boolean joined(TraversalInput ground, List<Stop> stops) {
    TraversalCost field = ground.field();
    GridSpec spec = field.spec();
    for (Stop s : stops) {
      Costs costs = new Costs(field, Quantity.TIME_S, Direction.OUT);
      CostField labels = Front.spread(costs, Progress.NONE, spec.cellOf(s.xM(), s.yM()));
      for (Stop t : stops) {
        int cell = spec.cellOf(t.xM(), t.yM());
        if (field.allowed(cell) == 0 || !labels.reached(cell)) {
          return false;
        }
      }
    }
    return true;
  }

  private static void check(CorridorResult r, TraversalInput ground, double turnM, String what) {
    GridSpec spec = ground.field().spec();
    assertTrue(Double.isFinite(r.bestCost()), what);
    checkLine(r.centreline(), ground.field(), what);
    r.alternatives().forEach(a -> checkLine(a.line(), ground.field(), what));
    r.tradeOffs().forEach(t -> checkLine(t.line(), ground.field(), what));
    r.alternatives().forEach(a -> assertTrue(Double.isFinite(a.excessPct()), what));
    List<Visit> visits = r.visits();
    for (int i = 1; i < visits.size(); i++) {
      assertTrue(visits.get(i).timeS() > visits.get(i - 1).timeS(), what);
      assertTrue(Double.isFinite(visits.get(i).energyJ()), what);
    }
    Visit last = visits.get(visits.size() - 1);
    ProfilePoint end = r.centreline().get(r.centreline().size() - 1);
    assertEquals(spec.cellOf(last.xM(), last.yM()), spec.cellOf(end.xM(), end.yM()), what);
    double onLine =
        switch (r.request().cost()) {
          case TIME -> end.timeS();
          case ENERGY -> end.energyJ();
          case DISTANCE -> end.distanceM();
        };
    if (turnM == 0) {
      assertEquals(r.bestCost(), onLine, 1e-9 * Math.abs(onLine), what);
      // The line lies in the narrowest of its own corridors.
      for (int i = 1; i < r.centreline().size(); i++) {
        ProfilePoint p = r.centreline().get(i - 1);
        ProfilePoint q = r.centreline().get(i);
        if (Math.hypot(p.xM() - q.xM(), p.yM() - q.yM()) > 0.05) {
          int cell = spec.cellOf((p.xM() + q.xM()) / 2, (p.yM() + q.yM()) / 2);
          assertTrue(r.excessPct().values()[cell] <= 1e-6, what);
        }
      }
    }
    for (RouteLeg leg : RouteSurvey.legs(r)) {
      assertTrue(Double.isFinite(leg.lengthM() + leg.riseM() + leg.obstructedM()), what);
      assertTrue(leg.tightestM() >= 0, what);
    }
  }

  /** Finite figures that never fall, on allowed headings, by no more than a cell at a time. */
  private static void checkLine(List<ProfilePoint> line, TraversalCost field, String what) {
    for (int i = 0; i < line.size(); i++) {
      ProfilePoint p = line.get(i);
      assertTrue(
          Double.isFinite(
              p.timeS() + p.energyJ() + p.distanceM() + p.speedMs() + p.heightM() + p.rollDeg()),
          what);
      assertTrue(p.speedMs() > 0, what);
      if (i > 0) {
        ProfilePoint before = line.get(i - 1);
        double planM = Math.hypot(p.xM() - before.xM(), p.yM() - before.yM());
        double lengthM = p.distanceM() - before.distanceM();
        assertTrue(p.timeS() >= before.timeS() && lengthM >= planM * (1 - 1e-6) - 1e-9, what);
        assertTrue(planM < 1.5, what);
        if (planM > 0.05) {
          GridSpec spec = field.spec();
          int cell = spec.cellOf((p.xM() + before.xM()) / 2, (p.yM() + before.yM()) / 2);
          double heading = Line.headingOf(before.yM() - p.yM(), p.xM() - before.xM());
          int low = (int) (heading + 1e-6);
          int high = (int) Math.ceil(heading - 1e-6);
          assertTrue(field.allows(cell, low & 31) && field.allows(cell, high & 31), what);
        }
      }
    }
  }

  /** The same hills turned by half a turn and mirrored, and stops turned and mirrored with them. */
  @ParameterizedTest
  @EnumSource(Kind.class)
  void turnedAndMirroredGroundCostsTheSame(Kind kind) {
    Random random = new Random(90 + kind.ordinal());
    int compared = 0;
    for (int i = 0; i < 24; i++) {
      Hills hills = Hills.random(kind, random);
      List<Stop> stops = stops(hills.spec(), random, 2);
      TraversalInput ground = hills.ground(cart(0));
      if (!joined(ground, stops)) {
        continue;
      }
      Cost cost = Cost.values()[i % 2 * 2];
      double plain = solve(request(stops, false, cost, 0, 0), ground).bestCost();
      for (Hills other : List.of(hills.turned(), hills.mirrored(), hills.mirrored().turned())) {
        List<Stop> moved = new ArrayList<>();
        for (Stop s : stops) {
          double[] p = other.place(s.xM(), s.yM());
          moved.add(Questions.stop(s.name(), p[0], p[1]));
        }
        double same = solve(request(moved, false, cost, 0, 0), other.ground(cart(0))).bestCost();
        assertEquals(plain, same, 0.01 * plain, kind + " " + i);
      }
      compared++;
    }
    assertTrue(compared >= 4, kind + ": " + compared);
  }

  /** On flat ground: due north, and a hair to either side of it and of all other headings. */
  @Test
  void flatGroundIsCrossedStraightOnInEveryDirection() {
    GridSpec spec = Fields.grid(41, 41, 1, -20.5, -20.5);
    TraversalCost flat = Fields.level(spec, (x, y) -> 2);
    for (double turnM : new double[] {0, 3}) {
      for (int k = 0; k < 32; k++) {
        double x = 4.0 * Headings.dCol(k);
        double y = -4.0 * Headings.dRow(k);
        for (int off = -1; off <= 1; off++) {
          Stop a = Questions.stop("a", -x + off, -y - off);
          Stop b = Questions.stop("b", x, y);
          TraversalInput ground =
              Fields.ground(flat, new FloatGrid(spec, new float[spec.cells()]), cart(turnM));
          CorridorResult r = solve(request(List.of(a, b), false, Cost.DISTANCE, 0, 0), ground);
          double exact = Math.hypot(b.xM() - a.xM(), b.yM() - a.yM());
          assertEquals(exact, r.bestCost(), 1e-6, "heading " + k + " off " + off);
          ProfilePoint end = r.centreline().get(r.centreline().size() - 1);
          assertEquals(exact, end.distanceM(), 1e-6);
        }
      }
    }
  }
}
