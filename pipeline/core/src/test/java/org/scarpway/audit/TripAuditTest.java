package org.scarpway.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * A level road of 1000 cells of a metre, driven at 2 m/s for 100 J/m and 50 W, from its west end to
 * cell 800 and back: 400 s each way, 100 000 J each way; half a minute there at 50 W. All expected
 * values by hand.
 */
class TripAuditTest {
  private static final GridSpec SPEC = new GridSpec(1, 1001, 1, 1, 0, 1, "");
  private static final double INFINITE = Double.POSITIVE_INFINITY;

  private static TraversalCost road(int shut) {
    int[] allowed = new int[SPEC.cells()];
    Arrays.fill(allowed, -1);
    if (shut >= 0) {
      allowed[shut] = 0;
    }
    float[] level = new float[SPEC.cells()];
    double[] speed = {2, 2};
    double[] traction = {100, 100};
    return new TraversalCost(
        SPEC, allowed, level, level, null, null, new GradeTable(-1, 1, speed, traction, 50, 0));
  }

  private static Trip trip(int shut) {
    double[] row = {0, 0};
    TraversalCost road = road(shut);
    Floats heights = Floats.of(new float[SPEC.cells()]);
    return new Trip(
        "there",
        new Way(row, new double[] {0, 800}, null),
        30,
        0,
        new Way(row, new double[] {800, 0}, null),
        road,
        road,
        heights);
  }

  private static Limits limits(
      double timeS, double lifeS, double energyJ, double distM, double footS) {
    return new Limits(
        new Limit("time", timeS, timeS),
        new Limit("life support", lifeS, lifeS),
        new Limit("energy", energyJ, energyJ),
        new Limit("distance", distM, distM),
        new Limit("walk", footS, footS),
        new Limit("rescuer", INFINITE, INFINITE),
        50);
  }

  @Test
  void eachLimitIsHeldToItsLastShare() {
    double timeS = 830;
    double energyJ = 2 * (800 * 100 + 50 * 400) + 50 * 30;
    double[] need = {timeS, timeS, energyJ, 1600, INFINITE};
    for (int i = 0; i < 4; i++) {
      double[] most = {INFINITE, INFINITE, INFINITE, INFINITE, INFINITE};
      most[i] = need[i];
      Limits enough = limits(most[0], most[1], most[2], most[3], most[4]);
      Finding holds = TripAudit.of(trip(-1), enough, HomeRule.none());
      assertTrue(holds.holds(), holds.broken());
      assertEquals(0, holds.leftPct(), 1e-9);
      assertEquals(timeS, holds.timeS(), 1e-9);
      assertEquals(energyJ, holds.energyJ(), 1e-6);
      assertEquals("home", holds.phase());
      most[i] = need[i] * 0.985;
      Limits less = limits(most[0], most[1], most[2], most[3], most[4]);
      assertFalse(TripAudit.of(trip(-1), less, HomeRule.none()).holds(), "limit " + i);
    }
  }

  /**
   * A shelter 100 cells beyond the far end, walked to at 0.5 m/s: worst where home begins to near.
   */
  private static HomeRule shelterAt(int shelter) {
    return new HomeRule() {
      @Override
      public List<Need> at(int cell, double usedJ, boolean onTheWayHome) {
        double s = Math.min(Math.abs(cell - shelter), cell) / 0.5;
        return List.of(new Need(s, s, 0, 0, s, 0));
      }

      @Override
      public List<Proof> proofs(int cell, boolean onTheWayHome, Used used) {
        return List.of();
      }
    };
  }

  @Test
  void theWorstMomentOfAWalkHomeLiesOnTheWayHome() {
    // Halfway between base and shelter, cell 450: 900 s on foot, reached on the way home after
    // 400 + 30 + 175 s.
    double worstS = 605 + 900;
    Finding f =
        TripAudit.of(
            trip(-1), limits(1510, INFINITE, INFINITE, INFINITE, INFINITE), shelterAt(900));
    assertTrue(f.holds(), f.broken());
    assertEquals(100 * (1510 - worstS) / 1510, f.leftPct(), 0.1);
    assertEquals(450.5, f.leftXM(), 1.5);
    assertEquals("home", f.phase());
    Finding late =
        TripAudit.of(
            trip(-1), limits(1480, INFINITE, INFINITE, INFINITE, INFINITE), shelterAt(900));
    assertTrue(late.broken().contains("time") && late.broken().contains("home"), late.broken());
    Finding far =
        TripAudit.of(trip(-1), limits(INFINITE, INFINITE, INFINITE, INFINITE, 880), shelterAt(900));
    assertTrue(far.broken().contains("walk") && far.broken().contains("out"), far.broken());
    assertFalse(
        TripAudit.of(trip(-1), limits(INFINITE, 1480, INFINITE, INFINITE, INFINITE), shelterAt(900))
            .holds());
  }

