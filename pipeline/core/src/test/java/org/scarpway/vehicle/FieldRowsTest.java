package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Memory;

/** Strips with rows beyond their own, each with other layers, come to lie where they belong. */
class FieldRowsTest {
  private static final int COLS = 5;
  private static final int ROWS = 12;
  private static final GridSpec SPEC = new GridSpec(ROWS, COLS, 1, 1, 0, ROWS, "");
  private static final GradeTable[] SOILS = {table(1), table(2), table(3)};

  private static GradeTable table(double speedMs) {
    return new GradeTable(-1, 1, new double[] {speedMs, speedMs}, new double[2], 0, 0);
  }

  // What each cell of the whole ground holds, made up so that no two rows are alike.
  private static int headings(int cell) {
    return 0x9E3779B9 * (cell + 1);
  }

  private static float capMs(int cell) {
    return 1 + cell / 100f;
  }

  private static float detour(int cell) {
    return 2 + cell / 64f;
  }

  private static int soil(int cell) {
    return cell % 3;
  }

  /** Rows of the ground, what lies beyond the first and after the last of them included. */
  private static TraversalCost strip(
      int first, int rows, boolean capped, boolean detoured, boolean tacked, GradeTable... tables) {
    int n = rows * COLS;
    int[] allowed = new int[n];
    float[] cap = new float[n];
    float[] around = new float[n];
    byte[] ground = new byte[n];
    TackedHeadings.Finds finds = new TackedHeadings.Finds();
    double[] longer = new double[32];
    for (int i = 0; i < n; i++) {
      int cell = first * COLS + i;
      allowed[i] = headings(cell);
      cap[i] = capMs(cell);
      around[i] = detour(cell);
      ground[i] = (byte) soil(cell);
      if (cell % 4 == 0) {
        Arrays.fill(longer, 1 + cell / 32.0);
        finds.add(i, 0b101, longer);
      }
    }
    return new TraversalCost(
        new Memory(),
        new GridSpec(rows, COLS, 1, 1, 0, rows, ""),
        allowed,
        new float[n],
        new float[n],
        capped ? cap : null,
        detoured ? around : null,
        tacked ? TackedHeadings.of(List.of(finds)) : null,
        tables.length > 1 ? ground : null,
        tables);
  }

  private static FieldRows rows() {
    int n = SPEC.cells();
    return new FieldRows(new Memory(), SPEC, Floats.of(new float[n]), Floats.of(new float[n]));
  }

  @Test
  void everyLayerOfEveryStrip() {
    FieldRows all = rows();
    // Rows 0 to 3 plain, 4 to 6 capped, 7 to 8 with detours, 9 to 11 with tacks and both.
    all.add(strip(0, 6, false, false, false, SOILS), 0, 4);
    all.add(strip(2, 8, true, false, false, SOILS), 2, 3);
    all.add(strip(6, 5, false, true, false, SOILS), 1, 2);
    all.add(strip(8, 4, true, true, true, SOILS), 1, 3);
    TraversalCost f = all.field();
    assertTrue(f.beyondHeap());
    for (int i = 0; i < SPEC.cells(); i++) {
      int row = Math.floorDiv(i, COLS);
      boolean capped = (row >= 4 && row < 7) || row >= 9;
      boolean detoured = row >= 7;
      boolean tacked = row >= 9 && i % 4 == 0;
      assertEquals(headings(i), f.allowed(i), "headings of cell " + i);
      assertEquals(capped ? capMs(i) : Float.POSITIVE_INFINITY, f.speedCapMs(i), "cap of " + i);
      assertEquals(detoured ? detour(i) : 1, f.detour(i), "detour of cell " + i);
      assertEquals(soil(i), f.soil(i), "soil of cell " + i);
      double way = (detoured ? detour(i) : 1.0) * (tacked ? 1 + i / 32.0 : 1);
      assertEquals(way, f.pathRatio(i, 0), 1e-6, "tacks of cell " + i);
      assertEquals(way, f.pathRatio(i, 2), 1e-6, "tacks of cell " + i);
      assertEquals(detoured ? detour(i) : 1, f.pathRatio(i, 1), "no tacks on that heading of " + i);
    }
  }

  @Test
  void layersThatNoStripHasAreNotThere() {
    FieldRows all = rows();
    all.add(strip(0, 7, false, false, false, SOILS[1]), 0, 6);
    assertThrows(IllegalStateException.class, all::field);
    all.add(strip(5, 7, false, false, false, SOILS[1]), 1, 6);
    TraversalCost f = all.field();
    assertFalse(f.capped() || f.detoured());
    assertEquals(1, f.soils());
    assertEquals(0, f.soil(7));
    assertEquals(2, f.table(0).speedMs(0));
    assertEquals(1, f.pathRatio(50, 0));
    assertEquals(headings(59), f.allowed(59));
  }
}
