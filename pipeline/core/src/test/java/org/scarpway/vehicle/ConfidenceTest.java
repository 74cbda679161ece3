package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.Dem;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.terrain.TerrainStage;

/** Limits that must hold with a probability, against heights of a known error. */
class ConfidenceTest {
  private static final int SIDE = 24;

  private static TerrainParams params(SlopeMethod method, Double sigmaM, Double lengthM) {
    return new TerrainParams(method, 8, 2.6, 3.4, sigmaM, lengthM, null);
  }

  private static Terrain terrain(float[] z, double cellM, SlopeMethod method, Workers workers) {
    GridSpec spec = Grounds.square(SIDE, cellM);
    return TerrainStage.compute(
        new Dem(new FloatGrid(spec, z), 0, Body.MOON, List.of()),
        params(method, null, null),
        workers,
        Progress.NONE);
  }

  private static Mobility mobility(Terrain t, Vehicle v, HeightTrust trust, Workers workers) {
    return MobilityStage.compute(
        t,
        Grounds.noHazard(t.gradEast().spec()),
        v,
        null,
        Body.MOON,
        UnresolvedRule.SAY,
        trust,
        new MobilityCounts().next(0, SIDE),
        workers,
        Progress.NONE);
  }

  private static float[] rough(Random random, double cellM, double slope) {
    float[] z = new float[SIDE * SIDE];
    double azimuth = 7 * random.nextDouble();
    double waveM = cellM * (4 + 12 * random.nextDouble());
    double heightM = 0.05 * waveM * random.nextDouble();
    for (int i = 0; i < z.length; i++) {
      double x = cellM * (i % SIDE);
      int row = i / SIDE;
      double y = cellM * row;
      z[i] =
          (float)
              (slope * (x * Math.sin(azimuth) + y * Math.cos(azimuth))
                  + heightM * Math.sin(x / waveM * 6) * Math.cos(y / waveM * 5)
                  + 0.02 * cellM * random.nextGaussian());
    }
    return z;
  }

  private static Vehicle vehicle(Random random) {
    double climb = 12 + 15 * random.nextDouble();
    double side = 8 + 15 * random.nextDouble();
    return switch (random.nextInt(4)) {
      case 0 -> Vehicles.plain(climb, climb - 3, side);
      case 1 -> Vehicles.full(4200, climb, side, 0.6, 30 * random.nextDouble(), null);
      case 2 -> Vehicles.onTracks(Vehicles.full(4200, climb, side, 0.6, 20, null), 2.6, 2.2, 2.4);
      default -> Vehicles.full(4200, climb, side, 0.6, 5, Vehicles.LUNAR);
    };
  }

  private static int rank(byte cls) {
    return cls == 0 ? 4 : cls;
  }

  /** A heading that a tack makes good is shut itself. */
  private static int own(TraversalCost field, int cell) {
    int bits = field.allowed(cell);
    for (int k = 0; k < Headings.COUNT; k++) {
      if ((bits >>> k & 1) != 0 && field.pathRatio(cell, k) != 1) {
        bits &= ~(1 << k);
      }
    }
    return bits;
  }

  private static void assertNoBetter(Mobility worse, Mobility better, String what) {
    for (int cell = 0; cell < SIDE * SIDE; cell++) {
      String at = what + ", cell " + cell;
      assertTrue(
          rank(worse.cls().values()[cell]) >= rank(better.cls().values()[cell]), at + ": class");
      assertEquals(0, own(worse.field(), cell) & ~better.field().allowed(cell), at + ": headings");
      for (int k = 0; k < Headings.COUNT; k++) {
        // Tacks run in the middle of their window, which moves where the window shrinks.
        if ((own(worse.field(), cell) & own(better.field(), cell) & 1 << k) != 0) {
          double slower = worse.field().timeSPerM(cell, k);
          assertTrue(slower >= better.field().timeSPerM(cell, k), at + ": time");
        }
      }
      if (better.noGo01().isPresent() && worse.cls().values()[cell] != 0) {
        float more = worse.noGo01().orElseThrow().values()[cell];
        float less = better.noGo01().orElseThrow().values()[cell];
        // Beyond the limit an error helps; below 1e-4 no better heading is looked for.
        assertTrue(more >= Math.min(less, 0.5) - 1e-4, at + ": " + more + " after " + less);
      }
    }
  }

