package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Both methods are exact on a quadric. Expected: the normal curvature in a direction, second
 * fundamental form over first (do Carmo 1976, 3.3, from memory), along the fall line and across it;
 * the contour's by the theorem of Meusnier; the mean that of two directions at right angles.
 */
class CurvatureTest {
  private static final int SIDE = 5;
  private static final double X_M = 2;
  private static final double Y_M = 4;

  /** z = p x + q y + (r x2 + 2 s x y + t y2) / 2 of metres east and north of the centre. */
  private static float[] quadric(double p, double q, double r, double s, double t) {
    float[] z = new float[SIDE * SIDE];
    for (int i = 0; i < z.length; i++) {
      int row = i / SIDE;
      double x = X_M * (i % SIDE - 2);
      double y = Y_M * (2 - row);
      z[i] = (float) (p * x + q * y + (r * x * x + 2 * s * x * y + t * y * y) / 2);
    }
    return z;
  }

  private static double normal(
      double u, double v, double p, double q, double r, double s, double t) {
    double bend = u * u * r + 2 * u * v * s + v * v * t;
    double length2 = u * u + v * v + (u * p + v * q) * (u * p + v * q);
    return bend / (length2 * Math.sqrt(1 + p * p + q * q));
  }

  @ParameterizedTest
  @CsvSource({
    "0.5, 0, 0.125, 0, 0",
    "0, 0.5, 0, 0, -0.125",
    "0.5, 0.25, 0.125, 0.0625, -0.25",
    "-0.75, 0.5, -0.0625, 0.125, 0.25",
    "1.5, -2, 0.25, -0.125, 0.125",
    "-0.25, -0.25, 0, 0.25, 0"
  })
  void quadricsHaveTheCurvaturesOfGeometry(double p0, double q0, double r, double s, double t) {
    float[] z = quadric(p0, q0, r, s, t);
    float[][] o = new float[7][z.length];
    for (float[] out : o) {
      Arrays.fill(out, -9);
    }
    Curvature.fillLeastSquares(z, SIDE, SIDE, 1, 4, X_M, Y_M, o[0], o[1], o[2], o[3]);
    Curvature.fillQuartic(z, SIDE, SIDE, 1, 4, X_M, Y_M, o[4], o[5], o[6]);
    for (int i = 0; i < z.length; i++) {
      int row = i / SIDE;
      int col = i % SIDE;
      for (float[] out : o) {
        if (row < 1 || row > 3) {
          assertEquals(-9, out[i]);
        } else if (col < 1 || col > 3) {
          assertTrue(Float.isNaN(out[i]));
        }
      }
      double x = X_M * (col - 2);
      double y = Y_M * (2 - row);
      double p = p0 + r * x + s * y;
      double q = q0 + s * x + t * y;
      double steep = Math.hypot(p, q);
      if (row < 1 || row > 3 || col < 1 || col > 3 || steep == 0) {
        continue;
      }
      double profile = -normal(p, q, p, q, r, s, t);
      double tangential = -normal(-q, p, p, q, r, s, t);
      double sinSlope = steep / Math.sqrt(1 + steep * steep);
      String where = "row " + row + " col " + col;
      assertEquals(profile, o[0][i], 1e-5, where);
      assertEquals(tangential, o[1][i], 1e-5, where);
      assertEquals(tangential / sinSlope, o[2][i], 1e-4, where);
      assertEquals((profile + tangential) / 2, o[3][i], 1e-5, where);
      // As printed by Zevenbergen and Thorne: second derivatives along the map, no factor.
      double u = p / steep;
      double v = q / steep;
      assertEquals(-(u * u * r + 2 * u * v * s + v * v * t), o[4][i], 1e-5, where);
      assertEquals(v * v * r - 2 * u * v * s + u * u * t, o[5][i], 1e-5, where);
      assertEquals(-(r + t), o[6][i], 1e-5, where);
    }
  }

  /** A dome of radius R bends by 1 / R towards all sides; its top is level and has no fall line. */
  @Test
  void levelGroundHasNoFallLine() {
    float[] z = quadric(0, 0, -0.125, 0, -0.125);
    float[][] o = new float[7][z.length];
    Curvature.fillLeastSquares(z, SIDE, SIDE, 2, 3, X_M, Y_M, o[0], o[1], o[2], o[3]);
    Curvature.fillQuartic(z, SIDE, SIDE, 2, 3, X_M, Y_M, o[4], o[5], o[6]);
    for (int k : new int[] {0, 1, 2, 4, 5}) {
      assertTrue(Float.isNaN(o[k][12]));
    }
    assertEquals(0.125, o[3][12], 1e-6);
    assertEquals(0.25, o[6][12], 1e-6);
  }

  @Test
  void aVoidAnywhereShowsInAllAndWhatIsNotWantedIsLeftOut() {
    for (int k = 0; k < 9; k++) {
      float[] z = quadric(0.5, 0.25, 0.125, 0.0625, -0.25);
      z[(1 + k / 3) * SIDE + 1 + k % 3] = Float.NaN;
      for (int wanted = 0; wanted < 7; wanted++) {
        float[][] o = new float[7][];
        o[wanted] = new float[z.length];
        Curvature.fillLeastSquares(z, SIDE, SIDE, 2, 3, X_M, Y_M, o[0], o[1], o[2], o[3]);
        Curvature.fillQuartic(z, SIDE, SIDE, 2, 3, X_M, Y_M, o[4], o[5], o[6]);
        assertTrue(Float.isNaN(o[wanted][12]), "void " + k + " output " + wanted);
      }
    }
  }
}
