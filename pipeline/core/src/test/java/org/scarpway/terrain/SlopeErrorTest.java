package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.scarpway.terrain.SlopeError.GradientSigma;

/** Errors of slope and aspect on level and nearly level ground, and cell by cell. */
class SlopeErrorTest {
  @Test
  void nothingIsLessKnownThanAnyAspectAtAll() {
    // An angle that is anything from -180 to 180 deg: uniform, standard deviation 360 / sqrt 12.
    double any = 360 / Math.sqrt(12);
    GradientSigma sigma = new GradientSigma(0.02, 0.03);
    float[] east = {1e-6f, 0, 0.4f, Float.NaN, 0.3f, 0};
    float[] north = {0, 0, 0, 0.1f, -0.4f, 1e-4f};
    float[] slope = new float[6];
    float[] aspect = new float[6];
    SlopeError.fill(east, north, 3, 0, 2, sigma, slope, aspect);
    assertEquals(any, aspect[0], 1e-4);
    assertTrue(Float.isNaN(aspect[1]), "level ground has no aspect");
    // Due east: the aspect turns with the northward error, the slope changes with the eastward.
    assertEquals(Math.toDegrees(0.03 / 0.4), aspect[2], 1e-4);
    assertEquals(Math.toDegrees(0.02 / (1 + 0.16)), slope[2], 1e-5);
    assertTrue(Float.isNaN(slope[3]) && Float.isNaN(aspect[3]));
    // Along (0.6, -0.8) and across it (0.8, 0.6).
    double along = Math.hypot(0.6 * 0.02, 0.8 * 0.03);
    double across = Math.hypot(0.8 * 0.02, 0.6 * 0.03);
    assertEquals(Math.toDegrees(along / 1.25), slope[4], 1e-5);
    assertEquals(Math.toDegrees(across / 0.5), aspect[4], 1e-4);
    assertEquals(any, aspect[5], 1e-4);
    // Level: one number for both directions, the root mean square.
    double both = Math.sqrt((0.02 * 0.02 + 0.03 * 0.03) / 2);
    assertEquals(Math.toDegrees(both), slope[1], 1e-5);
    assertEquals(Double.POSITIVE_INFINITY, SlopeError.aspectSigmaDeg(0, 0, sigma));
  }

  @Test
  void onlyTheRowsAskedForAreFilled() {
    float[] slope = new float[8];
    float[] aspect = new float[8];
    Arrays.fill(slope, -1);
    Arrays.fill(aspect, -1);
    float[] g = new float[8];
    Arrays.fill(g, 0.1f);
    SlopeError.fill(g, g, 2, 1, 3, new GradientSigma(0.01, 0.01), slope, aspect);
    for (int i = 0; i < 8; i++) {
      assertEquals(i < 2 || i >= 6, slope[i] == -1, "cell " + i);
      assertEquals(i < 2 || i >= 6, aspect[i] == -1, "cell " + i);
    }
  }
}
