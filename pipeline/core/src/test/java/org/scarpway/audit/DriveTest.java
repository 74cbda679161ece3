package org.scarpway.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/** Against closed forms on planes, where a straight way costs what its grade says. */
class DriveTest {
  private static final GridSpec SPEC = new GridSpec(40, 50, 2, 3, 100, 900, "");
  private static final double RISE_EAST = 0.08;
  private static final double RISE_NORTH = -0.05;
  private static final double FLAT_J_PER_M = 200;
  private static final double WEIGHT_N = 3000;
  private static final double HOTEL_W = 150;

  /** 2 m/s downhill and on the level, 10 m/s less per unit of grade uphill. */
  private static double speedMs(double g) {
    return 2 - 10 * Math.max(0, g);
  }

  /** Grades in steps of 0.001, so that the corner at level ground is an entry. */
  private static GradeTable table() {
    double[] speed = new double[1001];
    double[] traction = new double[1001];
    for (int i = 0; i < speed.length; i++) {
      double g = (i - 500) / 1000.0;
      speed[i] = Math.max(0.1, speedMs(g));
      traction[i] = FLAT_J_PER_M + WEIGHT_N * g;
    }
    return new GradeTable(-0.5, 0.5, speed, traction, HOTEL_W, WEIGHT_N);
  }

  private static TraversalCost field(int allowed) {
    int n = SPEC.cells();
    int[] bits = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    Arrays.fill(bits, allowed);
    Arrays.fill(east, (float) RISE_EAST);
    Arrays.fill(north, (float) RISE_NORTH);
    return new TraversalCost(SPEC, bits, east, north, null, null, table());
  }

  private static Floats plane() {
    float[] z = new float[SPEC.cells()];
    for (int i = 0; i < z.length; i++) {
      z[i] = (float) (RISE_EAST * SPEC.xM(i % SPEC.cols()) + RISE_NORTH * SPEC.yM(i / SPEC.cols()));
    }
    return Floats.of(z);
  }

  @Test
  void straightWaysOnAPlaneCostWhatTheirGradeSays() {
    SplittableRandom random = new SplittableRandom(5);
    for (int trial = 0; trial < 300; trial++) {
      boolean centres = trial % 2 == 0;
      double r0 = centres ? random.nextInt(40) : random.nextDouble(0, 39);
      double c0 = centres ? random.nextInt(50) : random.nextDouble(0, 49);
      double r1 = centres ? random.nextInt(40) : random.nextDouble(0, 39);
      double c1 = centres ? random.nextInt(50) : random.nextDouble(0, 49);
      double east = (c1 - c0) * 2;
      double north = (r0 - r1) * 3;
      double planM = Math.hypot(east, north);
      if (planM == 0) {
        continue;
      }
      Drive d =
          Drive.along(
              new Way(new double[] {r0, r1}, new double[] {c0, c1}, null), field(-1), plane());
      double riseM = RISE_EAST * east + RISE_NORTH * north;
      double g = riseM / planM;
      double surfaceM = planM * Math.sqrt(1 + g * g);
      double timeS = surfaceM / speedMs(g);
      int last = d.moments() - 1;
      assertNull(d.barred());
      assertEquals(timeS, d.timeS(last), 1e-6 * timeS);
      assertEquals(surfaceM, d.distanceM(last), 1e-9 * surfaceM);
      double energyJ = (FLAT_J_PER_M + WEIGHT_N * g) * surfaceM + HOTEL_W * timeS;
      assertEquals(energyJ, d.energyJ(last), 1e-3 * Math.abs(energyJ) + WEIGHT_N * 1e-4);
      for (int i = 1; i < last; i++) {
        double share = Math.hypot((d.row(i) - r0) * 3, (d.col(i) - c0) * 2) / planM;
        assertEquals(share * timeS, d.timeS(i), 1e-6 * timeS);
      }
    }
  }

  /** Of all cells that a long line crosses any one that is closed is found, and no other. */
  @Test
  void aClosedCellEndsTheDriveOfWaysThroughItAlone() {
    SplittableRandom random = new SplittableRandom(8);
    for (int trial = 0; trial < 2000; trial++) {
      double r0 = random.nextDouble(0, 39);
      double c0 = random.nextDouble(0, 49);
      double r1 = random.nextDouble(0, 39);
      double c1 = random.nextDouble(0, 49);
      int shutRow = random.nextInt(40);
      int shutCol = random.nextInt(50);
      int[] bits = new int[SPEC.cells()];
      Arrays.fill(bits, -1);
      bits[shutRow * 50 + shutCol] = 0;
      float[] level = new float[SPEC.cells()];
      TraversalCost field = new TraversalCost(SPEC, bits, level, level, null, null, table());
      Drive d =
          Drive.along(
              new Way(new double[] {r0, r1}, new double[] {c0, c1}, null), field, Floats.of(level));
      // Clipped against the four sides of the cell: what is left of the line lies in it.
      double from = 0;
      double to = 1;
      double[][] sides = {
        {r0 - (shutRow - 0.5), r1 - r0}, {shutRow + 0.5 - r0, r0 - r1},
        {c0 - (shutCol - 0.5), c1 - c0}, {shutCol + 0.5 - c0, c0 - c1}
      };
      for (double[] side : sides) {
        double at = -side[0] / side[1];
        from = side[1] > 0 ? Math.max(from, at) : from;
        to = side[1] < 0 ? Math.min(to, at) : to;
      }
      if (Math.abs(to - from) > 1e-6) {
        assertEquals(to > from, d.barred() != null, trial + ": " + (to - from));
      }
    }
  }

  /** Only the directions between two allowed headings, and these, can be driven. */
  @Test
  void headingsAreHeld() {
    int allowed = 1 << 8 | 1 << 9 | 1 << 24;
    // East is heading 8, one column south for each four east heading 9.
    assertNull(ahead(allowed, 0, 8).barred());
    assertNull(ahead(allowed, 2, 8).barred());
    assertNull(ahead(allowed, 1, 8).barred());
    assertNotNull(ahead(allowed, -1, 8).barred());
    assertNotNull(ahead(allowed, 3, 8).barred());
    assertNull(ahead(allowed, 0, -8).barred());
    assertNotNull(ahead(allowed, 1, -8).barred());
    assertNotNull(ahead(allowed, 8, 0).barred());
  }

  private static Drive ahead(int allowed, int rows, int cols) {
    Way way = new Way(new double[] {20, 20 + rows}, new double[] {25, 25 + cols}, null);
    return Drive.along(way, field(allowed), plane());
  }
}
