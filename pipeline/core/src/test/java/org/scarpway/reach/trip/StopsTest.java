package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachState;
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
 * Every home rule at every moment of trips over random level ground: against a search that shares
 * nothing with the fronts, and by driving the trips that are told again in small pieces.
 */
class StopsTest {
  private static final int N = PlainTrips.N;
  private static final GridSpec SPEC = Fields.grid(N, N, 10, 0, 0);
  private static final int BASE = 20 * N + 20;
  private static final double INF = Double.POSITIVE_INFINITY;
  private static final double HOTEL_W = 40;

  private final double[] light = new double[N * N];
  private final double[] loaded = new double[N * N];
  private final double[] walk = new double[N * N];

  /** Life support of a vehicle from the base that fetching a crew from each cell uses up. */
  private final double[] lived = new double[N * N];

  /** Blots that bar, slow down, or can only be crossed without a load. */
  private void draw(Random random) {
    Arrays.fill(light, 0.25);
    Arrays.fill(loaded, 0.4);
    Arrays.fill(walk, 1);
    for (int k = 0; k < 45; k++) {
      int row = random.nextInt(N);
      int col = random.nextInt(N);
      int size = 1 + random.nextInt(k < 3 ? 12 : 5);
      int kind = random.nextInt(5);
      for (int r = row; r < Math.min(N, row + size); r++) {
        for (int c = col; c < Math.min(N, col + size); c++) {
          int cell = r * N + c;
          if (kind == 0) {
            light[cell] = loaded[cell] = walk[cell] = INF;
          } else if (kind == 1) {
            light[cell] = 0.6;
            loaded[cell] = 0.9;
          } else if (kind == 2) {
            loaded[cell] = 1.5;
          } else if (kind == 3) {
            loaded[cell] = INF;
          } else {
            walk[cell] = 3;
          }
        }
      }
    }
    for (int r = 19; r < 22; r++) {
      for (int c = 19; c < 22; c++) {
        light[r * N + c] = 0.25;
        loaded[r * N + c] = 0.4;
        walk[r * N + c] = 1;
      }
    }
    for (int i = 0; i < light.length; i++) {
      loaded[i] = light[i] == INF ? INF : Math.max(light[i], loaded[i]);
    }
  }

  private static TraversalCost field(double[] perM, double jPerM) {
    int n = N * N;
    int[] allowed = new int[n];
    float[] cap = new float[n];
    for (int i = 0; i < n; i++) {
      allowed[i] = perM[i] < INF ? -1 : 0;
      cap[i] = (float) (1 / perM[i]);
    }
    GradeTable table =
        new GradeTable(-1, 1, new double[] {1e9, 1e9}, new double[] {jPerM, jPerM}, HOTEL_W, 0);
    return new TraversalCost(SPEC, allowed, new float[n], new float[n], cap, new byte[n], table);
  }

  /** What is asked, all of it at random. */
  private record Asked(HomeRule home, Budget budget, double lifeS, Rescue rescue, double stayS) {}

  private ReachAnswer answer(
      Asked q, Reserves reserves, Budget budget, double lifeS, Workers workers) {
    ReachRequest request =
        new ReachRequest(
            "r",
            "b",
            SPEC.xM(BASE % N),
            SPEC.yM(BASE / N),
            budget,
            q.home(),
            List.of(),
            q.stayS(),
            q.rescue(),
            reserves,
            true);
    Vehicle vehicle =
        Fields.cart(4, HOTEL_W, null, VehicleParts.crew(2, 4, lifeS == INF ? null : lifeS / 3600));
    TraversalCost own = field(light, 100);
    TraversalInput ground =
        Fields.ground(own, FloatGrid.empty(SPEC), vehicle)
            .withLoaded(own.withLoad(field(loaded, 170)));
    WalkHome onFoot =
        Questions.walkHome(
            Fields.level(SPEC, (x, y) -> 1 / walk[SPEC.cellOf(x, y)]), 1e6, 0, List.of());
    return ReachSolver.answer(request, ground, onFoot, List.of(), workers, Progress.NONE);
  }

