package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.stage.Floats;

/**
 * How late or dear a front may come to each cell of a tile and the two rows and columns about it.
 */
class ExpansionBoundTest {
  private static final Tiling TILING = Tiling.of(Fields.grid(17, 23, 1, 0, 0), 8);
  private static final int STRIDE = 8 + 2 * TileGround.SEEN;
  private static final double UNTOUCHED = -77;

  /** Cell of the grid at a place of a tile's window, -1 beyond the grid or the window. */
  private static int cell(int tile, int r, int c) {
    int row = TILING.firstRow(tile) + r;
    int col = TILING.firstCol(tile) + c;
    boolean near = r < TILING.high(tile) + 2 && c < TILING.broad(tile) + 2;
    return near && row >= 0 && row < 17 && col >= 0 && col < 23 ? row * 23 + col : -1;
  }

  private static double[] read(ExpansionBound allowance, int tile) {
    double[] into = new double[STRIDE * STRIDE];
    Arrays.fill(into, UNTOUCHED);
    allowance.read(tile, into, 2 * STRIDE + 2, STRIDE);
    return into;
  }

  /** Late enough to walk home from there, and never where there is no way to walk. */
  @Test
  void aFrontLeavesTimeToWalkHome() {
    float[] walkS = new float[17 * 23];
    for (int i = 0; i < walkS.length; i++) {
      walkS[i] = i % 7 == 3 ? Float.NaN : 3 * i;
    }
    StopInTime allowance = new StopInTime(TILING, Floats.of(walkS), 2000);
    for (int tile = 0; tile < TILING.tiles(); tile++) {
      double[] into = read(allowance, tile);
      for (int r = -2; r < 10; r++) {
        for (int c = -2; c < 10; c++) {
          int cell = cell(tile, r, c);
          double latest = cell % 7 == 3 ? Double.NEGATIVE_INFINITY : 2000.0 - 3 * cell;
          double want = cell < 0 ? UNTOUCHED : latest;
          assertEquals(want, into[(r + 2) * STRIDE + c + 2], tile + ": " + r + ", " + c);
        }
      }
    }
  }

  /** What the other way leaves of a trip, at least what is known that it takes where it is not. */
  @Test
  void aFrontLeavesWhatTheOtherWayTakes() {
    Random random = new Random(12);
    CostTiles other = new CostTiles(TILING, null);
    double[] label = new double[17 * 23];
    Arrays.fill(label, Double.POSITIVE_INFINITY);
    for (int i = 0; i < label.length; i++) {
      // One tile that nothing has reached.
      if (TILING.tileOf(i) != 4 && random.nextBoolean()) {
        label[i] = 100 * random.nextDouble();
        other.set(i, label[i], 0);
      }
    }
    MeetHalfway allowance = new MeetHalfway(other, 60, 120);
    for (int tile = 0; tile < TILING.tiles(); tile++) {
      double[] into = read(allowance, tile);
      for (int r = -2; r < 10; r++) {
        for (int c = -2; c < 10; c++) {
          int cell = cell(tile, r, c);
          if (cell >= 0) {
            double want = label[cell] < 60 ? 120 - label[cell] : 60;
            assertEquals(want, into[(r + 2) * STRIDE + c + 2], tile + ": " + r + ", " + c);
          }
        }
      }
    }
  }
}
