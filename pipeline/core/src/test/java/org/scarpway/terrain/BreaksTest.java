package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
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
    assertRow(breaks(2, null, 1, (r, c) -> c > 7 ? 0.7 : 0), 0, 0, 0, 0.7, 0.7, 0, 0);
    assertRow(
        breaks(2, null, 1, (r, c) -> 0.2 * c - 0.1 * r + (c > 7 ? 0.7 : 0)),
        0,
        0,
        0,
        0.7,
        0.7,
        0,
        0);
    assertRow(breaks(2, null, 1, (r, c) -> -0.2 * c + (c > 7 ? 0.7 : 0)), 0, 0, 0, 0.7, 0.7, 0, 0);
  }

  @Test
  void aWallWithACellHalfUpHasItsWholeHeight() {
    Profile wall = (r, c) -> c > 8 ? 0.8 : c == 8 ? 0.4 : 0;
    assertRow(breaks(2, null, 1, wall), 0, 0, 0, 0.8, 0.8, 0.8, 0);
    // Over more than a wheel spacing that is a slope like any other of the ground.
    assertRow(breaks(1, bounds(9, 9), 1, wall), 0, 0, 0, 0, 0, 0, 0);
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

  /** Cells with all eight neighbours known, next to a void and to the edge. */
  @Test
  void voidsAndEdgesHideNoWallBesideThem() {
    float[] stepM =
        breaks(2, null, 1, (r, c) -> c == 10 ? Double.NaN : 0.1 * c + (c > 7 ? 0.7 : 0));
    assertRow(stepM, 0, 0, 0, 0.7, 0.7);
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
}
