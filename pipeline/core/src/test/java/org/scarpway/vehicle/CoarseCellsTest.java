package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.Dem;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.hazard.HazardParams;
import org.scarpway.hazard.HazardStrips;
import org.scarpway.hazard.RockParams;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainStage;
import org.scarpway.vehicle.CellMobility.Check;

/** The same ground on cells of any size: what they do not show neither slows nor counts as fine. */
class CoarseCellsTest {
  private static final Vehicle TRUCK = EstimatedStepTest.TRUCK;
  private static final double[] CELLS_M = {1, 5, 10, 30, 90};
  private static final int SIZE = 90;

  /** A plane of 0.36 degrees with hills of 3 m over 1500 m: slopes below 1.1 degrees. */
  private static double smooth(double x, double y) {
    double k = 2 * Math.PI / 1500;
    return Math.tan(Math.toRadians(0.36)) * x + 3 * Math.sin(k * x) * Math.cos(0.7 * k * y);
  }

  /** Waves from 8 km down to 1 m, as high as their length to the power of 0.8. */
  private static Grounds.Surface rough(long seed, double highM) {
    Random random = new Random(seed);
    int waves = 60;
    double[] kx = new double[waves];
    double[] ky = new double[waves];
    double[] phase = new double[waves];
    double[] high = new double[waves];
    for (int i = 0; i < waves; i++) {
      double waveM = 8000 * Math.pow(0.86, i);
      double azimuth = 2 * Math.PI * random.nextDouble();
      kx[i] = 2 * Math.PI / waveM * Math.cos(azimuth);
      ky[i] = 2 * Math.PI / waveM * Math.sin(azimuth);
      phase[i] = 2 * Math.PI * random.nextDouble();
      high[i] = highM * Math.pow(waveM / 8000, 0.8);
    }
    return (x, y) -> {
      double z = 0;
      for (int i = 0; i < waves; i++) {
        z += high[i] * Math.sin(kx[i] * x + ky[i] * y + phase[i]);
      }
      return z;
    };
  }

  private static Terrain terrain(Grounds.Surface surface, double cellM, Workers workers) {
    GridSpec spec = Grounds.square(SIZE, cellM);
    FloatGrid height = FloatGrid.empty(spec);
    for (int i = 0; i < spec.cells(); i++) {
      height.values()[i] = (float) surface.heightM(spec.xM(i % SIZE), spec.yM(i / SIZE));
    }
    TerrainParams params =
        new TerrainParams(
            TerrainParams.SlopeMethod.HORN, Math.max(Math.hypot(2.9, 1.6), 3 * cellM), 1.6, 2.9);
    return TerrainStage.compute(
        new Dem(height, 0, Body.EARTH, List.of()), params, workers, Progress.NONE);
  }

  private static Mobility mobility(Terrain terrain, UnresolvedRule rule, Workers workers) {
    return MobilityStage.compute(
        terrain,
        Grounds.noHazard(terrain.gradEast().spec()),
        TRUCK,
        null,
        Body.EARTH,
        rule,
        HeightTrust.AS_MEASURED,
        new MobilityCounts().next(0, SIZE),
        workers,
        Progress.NONE);
  }

  /** Share of the judged cells. */
  private static double share(Mobility m, byte cls) {
    int known = 0;
    int of = 0;
    for (byte c : m.cls().values()) {
      known += c == 0 ? 0 : 1;
      of += c == cls ? 1 : 0;
    }
    return of / (double) known;
  }

  private static double meanSpeedMs(Mobility m) {
    double sum = 0;
    int n = 0;
    for (float v : m.speedMs().values()) {
      if (!Float.isNaN(v)) {
        sum += v;
        n++;
      }
    }
    return sum / n;
  }

  @Test
  void smoothGroundIsDrivenAsFastOnCellsOfAnySize() {
    try (Workers workers = new Workers(1)) {
      for (double cellM : CELLS_M) {
        Mobility m =
            mobility(terrain(CoarseCellsTest::smooth, cellM, workers), UnresolvedRule.SAY, workers);
        String on = "cells of " + cellM + " m";
        assertEquals(1, share(m, Mobility.GO), 0, on);
        // Below 12 degrees nothing but roughness and steps slows a truck of that power.
        assertEquals(8, meanSpeedMs(m), 0.01 * 8, on);
        if (cellM == 1) {
          assertNull(m.unresolved(), on);
        }
        if (cellM >= 10) {
          assertTrue(m.unresolved().limits().contains(Limit.ROUGHNESS), on);
          assertEquals(100, m.unresolved().sharePct(), 0, on);
          assertTrue(m.notes().contains(m.unresolved().text()), on);
        }
      }
    }
  }

