package org.scarpway.validation;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.Dem;
import org.scarpway.grid.Body;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.hazard.Hazard;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.ErrorField;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.RiceGradient;
import org.scarpway.terrain.StepOdds;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.terrain.TerrainStage;
import org.scarpway.vehicle.CellMobility;
import org.scarpway.vehicle.HeightTrust;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.MobilityCounts;
import org.scarpway.vehicle.MobilityExplain;
import org.scarpway.vehicle.MobilityStage;
import org.scarpway.vehicle.UnresolvedRule;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/**
 * With what probability limits hold, on planes: against published quantiles where one limit stands
 * alone, and against verdicts on seeded realisations of the ground, which know of no probability.
 */
class ConfidenceCheck {
  private static final int SIDE = 40;
  private static final int MIDDLE = SIDE / 2 * SIDE + SIDE / 2;
  private static final int PAIRS = 40;
  private static final String NORMAL =
      "normal quantiles, Abramowitz and Stegun 1964, table 26.5; variance of a weighted sum";

  private static Vehicle vehicle(double climbDeg, double sideDeg, boolean wheels) {
    return new Vehicle(
        "rover",
        "",
        null,
        new Vehicle.Chassis(4, 2.8, 3, null, null, null),
        wheels ? VehicleParts.wheels(List.of(1.5, -1.5), 2.6, 0.45, 0.3) : null,
        new Vehicle.Limits(climbDeg, climbDeg, sideDeg, null, null),
        null,
        VehicleParts.drive(3, null, null, null, null, null, null),
        null,
        null,
        null);
  }

  private static float[] plane(double cellM, double east, double north) {
    float[] z = new float[SIDE * SIDE];
    for (int i = 0; i < z.length; i++) {
      int row = i / SIDE;
      z[i] = (float) (cellM * (east * (i % SIDE) - north * row));
    }
    return z;
  }

  private static TerrainParams params(Double sigmaM, Double lengthM) {
    return new TerrainParams(SlopeMethod.HORN, 15, 2.6, 3, sigmaM, lengthM, null);
  }

  private static Terrain terrain(GridSpec spec, float[] z, Workers workers) {
    return TerrainStage.compute(
        new Dem(new FloatGrid(spec, z), 0, Body.MOON, List.of()),
        params(null, null),
        workers,
        Progress.NONE);
  }

  private static Hazard none(GridSpec spec) {
    FloatGrid detour = FloatGrid.empty(spec);
    java.util.Arrays.fill(detour.values(), 1f);
    return new Hazard(
        FloatGrid.empty(spec),
        ByteGrid.empty(spec),
        new org.locationtech.jts.geom.GeometryFactory().createGeometryCollection(),
        detour);
  }

  private static Mobility mobility(Terrain t, Vehicle v, HeightTrust trust, Workers workers) {
    GridSpec spec = t.gradEast().spec();
    return MobilityStage.compute(
        t,
        none(spec),
        v,
        null,
        Body.MOON,
        UnresolvedRule.SAY,
        trust,
        new MobilityCounts().next(0, spec.rows()),
        workers,
        Progress.NONE);
  }

  private static GridSpec spec(double cellM) {
    return new GridSpec(SIDE, SIDE, cellM, cellM, 0, SIDE * cellM, "");
  }