  @Test
  void closedGroundIsFoundAndNamed() {
    Finding f =
        TripAudit.of(
            trip(500), limits(INFINITE, INFINITE, INFINITE, INFINITE, INFINITE), HomeRule.none());
    assertTrue(f.broken().contains("not allowed") && f.broken().contains("x 500.5"), f.broken());
  }

  /** Braking down a ramp gives nothing to a battery that is full, and a crest counts. */
  @Test
  void theBatteryIsHeldAtTheCrest() {
    int n = SPEC.cells();
    float[] z = new float[n];
    float[] east = new float[n];
    for (int i = 0; i < n; i++) {
      z[i] = i < 200 ? -0.1f * i : i < 600 ? -20 + 0.1f * (i - 200) : 20 - 0.1f * (i - 600);
      east[i] = i < 200 || i >= 600 ? -0.1f : 0.1f;
    }
    int[] allowed = new int[n];
    Arrays.fill(allowed, -1);
    double[] speed = {2, 2, 2};
    // 1000 J per metre of height either way, and nothing on the level.
    double[] traction = {-1000, 0, 1000};
    TraversalCost hill =
        new TraversalCost(
            SPEC,
            allowed,
            east,
            new float[n],
            null,
            null,
            new GradeTable(-1, 1, speed, traction, 0, 1000));
    double[] row = {0, 0};
    Trip trip =
        new Trip(
            "there",
            new Way(row, new double[] {0, 800}, null),
            0,
            0,
            null,
            hill,
            hill,
            Floats.of(z));
    // Down 20 m on a full battery: nothing. Up 40 m: 40 000 J. Down 20 m: 20 000 J come back.
    Finding f =
        TripAudit.of(trip, limits(INFINITE, INFINITE, 41_000, INFINITE, INFINITE), HomeRule.none());
    assertTrue(f.holds(), f.broken());
    assertEquals(600, f.leftXM(), 3);
    assertEquals(20_000, f.energyJ(), 400);
    assertFalse(
        TripAudit.of(trip, limits(INFINITE, INFINITE, 38_000, INFINITE, INFINITE), HomeRule.none())
            .holds());
  }

  /** A walk that takes longer than was promised is a mistake. */
  @Test
  void whatTheWorstMomentsRestOnIsDrivenToo() {
    HomeRule promising =
        new HomeRule() {
          @Override
          public List<Need> at(int cell, double usedJ, boolean onTheWayHome) {
            return List.of(new Need(cell / 3.0, 0, 0, 0, 0, 0));
          }

          @Override
          public List<Proof> proofs(int cell, boolean onTheWayHome, Used used) {
            return List.of(
                Proof.walk(
                    new Part(
                        0,
                        0,
                        new Way(new double[] {0, 0}, new double[] {cell, 0}, null),
                        road(-1),
                        Floats.of(new float[SPEC.cells()])),
                    cell / 3.0,
                    INFINITE,
                    INFINITE,
                    null));
          }
        };
    Finding f =
        TripAudit.of(trip(-1), limits(5000, INFINITE, INFINITE, INFINITE, INFINITE), promising);
    assertTrue(f.broken().startsWith("the walk home takes"), f.broken());
  }

  /** One way home that holds is enough, and none is none. */
  @Test
  void oneOfSeveralWaysHomeMustHold() {
    for (int ways = 0; ways < 3; ways++) {
      List<HomeRule.Need> needs =
          List.of(new HomeRule.Need(1e9, 0, 0, 0, 0, 0), new HomeRule.Need(10, 0, 0, 0, 0, 0))
              .subList(0, ways);
      HomeRule rule =
          new HomeRule() {
            @Override
            public List<Need> at(int cell, double usedJ, boolean onTheWayHome) {
              return needs;
            }

            @Override
            public List<Proof> proofs(int cell, boolean onTheWayHome, Used used) {
              return List.of();
            }
          };
      Finding f =
          TripAudit.of(trip(-1), limits(1000, INFINITE, INFINITE, INFINITE, INFINITE), rule);
      assertEquals(ways == 2, f.holds(), ways + f.broken());
    }
  }
}
