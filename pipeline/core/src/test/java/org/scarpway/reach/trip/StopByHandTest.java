package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.StopInTime;
import org.scarpway.reach.front.Tiling;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * What a stop asks for on a lane of cells of 10 m: 5 s a cell at 100 J/m and 40 W alone, 10 s a
 * cell at 200 J/m and 40 W with everybody aboard. So a cell takes 1200 J there and 2400 J back.
 */
class StopByHandTest {
  private static final double NONE = Double.POSITIVE_INFINITY;
  private static final double HAIR = 1 - 1e-9;
  private static final int N = 31;
  private static final GridSpec LANE = Fields.grid(1, N, 10, -5, -5);

  private static TraversalCost lane(double speedMs, double jPerM, int last) {
    int[] allowed = new int[N];
    float[] cap = new float[N];
    Arrays.fill(allowed, 0, last + 1, -1);
    Arrays.fill(cap, (float) speedMs);
    GradeTable table =
        new GradeTable(-1, 1, new double[] {1e9, 1e9}, new double[] {jPerM, jPerM}, 40, 0);
    return new TraversalCost(LANE, allowed, new float[N], new float[N], cap, null, table);
  }

  private static PathSums ride(int last) {
    Costs costs = new Costs(lane(1, 200, last), Quantity.TIME_S, Direction.HOME);
    return PathSums.along(Front.spread(costs, Progress.NONE, 0), Floats.of(new float[N]), true);
  }

  private static ReachLimits limits(
      HomeRule home, double timeS, double energyJ, double distanceM, double lifeS) {
    Rescue rescue = new Rescue(15, 10, 20, 0);
    return new ReachLimits(home, timeS, energyJ, distanceM, lifeS, 40, rescue, Reserves.NONE);
  }

  private static boolean rides(double timeS, double energyJ, double distanceM, double lifeS) {
    ReachLimits limits = limits(HomeRule.PAIR, timeS, energyJ, distanceM, lifeS);
    // At cell 8 after 100 s, 5000 J and 130 m.
    return Stops.riding(limits, lane(2, 100, 30), List.of(ride(20))).hold(8, 100, 5000, 130);
  }

  /**
   * From cell 8 the change takes 10 s and 400 J, the ride 80 s, 19 200 J and 80 m; two crews
   * breathe for 180 s.
   */
  @Test
  void aRideMeetsEveryLimit() {
    double[] need = {190, 24_600, 210, 280};
    assertTrue(rides(need[0], need[1], need[2], need[3]));
    for (int i = 0; i < 4; i++) {
      for (double other : new double[] {1, NONE}) {
        double[] l = need.clone();
        for (int j = 0; j < 4; j++) {
          l[j] *= j == i ? HAIR : other;
        }
        assertFalse(rides(l[0], l[1], l[2], l[3]), "limit " + i);
      }
    }
  }

  /** Of two rides one that meets everything is enough. */
  @Test
  void anyRideMayBeTheOne() {
    ReachLimits limits = limits(HomeRule.PAIR, NONE, NONE, 210, NONE);
    Stops stops = new Stops(limits, Floats.of(new float[N]), null, List.of(ride(5), ride(20)));
    assertTrue(stops.hold(8, 100, 5000, 130));
    assertFalse(stops.hold(9, 100, 5000, 130));
    assertFalse(stops.hold(25, 0, 0, 0));
  }

  @Test
  void aStoppedVehicleWaitsForItsRescuer() {
    float[] waitS = new float[N];
    waitS[8] = 50;
    ReachLimits limits = limits(HomeRule.BASE_RESCUE, NONE, 7000, NONE, NONE);
    Stops stops = new Stops(limits, Floats.of(new float[N]), Floats.of(waitS), List.of());
    assertEquals(2000, stops.waitJ(8));
    assertTrue(stops.hold(8, 1e9, 5000, 1e9));
    assertFalse(stops.hold(8, 0, 5000.001, 0));
    Stops walk = new Stops(limits, Floats.of(new float[N]), null, List.of());
    assertEquals(0, walk.waitJ(8));
    assertTrue(walk.hold(8, 0, 7000, 0));
    assertFalse(walk.hold(8, 0, 7000.001, 0));
    assertTrue(walk.hold(8, 0, Double.NaN, 0));
  }

