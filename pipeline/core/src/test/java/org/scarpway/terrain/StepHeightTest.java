package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Steps by the list of cells to compare, drawn by hand, and on grounds with a closed form. */
class StepHeightTest {
  private static final int SIDE = 15;

  /** One spike: every cell that compares itself with it has its height, all others none. */
  @ParameterizedTest
  @CsvSource({
    // Square cells of 1 m: fewer than one cell, one, the diagonal, two and the knight's move.
    "1, 1, 0.4, 111/111/111",
    "1, 1, 1, 111/111/111",
    "1, 1, 1.9, 111/111/111",
    "1, 1, 2, 00100/01110/11111/01110/00100",
    "1, 1, 2.3, 01110/11111/11111/11111/01110",
    "1, 1, 2.9, 11111/11111/11111/11111/11111",
    // Twice as long towards north: (2, 0), (0, 1) and the neighbours.
    "1, 2, 2, 01110/11111/01110",
    "1, 2, 2.9, 11111/11111/11111",
    "2, 1, 2, 010/111/111/111/010",
    "3, 5, 1, 111/111/111",
    // Exactly three tenths of metres, not a whole number in binary.
    "0.1, 0.1, 0.3, 0001000/0111110/0111110/1111111/0111110/0111110/0001000"
  })
  void spikesAreSeenByTheCellsWithinAWheelSpacing(
      double cellXM, double cellYM, double spacingM, String drawn) {
    String[] lines = drawn.split("/");
    int halfRows = lines.length / 2;
    int halfCols = lines[0].length() / 2;
    assertEquals(halfCols, StepHeight.haloCells(spacingM, cellXM));
    assertEquals(halfRows, StepHeight.haloCells(spacingM, cellYM));
    float[] z = new float[SIDE * SIDE];
    z[7 * SIDE + 7] = 3;
    float[] level = new float[z.length];
    float[] step = new float[z.length];
    Arrays.fill(step, -9);
    StepHeight.fill(z, SIDE, SIDE, 1, 14, cellXM, cellYM, spacingM, level, level, step);
    for (int row = 0; row < SIDE; row++) {
      for (int col = 0; col < SIDE; col++) {
        double got = step[row * SIDE + col];
        int dy = row - 7 + halfRows;
        int dx = col - 7 + halfCols;
        String where = "row " + row + " col " + col;
        if (row < 1 || row >= 14) {
          assertEquals(-9, got, where);
        } else if (Math.min(row, SIDE - 1 - row) < halfRows
            || Math.min(col, SIDE - 1 - col) < halfCols) {
          assertTrue(Double.isNaN(got), where);
        } else {
          boolean seen =
              dy >= 0
                  && dy < lines.length
                  && dx >= 0
                  && dx < lines[0].length()
                  && lines[dy].charAt(dx) == '1';
          assertEquals(seen || (row == 7 && col == 7) ? 3 : 0, got, where);
        }
      }
    }
  }

  /** A plane that is taken away leaves nothing, half of it the other half over the spacing. */
  @Test
  void thePlaneIsTakenAway() {
    double east = 0.25;
    double north = -0.125;
    float[] z = new float[SIDE * SIDE];
    float[] planeEast = new float[z.length];
    float[] planeNorth = new float[z.length];
    for (int i = 0; i < z.length; i++) {
      int row = i / SIDE;
      z[i] = (float) (east * 2 * (i % SIDE) - north * 4 * row);
    }
    float[] step = new float[z.length];
    int centre = 7 * SIDE + 7;
    Arrays.fill(planeEast, (float) east);
    Arrays.fill(planeNorth, (float) north);
    StepHeight.fill(z, SIDE, SIDE, 0, SIDE, 2, 4, 4, planeEast, planeNorth, step);
    assertEquals(0, step[centre]);
    // Left: 0.25 over 4 m east, and over 4 m north 0.125; over (2, 4) m both together.
    StepHeight.fill(
        z, SIDE, SIDE, 0, SIDE, 2, 4, 4, new float[z.length], new float[z.length], step);
    assertEquals(1, step[centre]);
    StepHeight.fill(z, SIDE, SIDE, 0, SIDE, 2, 4, 4, planeEast, new float[z.length], step);
    assertEquals(0.5, step[centre]);
    StepHeight.fill(z, SIDE, SIDE, 0, SIDE, 2, 4, 4, new float[z.length], planeNorth, step);
    assertEquals(1, step[centre]);
    Arrays.fill(planeNorth, (float) -north);
    StepHeight.fill(z, SIDE, SIDE, 0, SIDE, 2, 4, 4, planeEast, planeNorth, step);
    assertEquals(1, step[centre]);
  }

  @Test
  void aPitCountsLikeASpikeAndAVoidShows() {
    float[] z = new float[25];
    z[6] = -2;
    z[18] = 1;
    float[] level = new float[25];
    float[] step = new float[25];
    StepHeight.fill(z, 5, 5, 0, 5, 1, 1, 1, level, level, step);
    assertEquals(2, step[12]);
    assertEquals(1, step[13]);
    z[18] = Float.NaN;
    StepHeight.fill(z, 5, 5, 0, 5, 1, 1, 1, level, level, step);
    assertTrue(Float.isNaN(step[12]) && Float.isNaN(step[13]));
    assertEquals(2, step[11]);
  }
}