  /** The steepest plane across which a heading is open, found by trying. */
  @Test
  void oneLimitAlone() {
    double[] confidence = {0.5, 0.9, 0.95, 0.99};
    double[] quantile = {0, 1.281552, 1.644854, 2.326348};
    GridSpec spec = spec(5);
    Vehicle v = vehicle(40, 15, false);
    double sigma = Math.sqrt(3) / 4 * 0.3 / 5;
    try (Workers workers = new Workers(1)) {
      for (int c = 0; c < confidence.length; c++) {
        HeightTrust trust = new HeightTrust(confidence[c], LayerErrors.of(params(0.3, null), spec));
        double low = 0;
        double high = 0.5;
        while (high - low > 1e-7) {
          double t = (low + high) / 2;
          // Heading 0 is north: a slope towards the east lies across it.
          Mobility m = mobility(terrain(spec, plane(5, t, 0), workers), v, trust, workers);
          boolean open = m.field().allows(MIDDLE, 0);
          low = open ? t : low;
          high = open ? high : t;
        }
        double want = Math.tan(Math.toRadians(15)) - quantile[c] * sigma;
        Validation.near(
            "4-confidence-one-limit-" + (int) (100 * confidence[c]),
            "steepest side slope as measured that keeps 15 deg with confidence "
                + confidence[c]
                + ", height error 0.3 m on cells of 5 m, deg",
            NORMAL,
            "C",
            Math.toDegrees(Math.atan(want)),
            Math.toDegrees(Math.atan(low)),
            2e-4);
      }
    }
  }

  @Test
  void coarseCells() {
    simulate("coarse-white", 5, 0.5, null, 19, false);
    simulate("coarse-correlated", 5, 1, 15.0, 19, false);
  }

  @Test
  void wheelsOnTheGround() {
    simulate("wheels-white", 1, 0.08, null, 19, true);
    simulate("wheels-correlated", 1, 0.15, 3.0, 19, true);
    // What the cell's own slope is near to shut by itself: steeper than 24.3 deg.
    simulate("wheels-steep", 1, 0.08, null, 22, true);
    simulate("wheels-steep-correlated", 1, 0.08, 3.0, 22, true);
    simulate("wheels-steeper", 1, 0.05, null, 23, true);
  }