  /** What must be left of the shorter of both, on a ride of 80 s after a change of 10 s. */
  @Test
  void twoCrewsBreatheTwiceAsFast() {
    double[][] cases = {
      // Time, life support; left.
      {NONE, NONE, 90},
      {500, NONE, 90},
      {500, 1000, 90},
      {NONE, 1000, 180},
      {500, 500, 180},
      {500, 400, 180},
      {500, 560, 120},
      {500, 590, 90},
      {500, 591, 90},
    };
    for (double[] c : cases) {
      ReachLimits limits = limits(HomeRule.PAIR, c[0], NONE, NONE, c[1]);
      Stops stops = Stops.riding(limits, lane(2, 100, 30), List.of(ride(20)));
      assertEquals(c[2], stops.homeS().get(8), Arrays.toString(c));
      assertEquals(90, stops.tellS(8), Arrays.toString(c));
      double most = Math.min(c[0], c[1]);
      assertTrue(stops.inTime(8, most - c[2]), Arrays.toString(c));
      if (most < NONE) {
        assertFalse(stops.inTime(8, most - c[2] + 1e-6), Arrays.toString(c));
      }
    }
  }

  @Test
  void whereNobodyGetsHomeNobodyIsInTime() {
    ReachLimits limits = limits(HomeRule.PAIR, NONE, NONE, NONE, NONE);
    Stops stops = Stops.riding(limits, lane(2, 100, 25), List.of(ride(20)));
    assertEquals(210, stops.homeS().get(20));
    for (int cell = 21; cell <= 25; cell++) {
      assertEquals(Float.POSITIVE_INFINITY, stops.homeS().get(cell));
      assertFalse(stops.inTime(cell, 0));
      assertTrue(Float.isNaN(stops.tellS(cell)));
    }
    assertTrue(Float.isNaN(stops.homeS().get(26)));
    assertFalse(stops.inTime(26, 0));
    float[] walkS = {12, Float.POSITIVE_INFINITY, Float.NaN};
    Stops walk = new Stops(limits, Floats.of(walkS), null, List.of());
    assertEquals(12, walk.tellS(0));
    assertTrue(Float.isNaN(walk.tellS(1)) && Float.isNaN(walk.tellS(2)));
    assertTrue(walk.inTime(0, 1e9));
    assertFalse(walk.inTime(1, 0));
  }

  @Test
  void energyAndDistanceAreAskedForWhereTheyAreLimited() {
    Floats some = Floats.of(new float[N]);
    for (int bits = 0; bits < 4; bits++) {
      boolean energy = (bits & 1) != 0;
      boolean distance = (bits & 2) != 0;
      ReachLimits limits = limits(HomeRule.PAIR, 1, energy ? 1 : NONE, distance ? 1 : NONE, NONE);
      assertEquals(energy || distance, new Stops(limits, some, null, List.of(ride(20))).askMore());
      assertEquals(energy, new Stops(limits, some, some, List.of()).askMore());
      assertFalse(new Stops(limits, some, null, List.of()).askMore());
      assertTrue(new Stops(limits, some, null, List.of()).asked());
      assertFalse(Stops.none(limits).asked());
    }
  }