  private static Asked ask(Random random, HomeRule home, boolean energyToo) {
    double timeS = 120 + random.nextInt(260);
    double lifeS = random.nextBoolean() ? INF : timeS * (0.8 + 0.8 * random.nextDouble());
    Double energyJ = energyToo ? Double.valueOf(30_000 + random.nextInt(60_000)) : null;
    Double distanceM = energyToo && random.nextBoolean() ? 500.0 + random.nextInt(700) : null;
    Rescue rescue = new Rescue(random.nextInt(20), random.nextInt(20), random.nextInt(20), 0);
    return new Asked(
        home, new Budget(timeS, energyJ, distanceM), lifeS, rescue, random.nextInt(3) * 10);
  }

  /** A rescuer that sets out at once and loads for long: what it lives on runs out first. */
  private static Asked slowToLoad(Random random) {
    Rescue rescue = new Rescue(0, 0, 30 + random.nextInt(20), 0);
    Budget budget = new Budget(400.0, null, null);
    return new Asked(HomeRule.BASE_RESCUE, budget, 200 + random.nextInt(60), rescue, 0);
  }

  /**
   * Time from a stop in each cell until all are home.
   *
   * @param livedS life support of a vehicle from the base: its way out for one crew, loading and
   *     the way home for two
   */
  private double[] times(Asked q, double livedS, double besideCells) {
    double[] free = new double[N * N];
    Arrays.fill(free, INF);
    double[] out = PlainTrips.search(light, free, besideCells, BASE);
    double[] rideS = PlainTrips.search(loaded, free, besideCells, BASE);
    double[] stopS = new double[N * N];
    Rescue rescue = q.rescue();
    double[] onFoot = PlainTrips.search(walk, free, besideCells, BASE);
    for (int i = 0; i < stopS.length; i++) {
      stopS[i] =
          switch (q.home()) {
            case WALK_BACK -> onFoot[i];
            case BASE_RESCUE ->
                i == BASE ? 0 : rescue.alarmS() + out[i] + rescue.loadS() + rideS[i];
            default -> rescue.transferS() + rideS[i];
          };
      lived[i] = i == BASE ? 0 : out[i] + rescue.loadS() + rescue.loadS() + rideS[i] + rideS[i];
      if (q.home() == HomeRule.BASE_RESCUE && lived[i] > livedS) {
        stopS[i] = INF;
      }
    }
    return stopS;
  }

  /** Cells that some trip reaches and comes home from by the rule, time and life support alone. */
  private boolean[] within(Asked q, double share, double lessS, double besideCells) {
    return within(q, share, lessS, besideCells, share * q.lifeS() + lessS);
  }

  private boolean[] within(Asked q, double share, double lessS, double besideCells, double livedS) {
    double timeS = share * q.budget().timeS() + lessS;
    double lifeS = share * q.lifeS() + lessS;
    double[] t = times(q, livedS, besideCells);
    boolean pair = q.home() == HomeRule.PAIR;
    double[] latest = new double[N * N];
    for (int i = 0; i < latest.length; i++) {
      latest[i] = Math.min(timeS - t[i], lifeS - (pair ? 2 : 1) * t[i]);
    }
    double[] out = PlainTrips.search(light, latest, besideCells, BASE);
    double[] need = pair ? t : PlainTrips.needs(light, t, besideCells, BASE);
    boolean[] in = new boolean[N * N];
    for (int i = 0; i < in.length; i++) {
      double atS = out[i] + q.stayS();
      in[i] = atS + need[i] <= timeS && atS + (pair ? 2 : 1) * need[i] <= lifeS;
    }
    return in;
  }