  @Test
  void coarserCellsAreNeverBetterWithoutSayingSo() {
    try (Workers workers = new Workers(1)) {
      for (long seed = 1; seed <= 4; seed++) {
        Grounds.Surface surface = rough(seed, 100.0 * seed);
        double fine = -1;
        for (double cellM : CELLS_M) {
          Mobility m = mobility(terrain(surface, cellM, workers), UnresolvedRule.SAY, workers);
          double open = 1 - share(m, Mobility.NO_GO);
          fine = fine < 0 ? share(m, Mobility.GO) : fine;
          String on = "seed " + seed + ", cells of " + cellM + " m";
          if (share(m, Mobility.GO) > fine) {
            assertNotNull(m.unresolved(), on);
          }
          if (cellM >= 10) {
            assertEquals(100 * open, m.unresolved().sharePct(), 1e-9, on);
          }
        }
      }
    }
  }

  @Test
  void theJobDecidesWhatBecomesOfSuchGround() {
    try (Workers workers = new Workers(1)) {
      Terrain t = terrain(rough(7, 60), 90, workers);
      Mobility say = mobility(t, UnresolvedRule.SAY, workers);
      Mobility slow = mobility(t, UnresolvedRule.SLOW, workers);
      Mobility shut = mobility(t, UnresolvedRule.NO_GO, workers);
      int open = 0;
      for (int cell = 0; cell < SIZE * SIZE; cell++) {
        byte said = say.cls().values()[cell];
        if (said == 0 || said == Mobility.NO_GO) {
          assertEquals(said, slow.cls().values()[cell]);
          assertEquals(said, shut.cls().values()[cell]);
          assertEquals(say.limit().values()[cell], shut.limit().values()[cell]);
          continue;
        }
        open++;
        assertEquals(Mobility.SLOW, slow.cls().values()[cell]);
        assertEquals(1.0, slow.field().speedCapMs(cell), 0);
        assertEquals(Mobility.NO_GO, shut.cls().values()[cell]);
        assertEquals(Limit.UNRESOLVED.code(), shut.limit().values()[cell]);
        assertEquals(0, shut.field().allowed(cell));
      }
      assertTrue(open > 1000, "open " + open);
      assertEquals(say.unresolved().sharePct(), slow.unresolved().sharePct(), 0);
      assertEquals(say.unresolved().sharePct(), shut.unresolved().sharePct(), 0);
    }
  }

  @Test
  void anExplanationAgreesAndGivesTheLength() {
    try (Workers workers = new Workers(1)) {
      Terrain t = terrain(rough(3, 60), 90, workers);
      Hazard none = Grounds.noHazard(t.gradEast().spec());
      for (UnresolvedRule rule : UnresolvedRule.values()) {
        Mobility m = mobility(t, rule, workers);
        for (int cell = 0; cell < SIZE * SIZE; cell += 97) {
          CellMobility c = MobilityExplain.at(t, none, TRUCK, null, Body.EARTH, rule, cell);
          assertEquals(m.cls().values()[cell], c.cls());
          assertEquals(
              m.limit().values()[cell], c.binding() == null ? 0 : c.binding().code(), "" + cell);
          for (CellMobility.Check check : c.checks()) {
            if (check.limit() == Limit.ROUGHNESS) {
              assertFalse(check.shown());
              assertFalse(check.decides());
              assertEquals(270, check.lengthM(), 1e-9);
            }
          }
        }
      }
    }
  }

