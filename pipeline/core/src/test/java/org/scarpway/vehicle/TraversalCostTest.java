package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Memory;

/**
 * Costs of single headings on ground that rises 0.3 to the east and 0.4 to the north, with drive
 * and energy on straight lines over the grade, worked out by hand. Heading 0 is north, 8 east.
 */
class TraversalCostTest {
  private static final GridSpec SPEC = new GridSpec(1, 4, 5, 5, 0, 5, "");
  private static final int NORTH = 0;
  private static final int NORTH_EAST = 4;
  private static final int EAST = 8;
  private static final int SOUTH = 16;
  private static final int WEST = 24;

  /** 3 m/s less 2 m/s for each unit of grade; 100 J/m and 200 J/m more for each; 50 W. */
  private static final GradeTable DRIVE =
      new GradeTable(-1, 1, new double[] {5, 1}, new double[] {-100, 300}, 50, 400);

  /** Stops at a grade of 0.3. */
  private static final GradeTable WEAK =
      new GradeTable(-0.3, 0.3, new double[] {0.6, 0}, new double[] {0, 0}, 0, 700);

  /** Free; 2.3 m/s at most; half as long again around rocks, north and east only; weak. */
  private static TraversalCost field() {
    int two = 1 << NORTH | 1 << EAST;
    float free = Float.POSITIVE_INFINITY;
    return new TraversalCost(
        new Memory(),
        SPEC,
        new int[] {-1, -1, two, -1},
        new float[] {0.3f, 0.3f, 0.3f, 0.3f},
        new float[] {0.4f, 0.4f, 0.4f, 0},
        new float[] {free, 2.3f, free, free},
        new float[] {1, 1, 1.5f, 1},
        null,
        new byte[] {0, 0, 0, 1},
        DRIVE,
        WEAK);
  }

  private static void costs(int cell, int heading, double grade, double speedMs, double tractionJ) {
    TraversalCost f = field();
    double length = Math.sqrt(1 + grade * grade) * (cell == 2 ? 1.5 : 1);
    assertEquals(grade, f.grade(cell, heading), 1e-7);
    assertEquals(length, f.lengthPerM(cell, heading), 1e-7);
    assertEquals(length / speedMs, f.timeSPerM(cell, heading), 1e-7);
    // What is longer around rocks gains no height: 100 J/m.
    double surplusJ = cell == 2 ? 0.5 * 100 * Math.sqrt(1 + grade * grade) : 0;
    double energyJ = tractionJ * Math.sqrt(1 + grade * grade) + surplusJ + 50 * length / speedMs;
    assertEquals(energyJ, f.energyJPerM(cell, heading), 1e-4);
  }

  @Test
  void headingsOnASlope() {
    costs(0, NORTH, 0.4, 2.2, 180);
    costs(0, EAST, 0.3, 2.4, 160);
    costs(0, SOUTH, -0.4, 3.8, 20);
    costs(0, WEST, -0.3, 3.6, 40);
    costs(0, NORTH_EAST, 0.7 / Math.sqrt(2), 3 - 1.4 / Math.sqrt(2), 100 + 140 / Math.sqrt(2));
    costs(1, NORTH, 0.4, 2.2, 180);
    costs(1, EAST, 0.3, 2.3, 160);
    costs(1, SOUTH, -0.4, 2.3, 20);
    costs(2, NORTH, 0.4, 2.2, 180);
    costs(2, EAST, 0.3, 2.4, 160);
  }

  @Test
  void headingsThatAreShutAndGradesThatAreTooSteepCostWithoutEnd() {
    TraversalCost f = field();
    assertTrue(f.allows(2, NORTH) && f.allows(2, EAST));
    assertFalse(f.allows(2, SOUTH));
    assertEquals(Double.POSITIVE_INFINITY, f.timeSPerM(2, SOUTH));
    assertEquals(Double.POSITIVE_INFINITY, f.energyJPerM(2, SOUTH));
    assertEquals(Double.POSITIVE_INFINITY, f.timeSPerM(3, EAST));
    assertEquals(Double.POSITIVE_INFINITY, f.energyJPerM(3, EAST));
    assertEquals(1 / 0.3, f.timeSPerM(3, NORTH), 1e-6);
  }

