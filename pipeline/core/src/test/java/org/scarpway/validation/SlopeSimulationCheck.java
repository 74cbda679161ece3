package org.scarpway.validation;

import static org.scarpway.terrain.TerrainParams.SlopeMethod.EVANS_YOUNG;
import static org.scarpway.terrain.TerrainParams.SlopeMethod.HORN;
import static org.scarpway.terrain.TerrainParams.SlopeMethod.ZEVENBERGEN_THORNE;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.scarpway.dem.Dem;
import org.scarpway.grid.Body;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Footprint;
import org.scarpway.terrain.RiceGradient;
import org.scarpway.terrain.SlopeDraws;
import org.scarpway.terrain.SlopeError;
import org.scarpway.terrain.SlopeSpread;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.terrain.TerrainStage;

/**
 * Slope error by simulation against the closed forms, on planes, seed fixed. Tolerance: four
 * standard errors of what is simulated, from the number of realisations times the number of
 * independent places (cells over nine, or ground over 2 pi length2 where that is fewer).
 */
class SlopeSimulationCheck {
  private static final int SIDE = 64;
  private static final double CELL_M = 5;
  private static final int REALISATIONS = 400;
  private static final String SOURCE =
      "Hunter and Goodchild 1997; Oksanen and Sarjakoski 2005 (approach)";

  private static SlopeSpread spread(
      SlopeMethod method, double slopeDeg, double sigmaM, Double lengthM, double limitDeg) {
    GridSpec spec = new GridSpec(SIDE, SIDE, CELL_M, CELL_M, 0, SIDE * CELL_M, "");
    float[] z = new float[spec.cells()];
    double t = Math.tan(Math.toRadians(slopeDeg));
    for (int i = 0; i < z.length; i++) {
      int row = i / SIDE;
      z[i] = (float) (t * CELL_M * (.6 * (i % SIDE) - .8 * row));
    }
    TerrainParams params = new TerrainParams(method, 15, 5, 10, sigmaM, lengthM, limitDeg);
    try (Workers workers = new Workers(2)) {
      Terrain terrain =
          TerrainStage.compute(
              new Dem(new FloatGrid(spec, z), 0, Body.MOON, List.of()),
              params,
              workers,
              Progress.NONE);
      return SlopeDraws.spread(terrain, params, REALISATIONS, 12, workers, Progress.NONE);
    }
  }

  /** Realisations times places that are independent of each other, at least. */
  private static double draws(Double lengthM) {
    double places = SIDE * SIDE / 9.0;
    if (lengthM != null) {
      double groundM2 = SIDE * CELL_M * SIDE * CELL_M;
      places = Math.min(places, groundM2 / (2 * Math.PI * lengthM * lengthM));
    }
    return REALISATIONS * Math.max(1, places);
  }

  private static double gradientSigma(SlopeMethod method, double sigmaM, Double lengthM) {
    return SlopeError.gradientSigma(method, Footprint.SMALLEST, CELL_M, CELL_M, sigmaM, lengthM)
        .mean();
  }

  private static double mean(FloatGrid grid) {
    double sum = 0;
    int n = 0;
    for (float v : grid.values()) {
      if (!Float.isNaN(v)) {
        sum += v;
        n++;
      }
    }
    return sum / n;
  }

  private static double rms(FloatGrid grid) {
    double sum = 0;
    int n = 0;
    for (float v : grid.values()) {
      if (!Float.isNaN(v)) {
        sum += (double) v * v;
        n++;
      }
    }
    return Math.sqrt(sum / n);
  }

  @Test
  void steepGround() {
    for (SlopeMethod method : new SlopeMethod[] {HORN, ZEVENBERGEN_THORNE, EVANS_YOUNG}) {
      for (Double lengthM : new Double[] {null, 5.0, 20.0}) {
        // A small error, so that first order holds.
        SlopeSpread s = spread(method, 20, .05, lengthM, 20);
        double cos = Math.cos(Math.toRadians(20));
        Validation.nearRel(
            "4-monte-carlo-" + method.name().toLowerCase(Locale.ROOT) + "-" + lengthM,
            "slope error at 20 deg, correlation over "
                + lengthM
                + " m: "
                + REALISATIONS
                + " realisations, deg",
            SOURCE,
            "C",
            Math.toDegrees(gradientSigma(method, .05, lengthM) * cos * cos),
            rms(s.sigmaDeg()),
            4 / Math.sqrt(2 * draws(lengthM)));
      }
    }
  }

  @Test
  void probabilityOfTheLimit() {
    double[] limits = {9, 11, 13};
    for (double limit : limits) {
      for (Double lengthM : new Double[] {null, 20.0}) {
        SlopeSpread s = spread(HORN, 10, .4, lengthM, limit);
        double p =
            RiceGradient.exceedance(
                Math.tan(Math.toRadians(10)),
                Math.tan(Math.toRadians(limit)),
                gradientSigma(HORN, .4, lengthM));
        Validation.near(
            "4-monte-carlo-limit-" + (int) limit + "-" + lengthM,
            "P(slope > " + (int) limit + " deg) where the true one is 10 deg, by simulation",
            "Rice 1944",
            "C",
            p,
            mean(s.overLimit01()),
            4 * Math.sqrt(p * (1 - p) / draws(lengthM)));
      }
    }
  }

  @Test
  void levelGroundIsLifted() {
    SlopeSpread s = spread(HORN, 0, .5, null, 10);
    double sigmaDeg = Math.toDegrees(gradientSigma(HORN, .5, null));
    Validation.near(
        "4-monte-carlo-level",
        "mean slope of level ground, height error 0.5 m, cell 5 m, by simulation, deg",
        "Rice 1944",
        "C",
        3.10365,
        mean(s.biasDeg()),
        4 * sigmaDeg / Math.sqrt(draws(null)));
  }
}
