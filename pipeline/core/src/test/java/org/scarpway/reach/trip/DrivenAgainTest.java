package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.scarpway.audit.Finding;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Target;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/**
 * Random hills with headings barred by grade and side slope, braking that gives energy back, every
 * home rule, every limit and no reserve: no trip that is told as sure breaks a rule when it is
 * driven again.
 */
class DrivenAgainTest {
  private static final int N = 56;
  private static final GridSpec SPEC = Fields.grid(N, N, 5, 0, 0);
  private static final double HOTEL_W = 60;

  private final float[] heightM = new float[N * N];
  private final float[] east = new float[N * N];
  private final float[] north = new float[N * N];

  private void draw(Random random) {
    Arrays.fill(heightM, 0);
    Arrays.fill(east, 0);
    Arrays.fill(north, 0);
    for (int wave = 0; wave < 6; wave++) {
      double lengthM = 60 + 160 * random.nextDouble();
      double angle = 2 * Math.PI * random.nextDouble();
      double kx = 2 * Math.PI / lengthM * Math.cos(angle);
      double ky = 2 * Math.PI / lengthM * Math.sin(angle);
      double phase = 6 * random.nextDouble();
      double size = 0.25 * random.nextDouble() * lengthM / (2 * Math.PI);
      for (int i = 0; i < heightM.length; i++) {
        double at = kx * SPEC.xM(i % N) + ky * SPEC.yM(i / N) + phase;
        heightM[i] += (float) (size * Math.sin(at));
        east[i] += (float) (size * kx * Math.cos(at));
        north[i] += (float) (size * ky * Math.cos(at));
      }
    }
  }

  /** Slower and dearer uphill, gives back a part downhill. */
  private static GradeTable table(double massKg) {
    double[] speed = new double[801];
    double[] traction = new double[801];
    for (int i = 0; i < speed.length; i++) {
      double g = (i - 400) / 800.0;
      speed[i] = Math.max(0.3, 3 - 5 * Math.max(0, g) - 2 * Math.max(0, -g));
      double forceN = 1.6 * massKg * (0.1 + g);
      traction[i] = forceN > 0 ? forceN / 0.8 : 0.5 * forceN;
    }
    return new GradeTable(-0.5, 0.5, speed, traction, HOTEL_W, 1.6 * massKg * 0.5);
  }

  private TraversalCost field(double steepest, double side, GradeTable table) {
    Headings headings = Headings.of(SPEC);
    int[] allowed = new int[N * N];
    for (int i = 0; i < allowed.length; i++) {
      for (int k = 0; k < Headings.COUNT; k++) {
        double grade = east[i] * headings.east(k) + north[i] * headings.north(k);
        double cross = east[i] * headings.north(k) - north[i] * headings.east(k);
        boolean open = Math.abs(grade) <= steepest && Math.abs(cross) <= side;
        allowed[i] |= open ? 1 << k : 0;
      }
    }
    return new TraversalCost(SPEC, allowed, east, north, null, new byte[N * N], table);
  }

  private static int base(TraversalCost field) {
    int best = -1;
    for (int i = 0; i < N * N; i++) {
      int off = Math.abs(i / N - N / 2) + Math.abs(i % N - N / 2);
      int offBest = Math.abs(best / N - N / 2) + Math.abs(best % N - N / 2);
      if (field.allowed(i) == -1 && (best < 0 || off < offBest)) {
        best = i;
      }
    }
    return best;
  }

  private List<Finding> driven(Random random, HomeRule home, int trips, Workers workers) {
    return driven(random, home, trips, false, workers);
  }

  /** A walker at 0.9 m/s, above the sustained rate on climbs of more than 3 %, or slower there. */
  private WalkHome.Limits limits(Random random, TraversalCost onFoot) {
    double[] speed = new double[201];
    double[] seconds = new double[201];
    double[] slow = new double[201];
    for (int i = 0; i < speed.length; i++) {
      speed[i] = 0.9;
      seconds[i] = i > 103 ? 1 / 0.9 : 0;
      slow[i] = Math.min(0.9, 0.9 * 0.13 / (0.1 + Math.max(0, (i - 100) / 100.0)));
    }
    double none = Double.POSITIVE_INFINITY;
    return new WalkHome.Limits(
        none,
        100 + 150 * random.nextDouble(),
        onFoot.withTables(new GradeTable(-1, 1, speed, seconds, 0, 0)),
        onFoot.withTables(new GradeTable(-1, 1, slow, new double[201], 0, 0)),
        5 + 60 * random.nextDouble(),
        none);
  }