  private static void simulate(
      String id, double cellM, double sigmaM, Double lengthM, double slopeDeg, boolean wheels) {
    GridSpec spec = spec(cellM);
    Vehicle v = vehicle(20, 15, wheels);
    double slope = Math.tan(Math.toRadians(slopeDeg));
    float[] z = plane(cellM, 0.6 * slope, 0.8 * slope);
    HeightTrust trust = new HeightTrust(0.9, LayerErrors.of(params(sigmaM, lengthM), spec));
    try (Workers workers = new Workers(1)) {
      Terrain measured = terrain(spec, z, workers);
      long[] shut = new long[Headings.COUNT];
      long drawn = 0;
      long closed = 0;
      ErrorField errors = new ErrorField("check", spec, sigmaM, lengthM, 77, null, workers);
      float[][] ground = new float[2][z.length];
      for (int pair = 0; pair < PAIRS; pair++) {
        errors.draw(pair, workers);
        errors.add(0, spec.rows(), z, ground[0], ground[1], workers);
        for (float[] g : ground) {
          Mobility m = mobility(terrain(spec, g, workers), v, HeightTrust.AS_MEASURED, workers);
          for (int i = 0; i < z.length; i++) {
            if (m.cls().values()[i] == 0) {
              continue;
            }
            drawn++;
            closed += m.cls().values()[i] == Mobility.NO_GO ? 1 : 0;
            for (int k = 0; k < Headings.COUNT; k++) {
              // Tacks lead elsewhere: the heading itself is shut.
              boolean own = m.field().allows(i, k) && m.field().pathRatio(i, k) == 1;
              shut[k] += own ? 0 : 1;
            }
          }
        }
      }
      double apart = Math.max(3, lengthM == null ? 0 : 2.5 * lengthM / cellM);
      double draws = drawn / (apart * apart);
      CellMobility told =
          MobilityExplain.at(
              measured,
              none(spec),
              new MobilityExplain.Limits(v, Body.MOON, UnresolvedRule.SAY, trust),
              null,
              MIDDLE);
      double corner = Math.hypot(Math.tan(Math.toRadians(20)), Math.tan(Math.toRadians(15)));
      double gradientSigma = LayerErrors.of(params(sigmaM, lengthM), spec).gradient();
      double cell = wheels ? RiceGradient.exceedance(slope, corner, gradientSigma) : 0;
      boolean kept = true;
      double worst = 0;
      double leastShut = 1;
      for (int k = 0; k < Headings.COUNT; k++) {
        double share = (double) shut[k] / drawn;
        double p =
            told.headings().get(k).checks().stream()
                .filter(c -> c.what().startsWith("probability"))
                .findFirst()
                .orElseThrow()
                .got();
        double standardError = Math.sqrt(Math.max(p * (1 - p), 1 / draws) / draws);
        // Two sides of the box at once count twice: by at most p2 / 4. So do a cell and its wheels
        // where both are too steep: by at most the rarer of the two.
        double below = share - p;
        double over = p - p * p / 4 - Math.min(cell, p - cell) - share;
        kept &= !told.headings().get(k).allowed() || p <= 0.1;
        worst = Math.max(worst, Math.max(below, over) / standardError);
        leastShut = Math.min(leastShut, share);
      }
      Validation.near(
          "4-confidence-headings-" + id,
          "P(a slope limit is broken) on 32 headings of a plane of "
              + (int) slopeDeg
              + " deg, limits 20 and 15 deg, against "
              + 2 * PAIRS
              + " realisations: largest difference in standard errors",
          "simulation, seed fixed; Abramowitz and Stegun 26.2",
          "R",
          0,
          worst,
          4);
      Validation.holds(
          "4-confidence-verdict-" + id,
          "no heading with P(a slope limit is broken) above 0.1 is open at confidence 0.9",
          "own derivation: one probability, two uses",
          "R",
          kept);
      double got = mobility(measured, v, trust, workers).noGo01().orElseThrow().values()[MIDDLE];
      double error = 4 * Math.sqrt(leastShut / draws) + leastShut * leastShut / 4 + 0.01;
      Validation.near(
          "4-confidence-no-go-" + id,
          "P(no-go): share of realisations that shut the best heading",
          "simulation, seed fixed",
          "R",
          leastShut,
          got,
          error);
      Validation.holds(
          "4-confidence-no-go-from-above-" + id,
          "P(no-go) is no less than the share of realisations without any heading ("
              + String.format(java.util.Locale.ROOT, "%.3f", (double) closed / drawn)
              + ")",
          "simulation, seed fixed",
          "R",
          got >= (double) closed / drawn - 4 * Math.sqrt((double) closed / drawn / draws));
    }
  }

  /** A flat that the heights may be off from, against the steps of what may lie there instead. */
  @Test
  void stepsOfTheErrorAlone() {
    steps("flat-2m", 2, 0.1, null, 0);
    steps("flat-2m-small", 2, 0.04, null, 0);
    steps("flat-2m-least", 2, 0.03, null, 0);
    steps("flat-1m-small", 1, 0.035, null, 0);
    steps("flat-2m-correlated", 2, 0.08, 6.0, 0);
    steps("wall-2m", 2, 0.02, null, 0.2);
  }