  /** The latest moment in each cell of a tile and of two cells around it, and nothing else. */
  @Test
  void aFrontGoesOnUntilTheTimeThatAStopLeaves() {
    GridSpec spec = Fields.grid(10, 13, 1, 0, 0);
    float[] stopS = new float[spec.cells()];
    for (int i = 0; i < stopS.length; i++) {
      stopS[i] = i % 11 == 3 ? Float.POSITIVE_INFINITY : i % 17 == 5 ? Float.NaN : 2 * i;
    }
    Tiling tiling = Tiling.of(spec, 4);
    StopInTime front = new StopInTime(tiling, Floats.of(stopS), 1000);
    int stride = 12;
    int at = 4 * stride + 4;
    for (int tile = 0; tile < tiling.tiles(); tile++) {
      double[] into = new double[stride * stride];
      Arrays.fill(into, -7);
      front.read(tile, into, at, stride);
      int row0 = tile / 4 * 4;
      int col0 = tile % 4 * 4;
      for (int i = 0; i < into.length; i++) {
        int row = row0 + i / stride - 4;
        int col = col0 + i % stride - 4;
        boolean near = row >= row0 - 2 && row < Math.min(row0 + 4, 10) + 2;
        near &= col >= col0 - 2 && col < Math.min(col0 + 4, 13) + 2;
        double want = -7;
        if (near && row >= 0 && row < 10 && col >= 0 && col < 13) {
          int cell = row * 13 + col;
          boolean none = cell % 11 == 3 || cell % 17 == 5;
          want = none ? Double.NEGATIVE_INFINITY : 1000 - 2.0 * cell;
        }
        assertEquals(want, into[i], "tile " + tile + ", row " + row + ", column " + col);
      }
    }
  }

  private static Stops fetching(
      TraversalCost light, TraversalCost loaded, ReachLimits limits, boolean hasEnergy, int base) {
    return fetching(light, loaded, limits, limits, hasEnergy, base);
  }

  private static Stops fetching(
      TraversalCost light,
      TraversalCost loaded,
      ReachLimits limits,
      ReachLimits own,
      boolean hasEnergy,
      int base) {
    TraversalInput ground = Fields.ground(light, FloatGrid.empty(light.spec())).withLoaded(loaded);
    TraversalInput level =
        new TraversalInput(
                ground.vehicle(),
                ground.field(),
                ground.limit(),
                Floats.of(new float[light.spec().cells()]),
                ground.margin01(),
                ground.hazard01(),
                null)
            .withLoaded(loaded);
    try (Workers workers = new Workers(1)) {
      return Fetching.of(limits, own, level, hasEnergy, base, workers, Progress.NONE).stops();
    }
  }

  /**
   * Alarm 15 s, out 5 s a cell, loading 20 s, home 10 s a cell. The rescuer takes 1200 J a cell
   * out, 800 J to load and 2400 J a cell home, over 20 m a cell. Two crews on its life support
   * while loading and on the way home: 40 s and 25 s a cell; the first crew takes 35 s and 15 s a
   * cell of its own.
   */
  @Test
  void aRescuerComesOutLoadsAndReturnsWithinItsLimits() {
    double[][] cases = {
      // Time, energy, distance, life support; last cell that is fetched from.
      {NONE, NONE, NONE, NONE, 30},
      {35 + 150, NONE, NONE, NONE, 10},
      {(35 + 150) * HAIR, NONE, NONE, NONE, 9},
      {NONE, 10 * 3600 + 800, NONE, NONE, 10},
      {NONE, 10 * 3600 + 799, NONE, NONE, 9},
      {NONE, NONE, 200, NONE, 10},
      {NONE, NONE, 199.9, NONE, 9},
      {NONE, 10 * 3600 + 800, 199.9, NONE, 9},
      {NONE, 10 * 3600 + 799, 200, NONE, 9},
      {NONE, NONE, NONE, 40 + 250, 10},
      {NONE, NONE, NONE, (40 + 250) * HAIR, 9},
      {NONE, 11 * 3600 + 800, 220, 40 + 250, 10},
      {35 + 150, NONE, NONE, 40 + 275, 10},
    };
    for (double[] c : cases) {
      ReachLimits limits = limits(HomeRule.BASE_RESCUE, c[0], c[1], c[2], c[3]);
      Stops stops = fetching(lane(2, 100, 30), lane(1, 200, 30), limits, true, 0);
      assertEquals(0, stops.homeS().get(0));
      assertEquals(0, stops.waitS().get(0));
      for (int cell = 1; cell < N; cell++) {
        boolean fetched = cell <= c[4];
        String where = Arrays.toString(c) + ", cell " + cell;
        assertEquals(fetched ? 35 + 15 * cell : Float.NaN, stops.homeS().get(cell), 1e-3, where);
        assertEquals(fetched ? 35 + 5 * cell : Float.NaN, stops.waitS().get(cell), 1e-3, where);
      }
      assertTrue(stops.rides().isEmpty());
    }
    ReachLimits free = limits(HomeRule.BASE_RESCUE, NONE, NONE, NONE, NONE);
    assertNull(fetching(lane(2, 100, 30), lane(1, 200, 30), free, false, 0).waitS());
    ReachLimits still =
        new ReachLimits(
            HomeRule.BASE_RESCUE, NONE, NONE, NONE, NONE, 0, free.rescue(), Reserves.NONE);
    assertNull(fetching(lane(2, 100, 30), lane(1, 200, 30), still, true, 0).waitS());
    // A crew that is underway has less left than the vehicle that sets out.
    ReachLimits less = limits(HomeRule.BASE_RESCUE, NONE, NONE, NONE, 35 + 15 * 8);
    Stops late = fetching(lane(2, 100, 30), lane(1, 200, 30), less, free, true, 0);
    assertEquals(35 + 15 * 8, late.homeS().get(8), 1e-3);
    assertTrue(Float.isNaN(late.homeS().get(9)));
    // Where the loaded vehicle cannot go nobody is fetched.
    Stops trap = fetching(lane(2, 100, 30), lane(1, 200, 12), free, true, 0);
    assertEquals(35 + 180, trap.homeS().get(12), 1e-3);
    assertTrue(Float.isNaN(trap.homeS().get(13)) && Float.isNaN(trap.waitS().get(13)));
  }