  @Test
  void noTripIsTakenForSureOrRuledOutWrongly() {
    Random random = new Random(31);
    int surely = 0;
    int open = 0;
    int rim = 0;
    int twoCrews = 0;
    try (Workers workers = new Workers(1)) {
      for (int k = 0; k < 12; k++) {
        draw(random);
        HomeRule home = List.of(HomeRule.PAIR, HomeRule.BASE_RESCUE, HomeRule.WALK_BACK).get(k % 3);
        Asked q = k < 9 ? ask(random, home, false) : slowToLoad(random);
        byte[] state =
            answer(q, Reserves.NONE, q.budget(), q.lifeS(), workers).rows(0, N).state().values();
        boolean[] more = within(q, 1.03, 5, 0);
        boolean[] less = within(q, 0.95, -10, 0.1);
        boolean[] oneCrew = within(q, 0.95, -10, 0.1, INF);
        for (int i = 0; i < state.length; i++) {
          String where = "ground " + k + ", " + q + ", cell " + i;
          assertTrue(state[i] != ReachState.SURELY || more[i], where);
          assertTrue(state[i] != 0 || !less[i], where);
          surely += state[i] == ReachState.SURELY ? 1 : 0;
          open += state[i] == ReachState.POSSIBLY ? 1 : 0;
          twoCrews += oneCrew[i] && !more[i] ? 1 : 0;
          rim += less[i] && state[i] != ReachState.SURELY ? 1 : 0;
        }
      }
    }
    assertTrue(surely > 3000 && open < 0.04 * surely, open + " open, " + surely + " surely");
    assertTrue(twoCrews > 100, twoCrews + " cells");
    assertTrue(rim < 0.025 * surely, rim + " of " + surely + " not told that are well within");
  }

  /** Drives every trip that is told in small pieces and holds every rule at every piece. */
  @Test
  void everyRuleHoldsAtEveryMomentOfTheTripsThatAreTold() {
    Random random = new Random(41);
    int driven = 0;
    try (Workers workers = new Workers(1)) {
      for (int k = 0; k < 12; k++) {
        draw(random);
        HomeRule home =
            List.of(HomeRule.PAIR, HomeRule.BASE_RESCUE, HomeRule.WALK_BACK, HomeRule.DRIVE_BACK)
                .get(k % 4);
        Asked q = k == 9 ? slowToLoad(random) : ask(random, home, k >= 4);
        ReachAnswer answer = answer(q, Reserves.NONE, q.budget(), q.lifeS(), workers);
        byte[] state = answer.rows(0, N).state().values();
        double[] t = times(q, INF, 0);
        for (int i = k % 7; i < state.length; i += 7) {
          TripLine trip = answer.trip(i, q.stayS());
          assertEquals(state[i] == ReachState.SURELY, trip != null, "cell " + i);
          if (trip != null) {
            drive(q, trip, t, "ground " + k + ", " + q + ", cell " + i);
            driven++;
          }
        }
      }
    }
    assertTrue(driven > 400, driven + " trips");
  }

  private double nowS;
  private double usedJ;
  private double drivenM;

  private void drive(Asked q, TripLine trip, double[] t, String where) {
    nowS = usedJ = drivenM = 0;
    assertEquals(BASE, trip.out()[0], where);
    assertEquals(trip.cell(), trip.out()[trip.out().length - 1], where);
    assertEquals(trip.cell(), trip.home()[0], where);
    assertEquals(BASE, trip.home()[trip.home().length - 1], where);
    boolean pair = q.home() == HomeRule.PAIR;
    along(q, trip.out(), light, 100, t, pair ? 2 : 1, where);
    double stillS = q.stayS();
    nowS += stillS;
    usedJ += stillS * HOTEL_W;
    held(q, trip.cell(), t, pair ? 2 : 1, where);
    if (pair) {
      // From here on the loaded vehicle, whose crew breathes twice.
      double changeS = q.rescue().transferS();
      double aliveS = nowS + 2 * (changeS + rideOf(trip.home()));
      assertTrue(aliveS <= q.lifeS() * 1.01 + 10, where + " life support");
      nowS += changeS;
      usedJ += changeS * HOTEL_W;
    }
    along(q, trip.home(), pair ? loaded : light, pair ? 170 : 100, t, pair ? 0 : 1, where);
  }

  private double rideOf(int[] corners) {
    double before = nowS;
    double beforeJ = usedJ;
    double beforeM = drivenM;
    along(null, corners, loaded, 170, null, 0, "");
    double rideS = nowS - before;
    nowS = before;
    usedJ = beforeJ;
    drivenM = beforeM;
    return rideS;
  }