  /** Every check of a limit, on every heading, is shown or not as the table of limits has it. */
  @Test
  void anExplanationHoldsNothingForShownThatTheTableDoesNot() {
    try (Workers workers = new Workers(1)) {
      for (double cellM : CELLS_M) {
        Terrain t = terrain(rough(3, 60), cellM, workers);
        GridSpec spec = t.gradEast().spec();
        TerrainParams params =
            new TerrainParams(
                TerrainParams.SlopeMethod.HORN, 3 * cellM, 1.6, 2.9, 0.02 * cellM, null, null);
        HeightTrust trust = new HeightTrust(0.9, LayerErrors.of(params, spec));
        Unresolved unresolved = mobility(t, UnresolvedRule.SAY, workers).unresolved();
        Set<Limit> notShown = unresolved == null ? Set.of() : Set.copyOf(unresolved.limits());
        Set<Limit> seen = EnumSet.noneOf(Limit.class);
        for (HeightTrust of : List.of(HeightTrust.AS_MEASURED, trust)) {
          var limits = new MobilityExplain.Limits(TRUCK, Body.EARTH, UnresolvedRule.SAY, of);
          for (int cell = SIZE + 1; cell < SIZE * SIZE; cell += 997) {
            CellMobility c = MobilityExplain.at(t, Grounds.noHazard(spec), limits, null, cell);
            List<Check> all = new ArrayList<>(c.checks());
            c.headings().forEach(h -> all.addAll(h.checks()));
            for (Check check : all) {
              String on = cellM + " m, cell " + cell + ": " + check;
              assertEquals(!notShown.contains(check.limit()), check.shown(), on);
              seen.add(check.limit());
            }
          }
        }
        assertTrue(seen.containsAll(notShown), cellM + " m: " + seen + " " + notShown);
      }
    }
  }

  @Test
  void whatIsMeasuredAsTooSteepStaysClosed() {
    try (Workers workers = new Workers(1)) {
      for (double cellM : CELLS_M) {
        Terrain t = terrain((x, y) -> Math.tan(Math.toRadians(30)) * (x + y), cellM, workers);
        assertEquals(1, share(mobility(t, UnresolvedRule.SAY, workers), Mobility.NO_GO), 0);
      }
    }
  }

  /**
   * Ridges 1.2 m high every 5 m: closed on cells that show them, and level on cells of 5 m, which
   * lie on the same place of every ridge. What these do not show of the truck's slopes is told.
   */
  @Test
  void ridgesAsCloseAsTheCellsAreNotToldAsFine() {
    Grounds.Surface ridges = (x, y) -> 0.6 * Math.cos(2 * Math.PI * x / 5);
    try (Workers workers = new Workers(1)) {
      assertEquals(
          0,
          share(mobility(terrain(ridges, 0.25, workers), UnresolvedRule.SAY, workers), Mobility.GO),
          0.01);
      Terrain coarse = terrain(ridges, 5, workers);
      Mobility m = mobility(coarse, UnresolvedRule.SAY, workers);
      assertEquals(1, share(m, Mobility.GO), 0);
      assertEquals(
          List.of(
              Limit.CLIMB, Limit.DESCEND, Limit.SIDE, Limit.TIP, Limit.CLEARANCE, Limit.APPROACH),
          m.unresolved().limits());
      assertEquals(100, m.unresolved().sharePct(), 0);
      String text = m.unresolved().text();
      assertTrue(
          text.startsWith(
              "Climb slope, descent slope (shown over 10 m, meant for 2.9 m), side slope,"
                  + " static tip-over (shown over 10 m, meant for 1.6 m), belly clearance"
                  + " (shown over 10 m,"),
          text);
      Mobility shut = mobility(coarse, UnresolvedRule.NO_GO, workers);
      assertEquals(1, share(shut, Mobility.NO_GO), 0);
    }
  }

  /** Footprint of 5.07 m: on cells of 5 m roughness is given over 15 m, on 90 m over 270 m. */
  @Test
  void roughnessDecidesWhereItsLengthIsNearTheVehicles() {
    try (Workers workers = new Workers(1)) {
      for (double cellM : CELLS_M) {
        Terrain t = terrain(rough(5, 400), cellM, workers);
        boolean decides = cellM <= 5;
        GridSpec spec = t.gradEast().spec();
        int middle = SIZE / 2 * SIZE + SIZE / 2;
        CellMobility c = MobilityExplain.at(t, Grounds.noHazard(spec), TRUCK, Body.EARTH, middle);
        c.checks().stream()
            .filter(k -> k.limit() == Limit.ROUGHNESS)
            .forEach(k -> assertEquals(decides, k.decides(), cellM + " m"));
        HazardParams params =
            new HazardParams(
                new RockParams(null, null, 1, 2), List.of(), 0, 90, 1e9, 1e-6, 5.07, null);
        Hazard h = new HazardStrips(spec, params).strip(t, 0, null, workers, Progress.NONE);
        int bit = Hazard.Cause.ROUGHNESS.bit();
        assertEquals(decides, (h.causes().values()[middle] & bit) != 0, cellM + " m");
      }
    }
  }
}