  @Test
  void moreErrorOrMoreConfidenceNeverImprovesGround() {
    Random random = new Random(5);
    try (Workers workers = new Workers(1)) {
      for (int n = 0; n < 60; n++) {
        double cellM = n % 2 == 0 ? 5 : 1;
        SlopeMethod method = SlopeMethod.values()[random.nextInt(4)];
        Vehicle v = vehicle(random);
        float[] z = rough(random, cellM, 0.5 * random.nextDouble());
        Terrain t = terrain(z, cellM, method, workers);
        GridSpec spec = t.gradEast().spec();
        Double lengthM = random.nextBoolean() ? null : cellM * (0.3 + 20 * random.nextDouble());
        double sigmaM = 0.1 * cellM * random.nextDouble() + 1e-4;
        double confidence = 0.5 + 0.48 * random.nextDouble();
        LayerErrors errors = LayerErrors.of(params(method, sigmaM, lengthM), spec);
        LayerErrors larger =
            LayerErrors.of(params(method, sigmaM * (1 + random.nextDouble()), lengthM), spec);
        HeightTrust trust = new HeightTrust(confidence, errors);
        double more = confidence + (0.99 - confidence) * random.nextDouble();
        Mobility plain = mobility(t, v, HeightTrust.AS_MEASURED, workers);
        Mobility sure = mobility(t, v, trust, workers);
        String what = "trial " + n;
        assertNoBetter(sure, plain, what + " known error");
        assertNoBetter(
            mobility(t, v, new HeightTrust(more, errors), workers), sure, what + " confidence");
        assertNoBetter(
            mobility(t, v, new HeightTrust(confidence, larger), workers), sure, what + " error");
      }
    }
  }

  @Test
  void openHeadingsKeepTheConfidence() {
    Random random = new Random(8);
    int open = 0;
    try (Workers workers = new Workers(1)) {
      for (int n = 0; n < 60; n++) {
        double cellM = n % 2 == 0 ? 5 : 1;
        Vehicle v =
            Vehicles.plain(12 + 15 * random.nextDouble(), 20.0, 8 + 10 * random.nextDouble());
        float[] z = rough(random, cellM, 0.4 * random.nextDouble());
        Terrain t = terrain(z, cellM, SlopeMethod.HORN, workers);
        double confidence = 0.5 + 0.49 * random.nextDouble();
        LayerErrors errors =
            LayerErrors.of(params(SlopeMethod.HORN, 0.1 * cellM, null), t.gradEast().spec());
        Mobility m = mobility(t, v, new HeightTrust(confidence, errors), workers);
        for (int cell = 0; cell < SIDE * SIDE; cell++) {
          if (own(m.field(), cell) != 0) {
            open++;
            assertTrue(
                m.noGo01().orElseThrow().values()[cell] <= 1 - confidence + 1e-3, "trial " + n);
          }
        }
      }
    }
    assertTrue(open > 1000, "open cells: " + open);
  }