  /**
   * @param held whether the walker is limited by more than time
   */
  private List<Finding> driven(
      Random random, HomeRule home, int trips, boolean held, Workers workers) {
    draw(random);
    GradeTable own = table(900);
    TraversalCost field = field(0.3, 0.22, own);
    TraversalCost loaded = field(0.26, 0.2, table(1260));
    TraversalCost onFoot =
        field(0.36, 1, new GradeTable(-1, 1, new double[] {0.9, 0.9}, new double[] {0, 0}, 0, 0));
    int base = base(field);
    double timeS = 200 + random.nextInt(250);
    Budget budget =
        new Budget(
            timeS,
            random.nextBoolean() ? 30_000.0 + random.nextInt(60_000) : null,
            random.nextBoolean() ? 300.0 + random.nextInt(500) : null,
            random.nextBoolean() ? timeS * (0.8 + random.nextDouble()) : null);
    Vehicle vehicle = Fields.cart(4, HOTEL_W, null, VehicleParts.crew(2, 4, null));
    ReachRequest request =
        new ReachRequest(
            "r",
            "b",
            SPEC.xM(base % N),
            SPEC.yM(base / N),
            budget,
            home,
            List.of(),
            random.nextInt(3) * 20,
            new Rescue(10, 15, 20, 180),
            Reserves.NONE,
            trips,
            random.nextBoolean());
    TraversalInput ground =
        Fields.ground(field, new FloatGrid(SPEC, heightM.clone()), vehicle).withLoaded(loaded);
    List<WalkHome.Refuge> refuges = new ArrayList<>();
    WalkHome.Limits limits = held ? limits(random, onFoot) : WalkHome.Limits.NONE;
    WalkHome walkHome = new WalkHome(onFoot, 320, 20, limits, refuges, List.of());
    List<Target> targets = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      double x = SPEC.westM() + random.nextDouble() * N * 5;
      double y = SPEC.southM() + random.nextDouble() * N * 5;
      targets.add(new Target("t" + i, x, y, 1, random.nextInt(2) * 30, 0));
    }
    ReachAnswer answer =
        ReachSolver.answer(request, ground, walkHome, targets, workers, Progress.NONE);
    return answer.drivenAgain();
  }

  @ParameterizedTest
  @EnumSource(HomeRule.class)
  void noTripThatIsToldAsSureBreaksARule(HomeRule home) {
    Random random = new Random(900 + home.ordinal());
    int trips = 0;
    int tight = 0;
    int waysHome = 0;
    try (Workers workers = new Workers(2)) {
      for (int k = 0; k < 6; k++) {
        for (Finding f : driven(random, home, 60, workers)) {
          assertEquals("", f.broken(), home + ", ground " + k + ", to " + f.xM() + " " + f.yM());
          trips++;
          tight += f.leftPct() < 12 ? 1 : 0;
          waysHome += f.waysHome();
        }
      }
    }
    assertTrue(trips > 150 && tight > 10, trips + " trips, " + tight + " of them tight");
    boolean alone = home == HomeRule.NONE || home == HomeRule.DRIVE_BACK;
    assertTrue(alone ? waysHome == 0 : waysHome > trips / 2, waysHome + " ways home");
  }

  /** Of walks whose length and time above the sustained rate are limited as well. */
  @Test
  void noWalkThatIsHeldToLengthAndPeakBreaksARule() {
    Random random = new Random(907);
    int waysHome = 0;
    try (Workers workers = new Workers(2)) {
      for (int k = 0; k < 8; k++) {
        for (Finding f : driven(random, HomeRule.WALK_BACK, 60, true, workers)) {
          assertEquals("", f.broken(), "ground " + k + ", to " + f.xM() + " " + f.yM());
          waysHome += f.waysHome();
        }
      }
    }
    assertTrue(waysHome > 300, waysHome + " walks");
  }

  /** The same cells in every run, on any number of threads. */
  @Test
  void findingsDoNotDependOnThreads() {
    List<List<Finding>> all = new ArrayList<>();
    for (int threads : new int[] {1, 3}) {
      try (Workers workers = new Workers(threads)) {
        all.add(driven(new Random(77), HomeRule.WALK_BACK, 20, workers));
      }
    }
    assertEquals(all.get(0), all.get(1));
    assertTrue(all.get(0).size() >= 20);
  }
}