  /**
   * Two lanes, 30 cells of 10 m from end to end: 2 m/s at 1000 J/m or 1 m/s at 10 J/m, each with 40
   * W. There and back takes 300 s and 612 kJ by the one, 600 s and 30 kJ by the other, which begins
   * and ends with 20 m from lane to lane.
   */
  @Test
  void whereTheQuickestWayTakesTooMuchTheCheapestIsDriven() {
    GridSpec spec = Fields.grid(3, N, 10, 0, 0);
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    byte[] kind = new byte[n];
    for (int i = 0; i < n; i++) {
      int col = i % N;
      boolean wall = i / N == 1 && col > 0 && col < N - 1;
      allowed[i] = wall ? 0 : -1;
      cap[i] = i / N == 2 ? 1 : 2;
      kind[i] = (byte) (i / N == 2 ? 1 : 0);
    }
    GradeTable dear =
        new GradeTable(-1, 1, new double[] {1e9, 1e9}, new double[] {1000, 1000}, 40, 0);
    GradeTable cheap = new GradeTable(-1, 1, new double[] {1e9, 1e9}, new double[] {10, 10}, 40, 0);
    TraversalCost field =
        new TraversalCost(spec, allowed, new float[n], new float[n], cap, kind, dear, cheap);
    int far = N - 1;
    double[][] cases = {{NONE, 335}, {800_000, 335}, {200_000, 665}};
    for (double[] c : cases) {
      ReachLimits limits = limits(HomeRule.BASE_RESCUE, NONE, c[0], NONE, NONE);
      Stops stops = fetching(field, field, limits, true, 0);
      assertEquals(c[1], stops.homeS().get(far), 35, Arrays.toString(c));
      // Near the base the quick way is taken all the same.
      assertEquals(35 + 2 * 25, stops.homeS().get(5), 1e-3);
    }
    ReachLimits none = limits(HomeRule.BASE_RESCUE, NONE, 20_000, NONE, NONE);
    assertTrue(Float.isNaN(fetching(field, field, none, true, 0).homeS().get(far)));
    ReachLimits late = limits(HomeRule.BASE_RESCUE, 500, 200_000, NONE, NONE);
    assertTrue(Float.isNaN(fetching(field, field, late, true, 0).homeS().get(far)));
  }
}