  @Test
  void meansOverTheHeadingsThatAreOpen() {
    TraversalCost f = field();
    float[] speedMs = new float[4];
    float[] energyJ = new float[4];
    f.fillMeans(2, speedMs, energyJ);
    assertEquals((2.2 + 2.4) / 2 / 1.5, speedMs[2], 1e-6);
    double north = 180 + 0.5 * 100 + 50 * 1.5 / 2.2;
    double east = 160 + 0.5 * 100 + 50 * 1.5 / 2.4;
    assertEquals((north + east) / 2, energyJ[2], 1e-3);
    BitSet none = new BitSet();
    none.set(0);
    TraversalCost within = f.within(none);
    assertEquals(0, within.allowed(2));
    assertEquals(-1, within.allowed(0));
    within.fillMeans(2, speedMs, energyJ);
    assertTrue(Float.isNaN(speedMs[2]) && Float.isNaN(energyJ[2]));
    // Everywhere too steep but where it stops: the mean is of those that move.
    f.fillMeans(3, speedMs, energyJ);
    double sum = 0;
    int moving = 0;
    for (int k = 0; k < 32; k++) {
      double speed = 0.3 - f.grade(3, k);
      sum += speed > 1e-7 ? speed : 0;
      moving += speed > 1e-7 ? 1 : 0;
    }
    assertEquals(31, moving);
    assertEquals(sum / moving, speedMs[3], 1e-6);
    int[] east1 = {1 << EAST};
    TraversalCost stuck =
        new TraversalCost(
            new GridSpec(1, 1, 5, 5, 0, 5, ""),
            east1,
            new float[] {0.5f},
            new float[1],
            null,
            null,
            WEAK);
    stuck.fillMeans(0, speedMs, energyJ);
    assertTrue(Float.isNaN(speedMs[0]) && Float.isNaN(energyJ[0]));
  }

  @Test
  void otherTables() {
    TraversalCost f = field();
    assertEquals(700, f.potentialJPerM());
    assertEquals(400, f.withTables(DRIVE, DRIVE).potentialJPerM());
    assertEquals(2, f.soils());
    // Twice the energy, 10 J for each metre, 5 for each second.
    GradeTable w = DRIVE.weighted(2, 10, 5);
    assertEquals(2 * 180 + 10, w.tractionJPerM(0.4), 1e-9);
    assertEquals(2.2, w.speedMs(0.4), 1e-12);
    assertEquals(105, w.hotelW());
    assertEquals(800, w.potentialJPerM());
    // Beyond its ends a table holds what it ends with.
    assertEquals(1, DRIVE.speedMs(1.5));
    assertEquals(5, DRIVE.speedMs(-1.5));
    assertEquals(300, DRIVE.tractionJPerM(2));
    assertEquals(-100, DRIVE.tractionJPerM(-2));
  }

  @Test
  void theWorseOfTwoTables() {
    GradeTable flat =
        new GradeTable(-0.5, 0.5, new double[] {2, 2}, new double[] {150, 150}, 20, 9);
    for (GradeTable w : new GradeTable[] {DRIVE.worse(flat), flat.worse(DRIVE)}) {
      for (double g = -1; g <= 1; g += 0.125) {
        // Lines that cross between two entries are cut short, never passed over.
        assertTrue(w.speedMs(g) <= Math.min(2, 3 - 2 * g) + 1e-12, "grade " + g);
        assertTrue(w.tractionJPerM(g) >= Math.max(150, 100 + 200 * g) - 1e-12, "grade " + g);
      }
      assertEquals(2, w.speedMs(0), 1e-12);
      assertEquals(1, w.speedMs(1), 1e-12);
      assertEquals(2, w.speedMs(-1), 1e-12);
      assertEquals(300, w.tractionJPerM(1), 1e-12);
      assertEquals(150, w.tractionJPerM(-1), 1e-12);
      assertEquals(50, w.hotelW());
    }
    assertEquals(400, DRIVE.worse(flat).potentialJPerM());
  }

  @Test
  void tablesAndLayersThatDoNotFitAreRefused() {
    double[] one = {1};
    double[] two = {1, 1};
    assertThrows(IllegalArgumentException.class, () -> new GradeTable(0, 1, one, one, 0, 0));
    assertThrows(IllegalArgumentException.class, () -> new GradeTable(0, 1, two, one, 0, 0));
    assertThrows(IllegalArgumentException.class, () -> new GradeTable(1, 1, two, two, 0, 0));
    for (int wrong = 0; wrong < 6; wrong++) {
      int[] n = {4, 4, 4, 4, 4, 4};
      n[wrong] = 3;
      assertThrows(
          IllegalArgumentException.class,
          () ->
              new TraversalCost(
                  new Memory(),
                  SPEC,
                  new int[n[0]],
                  new float[n[1]],
                  new float[n[2]],
                  new float[n[3]],
                  new float[n[4]],
                  null,
                  new byte[n[5]],
                  DRIVE));
    }
  }
}
