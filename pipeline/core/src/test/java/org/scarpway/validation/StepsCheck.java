package org.scarpway.validation;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.SelfAffineSurface;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainParams.SlopeMethod;
import org.scarpway.terrain.TerrainStage;
import org.scarpway.terrain.TestGround;

/** Steps (m) on cells finer and coarser than the wheels, and the law that coarse ones rest on. */
class StepsCheck {
  private static Terrain terrain(GridSpec spec, float[] z) {
    TerrainParams params = new TerrainParams(SlopeMethod.HORN, 3 * spec.cellM(), 2.6, 3.4);
    try (Workers workers = new Workers(1)) {
      return TerrainStage.compute(TestGround.dem(spec, z), params, workers, Progress.NONE);
    }
  }

  /** Highest step along a row across a wall that runs north. */
  private static double wallM(double cellM, double slopeDeg, double highM) {
    int size = 24;
    float[] z = new float[size * size];
    double rise = cellM * Math.tan(Math.toRadians(slopeDeg));
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) (rise * (i % size) + (i % size > 11 ? highM : 0));
    }
    Terrain t = terrain(TestGround.spec(size, size, cellM, cellM), z);
    return Math.max(t.stepM().at(11, 11), t.stepM().at(11, 12));
  }

  @Test
  void aWallIsAStepOfItsHeight() {
    double[] cellsM = {1, 5, 10};
    for (double cellM : cellsM) {
      String on = " on cells of " + cellM + " m, m";
      Validation.near(
          "2-step-wall-" + cellM,
          "step of a 0.7 m wall on level ground" + on,
          "by construction",
          "C",
          0.7,
          wallM(cellM, 0, 0.7),
          1e-5);
      Validation.near(
          "2-step-slope-" + cellM,
          "step of a 3.4 m wall up a slope of 8 deg" + on,
          "by construction",
          "C",
          3.4,
          wallM(cellM, 8, 3.4),
          1e-5);
    }
  }

  @Test
  void theLawIsThatOfTheSurface() {
    int size = 26;
    int draws = 200;
    for (double hurst : new double[] {0.4, 0.75}) {
      SelfAffineSurface surface = new SelfAffineSurface(size, hurst);
      Random random = new Random(31);
      double mean = 0;
      int above = 0;
      for (int k = 0; k < draws; k++) {
        Terrain t = terrain(TestGround.spec(size, size, 5, 5), surface.draw(random));
        mean += t.extrapolation().law().hurst() / draws;
        above += t.extrapolation().law().hurstLow() <= hurst ? 1 : 0;
      }
      String on = " on exact self-affine surfaces of exponent " + hurst;
      Validation.near(
          "2-law-" + hurst, "mean exponent" + on, "covariance, Cholesky", "C", hurst, mean, 0.02);
      Validation.near(
          "2-law99-" + hurst,
          "share of draws in which the least exponent is not above it" + on + ", at least 0.99",
          "own derivation",
          "C",
          1,
          above / (double) draws,
          0.025);
    }
  }
}
