package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** Breaks worked out by hand. */
class BreaksTest {
  private static final int SIZE = 16;

  private interface Profile {
    double heightM(int row, int col);
  }

  private static float[] breaks(double spacingM, GroundLaw law, double factor, Profile profile) {
    float[] z = new float[SIZE * SIZE];
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) profile.heightM(i / SIZE, i % SIZE);
    }
    float[] stepM = new float[z.length];
    new Breaks(law, spacingM, 1, factor).raise(z, SIZE, SIZE, 0, SIZE, stepM);
    return stepM;
  }

  private static void assertRow(float[] stepM, double... want) {
    for (int col = 0; col < want.length; col++) {
      assertEquals(want[col], stepM[8 * SIZE + 4 + col], 1e-5, "column " + (4 + col));
    }
  }

  private static GroundLaw bounds(double pairM, double twoM) {
    double[] pair = new double[4];
    double[] two = new double[4];
    Arrays.fill(pair, pairM);
    Arrays.fill(two, twoM);
    return new GroundLaw(null, pair, two);
  }

  @Test
  void aWallHasItsHeightOnAnySlope() {
    // Within two cells, no more than a wheel spacing.
    double[] want = {0, 0, 0.7, 0.7, 0.7, 0.7, 0};
    assertRow(breaks(2, null, 1, (r, c) -> c > 7 ? 0.7 : 0), want);
    assertRow(breaks(2, null, 1, (r, c) -> 0.2 * c - 0.1 * r + (c > 7 ? 0.7 : 0)), want);
    assertRow(breaks(2, null, 1, (r, c) -> -0.2 * c + (c > 7 ? 0.7 : 0)), want);
    // On either side of it where two cells are more than that.
    GroundLaw none = bounds(0, 0);
    assertRow(breaks(0.5, none, 1, (r, c) -> c > 7 ? 0.7 : 0), 0, 0, 0, 0.7, 0.7, 0, 0);
  }

  @Test
  void aWallWithACellHalfUpHasItsWholeHeight() {
    Profile wall = (r, c) -> c > 8 ? 0.8 : c == 8 ? 0.4 : 0;
    assertRow(breaks(2, null, 1, wall), 0, 0, 0, 0.8, 0.8, 0.8, 0);
    // Over more than a wheel spacing that is a slope like any other of the ground, but for what
    // rises within one.
    assertRow(breaks(1, bounds(9, 9), 1, wall), 0, 0, 0, 0.4, 0.4, 0.4, 0);
    assertRow(breaks(0.5, bounds(9, 9), 1, wall), 0, 0, 0, 0, 0, 0, 0);
    assertRow(breaks(1, bounds(9, 0.5), 1, wall), 0, 0, 0, 0.8, 0.8, 0.8, 0);
  }

  @Test
  void slopesFeetAndCrestsHaveNone() {
    assertRow(breaks(2, null, 1, (r, c) -> 0.4 * c + 0.3 * r), 0, 0, 0, 0, 0, 0);
    assertRow(breaks(2, null, 1, (r, c) -> Math.max(0, 0.4 * (c - 7))), 0, 0, 0, 0, 0, 0);
    assertRow(breaks(2, null, 1, (r, c) -> -0.4 * Math.abs(c - 7)), 0, 0, 0, 0, 0, 0);
    assertRow(
        breaks(2, null, 1, (r, c) -> 0.3 * Math.max(0, Math.min(3, c - 6))), 0, 0, 0, 0, 0, 0);
  }

  @Test
  void whatTheLawExplainsIsNotTakenAsMeasured() {
    Profile wall = (r, c) -> c > 7 ? 0.7 : 0;
    assertRow(breaks(0.5, bounds(0.8, 9), 0.5, wall), 0, 0, 0, 0, 0, 0);
    assertRow(breaks(0.5, bounds(0.6, 9), 0.5, wall), 0, 0, 0, 0.7, 0.7, 0);
  }

  /** One row of the wall is 0.2 m high: less than the lower bound of what is next to a break. */
  @Test
  void aGapOfOneCellIsClosedAndOneOfThreeIsNot() {
    float[] one = breaks(0.5, bounds(0.6, 9), 0.5, (r, c) -> c > 7 ? (r == 8 ? 0.2 : 0.7) : 0);
    assertTrue(one[8 * SIZE + 7] > 0.6 && one[8 * SIZE + 8] > 0.6, Arrays.toString(one));
    float[] three =
        breaks(0.5, bounds(0.6, 9), 0.5, (r, c) -> c > 7 && Math.abs(r - 8) > 2 ? 0.7 : 0);
    assertEquals(0, three[8 * SIZE + 7]);
    assertEquals(0, three[8 * SIZE + 8]);
  }

  /** Bounds of 0.6 m along rows and columns, of 9 m for all else. */
  private static GroundLaw straight() {
    double[] pair = {0.6, 0.6, 9, 9};
    double[] two = {9, 9, 9, 9};
    return new GroundLaw(null, pair, two);
  }

  /**
   * A gap of one cell in a wall, of which the cell before it shows nothing by itself, is closed by
   * the walls on either side of it. Beyond the end of a wall there is one on one side only.
   */
  @Test
  void aGapIsClosedAndAnEndIsNot() {
    for (boolean turn : new boolean[] {false, true}) {
      float[] gap =
          breaks(
              0.5, straight(), 0.5, (r, c) -> (turn ? r > 7 && c != 8 : c > 7 && r != 8) ? 0.7 : 0);
      float[] end =
          breaks(
              0.5, straight(), 0.5, (r, c) -> (turn ? r > 7 && c < 8 : c > 7 && r < 8) ? 0.7 : 0);
      int before = turn ? 7 * SIZE + 8 : 8 * SIZE + 7;
      assertEquals(0.7, gap[before], 1e-5);
      assertEquals(0, gap[before - (turn ? SIZE : 1)], 1e-5);
      assertEquals(0, end[before], 1e-5);
      assertEquals(0.7, end[7 * SIZE + 7], 1e-5);
    }
  }

  /**
   * Beside a break beyond its bound what exceeds 2.2 / 3.1 of the bound is taken as measured, and
   * only there: the cells before and behind the lower part of a wall, which have its higher part
   * across their corner.
   */
  @Test
  void besideABreakALowerBoundApplies() {
    for (double heightM : new double[] {0.42, 0.43, 0.5}) {
      float[] stepM = breaks(0.5, straight(), 0.5, (r, c) -> c <= 7 ? 0 : r < 8 ? 0.7 : heightM);
      double beside = heightM > 0.6 * 2.2 / 3.1 ? 0.7 : 0;
      assertEquals(0.7, stepM[7 * SIZE + 7], 1e-5);
      assertEquals(beside, stepM[8 * SIZE + 7], 1e-5);
      assertEquals(beside, stepM[8 * SIZE + 8], 1e-5);
      assertEquals(0, stepM[9 * SIZE + 7], 1e-5);
    }
  }

  /** Beside a void what may be a wall into it is unknown; the edge of the ground is no void. */
  @Test
  void voidsAndEdgesHideNoWallBesideThem() {
    float[] stepM =
        breaks(2, null, 1, (r, c) -> c == 10 ? Double.NaN : 0.1 * c + (c > 7 ? 0.7 : 0));
    assertRow(stepM, 0, 0, 0.7, 0.7, Double.NaN);
    stepM = breaks(2, null, 1, (r, c) -> 0.1 * c + (c > 1 ? 0.7 : 0));
    assertEquals(0.7, stepM[8 * SIZE + 1], 1e-5);
    assertEquals(0.7, stepM[8 * SIZE + 2], 1e-5);
  }

  /** Rows do not depend on the band that they are worked in. */
  @Test
  void bandsGiveTheSame() {
    float[] z = TestGround.rough(SIZE, SIZE, 9);
    float[] whole = new float[z.length];
    Breaks breaks = new Breaks(bounds(0.1, 0.2), 0.5, 1, 0.5);
    breaks.raise(z, SIZE, SIZE, 0, SIZE, whole);
    float[] rows = new float[z.length];
    for (int row = 0; row < SIZE; row++) {
      breaks.raise(z, SIZE, SIZE, row, row + 1, rows);
    }
    assertTrue(Arrays.equals(whole, rows));
  }

  @Test
  void lengthsThatNeedALaw() {
    // Two cells within the wheel spacing: breaks over both lengths are measured.
    assertFalse(Breaks.needLaw(2, 1));
    assertTrue(Breaks.needLaw(1.99, 1));
    assertFalse(Breaks.needLaw(6, 3));
    assertTrue(Breaks.needLaw(5.99, 3));
    // A wall with a cell half up, over two cells of 2 m against wheels 3 m apart: the law decides,
    // but on what rises over one.
    float[] z = new float[SIZE * SIZE];
    for (int i = 0; i < z.length; i++) {
      z[i] = i % SIZE > 8 ? 0.8f : i % SIZE == 8 ? 0.4f : 0;
    }
    float[] stepM = new float[z.length];
    new Breaks(bounds(9, 9), 3, 2, 1).raise(z, SIZE, SIZE, 0, SIZE, stepM);
    assertRow(stepM, 0, 0, 0, 0.4, 0.4, 0.4, 0);
  }

  /** Turned over or mirrored, the same ground has the same steps in the same places. */
  @Test
  void mirroredGroundHasMirroredSteps() {
    for (int seed = 0; seed < 6; seed++) {
      float[] z = TestGround.rough(SIZE, SIZE, seed);
      float[] planeM = TestGround.rough(SIZE, SIZE, seed + 50);
      GroundLaw law = bounds(0.05 + 0.1 * seed, 0.1 + 0.15 * seed);
      for (double spacingM : new double[] {0.5, 1, 2}) {
        Breaks breaks = new Breaks(spacingM < 2 ? law : null, spacingM, 1, 0.5);
        float[] want = steps(breaks, z, planeM);
        for (int mirror = 1; mirror < 8; mirror++) {
          float[] got = steps(breaks, mirrored(z, mirror), mirrored(planeM, mirror));
          float[] back = mirrored(want, mirror);
          for (int i = 0; i < back.length; i++) {
            assertEquals(back[i], got[i], 1e-5, "mirror " + mirror + ", cell " + i);
          }
        }
      }
    }
  }

  private static float[] steps(Breaks breaks, float[] z, float[] planeM) {
    float[] stepM = planeM.clone();
    breaks.raise(z, SIZE, SIZE, 0, SIZE, stepM);
    return stepM;
  }

  /** Rows, columns and rows for columns exchanged, by the bits of a number. */
  private static float[] mirrored(float[] z, int bits) {
    float[] out = new float[z.length];
    for (int i = 0; i < z.length; i++) {
      int row = (bits & 1) == 0 ? i / SIZE : SIZE - 1 - i / SIZE;
      int col = (bits & 2) == 0 ? i % SIZE : SIZE - 1 - i % SIZE;
      out[(bits & 4) == 0 ? row * SIZE + col : col * SIZE + row] = z[i];
    }
    return out;
  }

  /**
   * A wall along any of the four axes, with nothing that a law explains or with bounds below it.
   */
  @Test
  void wallsAlongEveryAxis() {
    for (double spacingM : new double[] {0.5, 2}) {
      GroundLaw law = spacingM < 2 ? bounds(0.3, 0.3) : null;
      for (int[] across : GroundLaw.AXES) {
        Profile wall = (r, c) -> across[0] * (r - 8) + across[1] * (c - 8) > 0 ? 0.7 : 0;
        float[] stepM = breaks(spacingM, law, 0.5, wall);
        assertEquals(0.7, stepM[8 * SIZE + 8], 1e-5);
        assertEquals(0.7, stepM[(8 + across[0]) * SIZE + 8 + across[1]], 1e-5);
        assertEquals(0, stepM[(8 - 3 * across[0]) * SIZE + 8 - 3 * across[1]]);
        assertEquals(0, stepM[(8 + 4 * across[0]) * SIZE + 8 + 4 * across[1]]);
      }
    }
  }
}
