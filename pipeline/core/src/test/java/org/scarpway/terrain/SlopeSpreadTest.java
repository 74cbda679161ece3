package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** Drawn errors, independent from cell to cell, against closed forms. */
class SlopeSpreadTest {
  private static final int SIDE = 40;
  private static final GridSpec SPEC = TestGround.spec(SIDE, SIDE, 5, 5);

  /** Errors of 0.3 m, slopes over 3 deg. */
  private static SlopeSpread spread(SlopeMethod method, double rise, int n) {
    float[] z = new float[SIDE * SIDE];
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) (100 + rise * 5 * (i % SIDE));
    }
    TerrainParams params = new TerrainParams(method, 15, 5, 10, 0.3, null, 3.0);
    try (Workers workers = new Workers(1)) {
      Terrain terrain =
          TerrainStage.compute(TestGround.dem(SPEC, z), params, workers, Progress.NONE);
      return SlopeDraws.spread(terrain, params, n, 8, workers, Progress.NONE);
    }
  }

  private static double mean(float[] values, int power) {
    double sum = 0;
    int n = 0;
    for (float v : values) {
      if (!Float.isNaN(v)) {
        sum += Math.pow(v, power);
        n++;
      }
    }
    return sum / n;
  }

  /** Heuvelink 1998: weights of the 3 x 3 methods on square cells. */
  private static double gradientSigma(SlopeMethod method) {
    double weight =
        switch (method) {
          case HORN -> Math.sqrt(3) / 4;
          case ZEVENBERGEN_THORNE -> 1 / Math.sqrt(2);
          default -> 1 / Math.sqrt(6);
        };
    return weight * 0.3 / 5;
  }

  /** Level: Rayleigh. Mean of the slope sigma sqrt(pi / 2), exceedance exp(-limit2 / 2 sigma2). */
  @ParameterizedTest
  @EnumSource(names = {"HORN", "ZEVENBERGEN_THORNE", "EVANS_YOUNG"})
  void levelGroundLooksAsSteepAsRayleighSays(SlopeMethod method) {
    double sigma = gradientSigma(method);
    SlopeSpread got = spread(method, 0, 41);
    // 1444 cells, a ninth of them independent, 41 times: 1.5 % and less.
    assertEquals(
        1, mean(got.biasDeg().values(), 1) / Math.toDegrees(sigma * Math.sqrt(Math.PI / 2)), 0.02);
    double variance = Math.pow(Math.toDegrees(sigma), 2) * (2 - Math.PI / 2);
    assertEquals(1, mean(got.sigmaDeg().values(), 2) / variance, 0.04);
    double limit = Math.tan(Math.toRadians(3));
    assertEquals(
        Math.exp(-limit * limit / (2 * sigma * sigma)), mean(got.overLimit01().values(), 1), 0.015);
    assertEquals(41, got.realisations());
    assertEquals(8, got.seed());
    assertEquals(3, got.limitDeg());
  }

  /** Steep: the error along the slope over 1 + g2, bias g-wards small, all over the limit. */
  @ParameterizedTest
  @EnumSource(names = {"HORN", "ZEVENBERGEN_THORNE", "EVANS_YOUNG"})
  void steepGroundHasTheFirstOrderError(SlopeMethod method) {
    double want = Math.toDegrees(gradientSigma(method) / (1 + 0.25));
    SlopeSpread got = spread(method, 0.5, 40);
    assertEquals(1, Math.sqrt(mean(got.sigmaDeg().values(), 2)) / want, 0.02);
    assertEquals(0, mean(got.biasDeg().values(), 1), 0.05 * want);
    assertEquals(1, mean(got.overLimit01().values(), 1));
  }

  @Test
  void sumsOfTwoRealisationsAreThoseOfTwo() {
    // With n = 2 the deviation is |a - b| / sqrt 2 and the bias (a + b) / 2.
    SlopeSpread two = spread(SlopeMethod.HORN, 0, 2);
    for (float share : two.overLimit01().values()) {
      double twice = Float.isNaN(share) ? 0 : 2 * share;
      assertEquals(Math.rint(twice), twice);
    }
    // A prefix of the same draws: three realisations hold the first two.
    SlopeSpread three = spread(SlopeMethod.HORN, 0, 3);
    for (int i = 0; i < SIDE * SIDE; i++) {
      double third = 3.0 * three.biasDeg().values()[i] - 2.0 * two.biasDeg().values()[i];
      double sumSquares =
          Math.pow(two.sigmaDeg().values()[i], 2) + 2 * Math.pow(two.biasDeg().values()[i], 2);
      double mean = three.biasDeg().values()[i];
      double want = Math.sqrt((sumSquares + third * third - 3 * mean * mean) / 2);
      assertEquals(want, three.sigmaDeg().values()[i], 2e-4, "cell " + i);
    }
  }

  @Test
  void whatIsNeededIsAskedFor() {
    float[] z = new float[SIDE * SIDE];
    Arrays.fill(z, 1);
    TerrainParams[] lacking = {
      new TerrainParams(SlopeMethod.HORN, 15, 5, 10, null, null, 3.0),
      new TerrainParams(SlopeMethod.HORN, 15, 5, 10, 0.3, null, null)
    };
    for (TerrainParams params : lacking) {
      try (Workers workers = new Workers(1)) {
        Terrain terrain =
            TerrainStage.compute(TestGround.dem(SPEC, z), params, workers, Progress.NONE);
        assertThrows(
            IllegalArgumentException.class,
            () -> SlopeDraws.spread(terrain, params, 2, 1, workers, Progress.NONE));
      }
    }
    assertThrows(IllegalArgumentException.class, () -> spread(SlopeMethod.HORN, 0, 1));
  }
}