  /**
   * @param breathing crews on one vehicle after a stop, 0 where a stop asks for nothing
   */
  private void along(
      Asked q,
      int[] corners,
      double[] perM,
      double jPerM,
      double[] t,
      int breathing,
      String where) {
    for (int leg = 1; leg < corners.length; leg++) {
      int from = corners[leg - 1];
      int dr = corners[leg] / N - from / N;
      int dc = corners[leg] % N - from % N;
      int fromRow = from / N;
      int pieces = 24 * Math.max(1, Math.max(Math.abs(dr), Math.abs(dc)));
      double lengthM = 10 * Math.hypot(dr, dc) / pieces;
      for (int p = 0; p < pieces; p++) {
        int row = (int) Math.rint(fromRow + dr * (p + 0.5) / pieces);
        int col = (int) Math.rint(from % N + dc * (p + 0.5) / pieces);
        int cell = row * N + col;
        // Through a corner of cells either side may be meant.
        double perMHere = perM[cell] < INF ? perM[cell] : 0.6;
        nowS += perMHere * lengthM;
        usedJ += (jPerM + HOTEL_W * perMHere) * lengthM;
        drivenM += lengthM;
        if (q != null) {
          held(q, cell, t, breathing, where + ", at " + cell);
        }
      }
    }
  }

  /** Every limit at one moment, to the error of the scheme: 1 % and a cell's time or metres. */
  private void held(Asked q, int cell, double[] t, int breathing, String where) {
    double timeS = q.budget().timeS() * 1.01 + 10;
    double lifeS = q.lifeS() * 1.01 + 10;
    assertTrue(nowS <= timeS && nowS <= lifeS, where + " at " + nowS + " s");
    if (q.budget().energyJ() != null) {
      double energyJ = q.budget().energyJ() * 1.01 + 2000;
      assertTrue(usedJ <= energyJ, where + " with " + usedJ + " J");
    }
    if (q.budget().distanceM() != null) {
      assertTrue(drivenM <= q.budget().distanceM() * 1.01 + 10, where + " after " + drivenM);
    }
    boolean asked = q.home() != HomeRule.DRIVE_BACK && breathing > 0 && t[cell] < INF;
    if (asked) {
      assertTrue(nowS + t[cell] <= timeS, where + " stops at " + nowS + " s");
      assertTrue(nowS + breathing * t[cell] <= lifeS, where + " stops at " + nowS + " s");
      boolean fetched = q.home() == HomeRule.BASE_RESCUE;
      assertTrue(!fetched || lived[cell] <= lifeS, where + " fetched for " + lived[cell] + " s");
    }
  }

  /** More reserve, less of anything: nothing becomes sure, and what was ruled out stays out. */
  @Test
  void lessNeverReachesFurther() {
    Random random = new Random(51);
    int lost = 0;
    try (Workers workers = new Workers(1)) {
      for (int k = 0; k < 12; k++) {
        draw(random);
        HomeRule home = HomeRule.values()[k % 5];
        Asked q = ask(random, home, k >= 5);
        Reserves some = new Reserves(random.nextInt(15), random.nextInt(15), random.nextInt(15), 5);
        byte[] all =
            answer(q, Reserves.NONE, q.budget(), q.lifeS(), workers).rows(0, N).state().values();
        byte[] kept = answer(q, some, q.budget(), q.lifeS(), workers).rows(0, N).state().values();
        Budget b = q.budget();
        Budget less =
            new Budget(
                b.timeS() * (1 - some.timePct() / 100),
                b.energyJ() == null
                    ? null
                    : Double.valueOf(b.energyJ() * (1 - some.energyPct() / 100)),
                b.distanceM() == null ? null : Double.valueOf(b.distanceM() * 0.95),
                q.lifeS() == INF
                    ? null
                    : Double.valueOf(q.lifeS() * (1 - some.lifeSupportPct() / 100)));
        byte[] cut = answer(q, Reserves.NONE, less, INF, workers).rows(0, N).state().values();
        for (int i = 0; i < all.length; i++) {
          String where = "ground " + k + ", " + q + ", " + some + ", cell " + i;
          // A reserve is a lower limit.
          assertEquals(cut[i], kept[i], where);
          assertTrue(kept[i] == 0 || all[i] != 0, where);
          assertTrue(kept[i] != ReachState.SURELY || k >= 5 || all[i] == ReachState.SURELY, where);
          lost += all[i] == ReachState.SURELY && kept[i] != ReachState.SURELY ? 1 : 0;
        }
      }
    }
    assertTrue(lost > 300, lost + " cells lost");
  }
}