  private static void steps(String id, double cellM, double sigmaM, Double lengthM, double wallM) {
    GridSpec spec = spec(cellM);
    Vehicle v =
        new Vehicle(
            "rover",
            "",
            null,
            new Vehicle.Chassis(4, 2.8, 3, null, null, null),
            null,
            new Vehicle.Limits(null, null, null, 0.3, null),
            null,
            VehicleParts.drive(3, null, null, null, null, null, null),
            null,
            null,
            null);
    float[] z = new float[SIDE * SIDE];
    for (int i = 0; i < z.length; i++) {
      z[i] = i % SIDE > SIDE / 2 ? (float) wallM : 0;
    }
    HeightTrust trust = new HeightTrust(0.9, LayerErrors.of(params(sigmaM, lengthM), spec));
    try (Workers workers = new Workers(1)) {
      Mobility told = mobility(terrain(spec, z, workers), v, trust, workers);
      ErrorField errors = new ErrorField("check", spec, sigmaM, lengthM, 78, null, workers);
      float[][] ground = new float[2][z.length];
      int drawn = 0;
      int closed = 0;
      for (int pair = 0; pair < PAIRS; pair++) {
        errors.draw(pair, workers);
        errors.add(0, spec.rows(), z, ground[0], ground[1], workers);
        for (float[] g : ground) {
          Mobility m = mobility(terrain(spec, g, workers), v, HeightTrust.AS_MEASURED, workers);
          // Along the wall, far enough apart to count as draws of their own.
          for (int row = 8; row < SIDE - 8; row += 6) {
            drawn++;
            closed += m.cls().values()[row * SIDE + SIDE / 2] == Mobility.NO_GO ? 1 : 0;
          }
        }
      }
      double share = (double) closed / drawn;
      double p = told.noGo01().orElseThrow().values()[MIDDLE];
      String numbers = String.format(java.util.Locale.ROOT, "%.3f, told %.3f", share, p);
      Validation.holds(
          "4-confidence-steps-from-above-" + id,
          "P(no-go) by steps is no less than the share of realisations over the limit ("
              + numbers
              + ")",
          "simulation, seed fixed",
          "R",
          p >= share - 4 * Math.sqrt(share * (1 - share) / drawn));
      Validation.holds(
          "4-confidence-steps-verdict-" + id,
          "the verdict at confidence 0.9 is no-go where P(no-go) is above 0.1 (" + numbers + ")",
          "own derivation: one probability, two uses",
          "R",
          (told.cls().values()[MIDDLE] == Mobility.NO_GO) == (p > 0.1));
    }
  }

  /** The slope that leaves no heading at all is a circle: Rice's law is a bound. */
  @Test
  void noHeadingAtAll() {
    GridSpec spec = spec(5);
    Vehicle v = vehicle(20, 15, false);
    double sigma = Math.sqrt(3) / 4 * 0.5 / 5;
    double corner = Math.hypot(Math.tan(Math.toRadians(20)), Math.tan(Math.toRadians(15)));
    try (Workers workers = new Workers(1)) {
      HeightTrust trust = new HeightTrust(0.9, LayerErrors.of(params(0.5, null), spec));
      boolean above = true;
      for (double deg = 10; deg < 32; deg += 0.5) {
        double t = Math.tan(Math.toRadians(deg));
        Mobility m = mobility(terrain(spec, plane(5, t, 0), workers), v, trust, workers);
        above &=
            m.noGo01().orElseThrow().values()[MIDDLE]
                >= RiceGradient.exceedance(t, corner, sigma) - 1e-5;
      }
      Validation.holds(
          "4-confidence-rice",
          "P(no-go) on planes of 10 to 32 deg is no less than that no heading is left",
          "Rice 1944",
          "C",
          above);
    }
  }

  /** Shares of cells of drawn noise with a step over the limit, by NumPy (1500 x 1500 cells). */
  @Test
  void stepsOfNoise() {
    double[][] rows = {{0.20, 0.1372}, {0.23, 0.0592}, {0.25, 0.0319}, {0.28, 0.0115}};
    GridSpec spec = spec(0.9);
    TerrainParams params = new TerrainParams(SlopeMethod.HORN, 2.5, 1.85, 2.3, 0.03, null, null);
    StepOdds odds = LayerErrors.of(params, spec).stepOdds();
    for (double[] row : rows) {
      double told = odds.broken(new float[SIDE * SIDE], SIDE, SIDE, SIDE / 2, SIDE / 2, row[0]);
      Validation.holds(
          String.format(Locale.ROOT, "4-confidence-steps-%.2f-m", row[0]),
          String.format(
              Locale.ROOT,
              "P(step > %.2f m), flat 0.9 m cells, 3 cm error: told no less and at most 1.5 times",
              row[0]),
          "share of cells of drawn noise by NumPy: " + row[1],
          "R",
          told >= row[1] && told <= 1.5 * row[1]);
    }
  }
}