  /** A side slope of 14.8 degrees against 15, with heights that are off by 4 m. */
  @Test
  void groundNearALimitIsNotTakenAtItsWord() {
    GridSpec spec = Grounds.square(SIDE, 5);
    float[] z = new float[spec.cells()];
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) (5 * (i % SIDE) * Math.tan(Math.toRadians(14.8)));
    }
    try (Workers workers = new Workers(1)) {
      Terrain t = terrain(z, 5, SlopeMethod.HORN, workers);
      Vehicle v = Vehicles.plain(20.0, 20.0, 15.0);
      int middle = SIDE / 2 * SIDE + SIDE / 2;
      assertEquals(
          Mobility.GO, mobility(t, v, HeightTrust.AS_MEASURED, workers).cls().values()[middle]);
      for (Double lengthM : new Double[] {null, 10.0, 40.0}) {
        LayerErrors errors = LayerErrors.of(params(SlopeMethod.HORN, 4.0, lengthM), spec);
        Mobility m = mobility(t, v, new HeightTrust(0.9, errors), workers);
        assertEquals(Mobility.NO_GO, m.cls().values()[middle]);
        assertTrue(m.noGo01().orElseThrow().values()[middle] > 0.1);
        assertFalse(m.notes().isEmpty());
      }
      LayerErrors small = LayerErrors.of(params(SlopeMethod.HORN, 0.01, null), spec);
      assertEquals(
          Mobility.GO, mobility(t, v, new HeightTrust(0.9, small), workers).cls().values()[middle]);
    }
  }

  /** Steps and wheels: the verdict and P(no-go) rest on one sum. */
  @Test
  void stepsCloseGroundExactlyWhereTheirProbabilitySaysSo() {
    Random random = new Random(21);
    int open = 0;
    int shut = 0;
    try (Workers workers = new Workers(1)) {
      for (int n = 0; n < 30; n++) {
        double cellM = n % 2 == 0 ? 2 : 1;
        Vehicle v = Vehicles.withStep(0.2 + 0.2 * random.nextDouble());
        Terrain t = terrain(rough(random, cellM, 0.2), cellM, SlopeMethod.HORN, workers);
        Double lengthM = random.nextBoolean() ? null : cellM * (1 + 5 * random.nextDouble());
        double sigmaM = 0.06 * random.nextDouble() + 1e-3;
        LayerErrors errors =
            LayerErrors.of(params(SlopeMethod.HORN, sigmaM, lengthM), t.gradEast().spec());
        double confidence = 0.5 + 0.49 * random.nextDouble();
        Mobility m = mobility(t, v, new HeightTrust(confidence, errors), workers);
        for (int cell = 0; cell < SIDE * SIDE; cell++) {
          double p = m.noGo01().orElseThrow().values()[cell];
          if (m.cls().values()[cell] != 0 && Math.abs(p - (1 - confidence)) > 1e-5) {
            boolean doubtful = p > 1 - confidence;
            assertEquals(doubtful, m.cls().values()[cell] == Mobility.NO_GO, "trial " + n);
            open += doubtful ? 0 : 1;
            shut += doubtful ? 1 : 0;
          }
        }
      }
    }
    assertTrue(open > 300 && shut > 300, open + " open, " + shut + " shut");
  }

  /** Level ground whose error may be as high as the step limit, and the words for it. */
  @Test
  void theRunSaysWhereTheErrorAloneTakesTheStep() {
    try (Workers workers = new Workers(1)) {
      Terrain t = terrain(new float[SIDE * SIDE], 2, SlopeMethod.HORN, workers);
      LayerErrors errors = LayerErrors.of(params(SlopeMethod.HORN, 0.1, null), t.gradEast().spec());
      Mobility m = mobility(t, Vehicles.withStep(0.3), new HeightTrust(0.9, errors), workers);
      int middle = SIDE / 2 * SIDE + SIDE / 2;
      assertEquals(Mobility.NO_GO, m.cls().values()[middle]);
      assertEquals(Limit.STEP.code(), m.limit().values()[middle]);
      String notes = String.join("\n", m.notes());
      assertTrue(notes.contains("take all of a step of 0.3 m"), notes);
      assertTrue(notes.contains("dem.correlation_length_m"), notes);
      assertTrue(notes.contains("P(no-go) is 100 %"), notes);
    }
  }

  /** What of a box is broken, by counting normal draws. */
  @Test
  void theProbabilityIsThatOfNormalErrors() {
    Random random = new Random(3);
    for (int n = 0; n < 40; n++) {
      Vehicle v = Vehicles.plain(5 + 20 * random.nextDouble(), 25.0, 4 + 15 * random.nextDouble());
      MoveLimits limits = new MoveLimits(v, Body.MOON);
      double along = 0.01 + 0.1 * random.nextDouble();
      double across = 0.01 + 0.1 * random.nextDouble();
      LayerErrors errors =
          LayerErrors.of(params(SlopeMethod.HORN, 0.1, null), Grounds.square(SIDE, 5));
      Allowances allowances =
          Allowances.of(
              new HeightTrust(0.9, errors), Grounds.plane(Grounds.square(SIDE, 5), 0, 0), null);
      GradientOdds odds =
          new GradientOdds(limits, limits.climb, limits.descend, allowances, along, across);
      double grade = 0.3 * (random.nextDouble() - 0.5);
      double cross = 0.3 * (random.nextDouble() - 0.5);
      int broken = 0;
      int draws = 40_000;
      for (int i = 0; i < draws; i++) {
        double g = grade + along * random.nextGaussian();
        double c = cross + across * random.nextGaussian();
        boolean holds = g <= limits.climb && -g <= limits.descend && Math.abs(c) <= limits.side;
        broken += holds ? 0 : 1;
      }
      double share = (double) broken / draws;
      double p = odds.broken(grade, cross);
      double error = 4 * Math.sqrt(share * (1 - share) / draws) + 1e-4;
      assertTrue(share <= p + error && share >= p - p * p / 4 - error, share + " told as " + p);
    }
  }
}
