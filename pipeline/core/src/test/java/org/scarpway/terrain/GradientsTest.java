package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** Gradients of 3 x 3 cells by the published weights (from memory), slope and aspect by atan2. */
class GradientsTest {
  private static final int ROWS = 7;
  private static final int COLS = 9;
  private static final double X_M = 2;
  private static final double Y_M = 5;

  /** Weight of the northern, middle and southern row in the eastward difference. */
  private static double[] sides(SlopeMethod method) {
    return switch (method) {
      case HORN -> new double[] {1, 2, 1};
      case EVANS_YOUNG -> new double[] {1, 1, 1};
      default -> new double[] {0, 1, 0};
    };
  }

  private static float[][] fill(SlopeMethod method, float[] z, int from, int to) {
    float[][] out = new float[2][z.length];
    for (float[] o : out) {
      Arrays.fill(o, -9);
    }
    assertTrue(Gradients.fill(method, z, ROWS, COLS, from, to, X_M, Y_M, out[0], out[1]));
    return out;
  }

  @ParameterizedTest
  @EnumSource(names = {"HORN", "ZEVENBERGEN_THORNE", "EVANS_YOUNG"})
  void isTheSumOfWeightsTimesHeights(SlopeMethod method) {
    float[] z = TestGround.rough(ROWS, COLS, 11);
    float[][] got = fill(method, z, 1, 6);
    double[] side = sides(method);
    double sum = 2 * (side[0] + side[1] + side[2]);
    for (int row = 0; row < ROWS; row++) {
      for (int col = 0; col < COLS; col++) {
        int i = row * COLS + col;
        if (row < 1 || row >= 6) {
          assertEquals(-9, got[0][i]);
          assertEquals(-9, got[1][i]);
        } else if (col == 0 || col == COLS - 1) {
          assertTrue(Float.isNaN(got[0][i]) && Float.isNaN(got[1][i]));
        } else {
          double east = 0;
          double north = 0;
          for (int k = -1; k <= 1; k++) {
            east += side[k + 1] * ((double) z[i + k * COLS + 1] - z[i + k * COLS - 1]);
            north += side[k + 1] * ((double) z[i - COLS + k] - z[i + COLS + k]);
          }
          assertEquals(east / (sum * X_M), got[0][i], 1e-6, "east of cell " + i);
          assertEquals(north / (sum * Y_M), got[1][i], 1e-6, "north of cell " + i);
        }
      }
    }
  }

  @ParameterizedTest
  @EnumSource(names = {"HORN", "ZEVENBERGEN_THORNE", "EVANS_YOUNG"})
  void aVoidInTheWindowShowsInBoth(SlopeMethod method) {
    for (int dy = -1; dy <= 1; dy++) {
      for (int dx = -1; dx <= 1; dx++) {
        float[] z = TestGround.rough(ROWS, COLS, 12);
        z[(3 + dy) * COLS + 4 + dx] = Float.NaN;
        float[][] got = fill(method, z, 0, ROWS);
        boolean corner = dx != 0 && dy != 0;
        boolean read = method != SlopeMethod.ZEVENBERGEN_THORNE || !corner;
        assertEquals(read, Float.isNaN(got[0][3 * COLS + 4]), dx + ", " + dy);
        assertEquals(read, Float.isNaN(got[1][3 * COLS + 4]), dx + ", " + dy);
        for (int col = 0; col < COLS; col++) {
          assertTrue(Float.isNaN(got[0][col]) && Float.isNaN(got[1][col]), "north edge");
          int south = (ROWS - 1) * COLS + col;
          assertTrue(Float.isNaN(got[0][south]) && Float.isNaN(got[1][south]), "south edge");
        }
      }
    }
  }

  /** A narrow strip has no cell with a whole window. */
  @Test
  void twoColumnsOrRowsHaveNoGradient() {
    float[] out = new float[8];
    assertFalse(Edges.leaveInterior(out, 4, 2, 1, 1, 1));
    assertTrue(Float.isNaN(out[2]) && Float.isNaN(out[3]));
    assertEquals(0, out[1] + out[4]);
    float[] three = new float[9];
    assertTrue(Edges.leaveInterior(three, 3, 3, 1, 1, 1));
    assertTrue(Float.isNaN(three[3]) && Float.isNaN(three[5]) && three[4] == 0);
    assertFalse(Edges.leaveInterior(new float[20], 5, 4, 2, 2, 2));
    assertTrue(Edges.leaveInterior(new float[25], 5, 5, 2, 2, 2));
    assertFalse(Edges.leaveInterior(three, 3, 3, 0, 1, 1));
    assertFalse(Edges.leaveInterior(three, 3, 3, 2, 1, 1));
    assertTrue(Edges.leaveInteriorOfAll(new float[][] {null, new float[9]}, 3, 3, 1, 1, 1));
    assertFalse(Edges.leaveInteriorOfAll(new float[][] {null, null}, 3, 3, 1, 1, 1));
    assertFalse(Edges.leaveInteriorOfAll(new float[][] {new float[9]}, 3, 3, 0, 1, 1));
  }

  @Test
  void aPlaneOverAFootprintIsNotOfThreeByThree() {
    float[] out = new float[9];
    assertFalse(
        Gradients.fill(SlopeMethod.FOOTPRINT_PLANE, new float[9], 3, 3, 0, 3, 1, 1, out, out));
    assertEquals(0, out[0]);
  }

  /** All round the compass and from gentle to almost upright. */
  @Test
  void slopeAndAspectAreThoseOfTheArcTangent() {
    float[] east = new float[720];
    float[] north = new float[720];
    for (int i = 0; i < 720; i++) {
      double steep = Math.pow(10, -3 + 5 * (i % 97) / 96.0);
      east[i] = (float) (steep * Math.sin(Math.PI * i / 360));
      north[i] = (float) (steep * Math.cos(Math.PI * i / 360));
    }
    float[] slope = new float[720];
    float[] aspect = new float[720];
    SlopeAspect.fill(east, north, 10, 1, 71, slope, aspect);
    for (int i = 0; i < 720; i++) {
      boolean done = i >= 10 && i < 710;
      double s = Math.toDegrees(Math.atan(Math.hypot(east[i], north[i])));
      double a = Math.toDegrees(Math.atan2(-east[i], -north[i]));
      assertEquals(done ? s : 0, slope[i], 6e-6, "slope " + i);
      assertEquals(done ? (a + 360) % 360 : 0, aspect[i], 2e-5, "aspect " + i);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "0,1,0",
    "1,1,45",
    "1,0,90",
    "1,-1,135",
    "0,-1,180",
    "-1,-1,225",
    "-1,0,270",
    "-1,1,315",
    "-1e-9,1,0"
  })
  void theWindsHaveTheirAzimuths(double east, double north, double deg) {
    assertEquals(deg, SlopeAspect.azimuthDeg(east, north), 2e-6);
  }

  @Test
  void levelGroundHasNoAspect() {
    assertTrue(Double.isNaN(SlopeAspect.azimuthDeg(0, 0)));
    assertEquals(0, SlopeAspect.slopeDeg(0));
    assertEquals(45, SlopeAspect.slopeDeg(1), 2e-6);
    assertEquals(60, SlopeAspect.slopeDeg(Math.sqrt(3)), 2e-6);
  }
}
