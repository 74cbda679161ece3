package org.scarpway.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.DetouredFields;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/** Which cells a straight line is driven in, how far in each, and how much longer than straight. */
class DriveCellsTest {
  private static final int ROWS = 12;
  private static final int COLS = 15;
  private static final GridSpec SPEC = new GridSpec(ROWS, COLS, 2, 3, 100, 900, "");
  private static final Floats LEVEL = Floats.of(new float[SPEC.cells()]);

  private static GradeTable flat(double speedMs) {
    return new GradeTable(-1, 1, new double[] {speedMs, speedMs}, new double[] {100, 100}, 50, 0);
  }

  /** A speed of 0 bars a cell. */
  private static TraversalCost field(double[] speedMs) {
    int n = SPEC.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    for (int i = 0; i < n; i++) {
      allowed[i] = speedMs[i] > 0 ? -1 : 0;
      cap[i] = (float) speedMs[i];
    }
    return new TraversalCost(SPEC, allowed, new float[n], new float[n], cap, null, flat(1e9));
  }

  private static Drive line(TraversalCost field, double r0, double c0, double r1, double c1) {
    return Drive.along(new Way(new double[] {r0, r1}, new double[] {c0, c1}, null), field, LEVEL);
  }

  /** Share of a line that lies in a cell, clipped against its four sides. */
  private static double share(double r0, double c0, double r1, double c1, int row, int col) {
    double from = 0;
    double to = 1;
    double[][] sides = {
      {r0 - (row - 0.5), r1 - r0}, {row + 0.5 - r0, r0 - r1},
      {c0 - (col - 0.5), c1 - c0}, {col + 0.5 - c0, c0 - c1}
    };
    for (double[] side : sides) {
      double at = -side[0] / side[1];
      from = side[1] > 0 ? Math.max(from, at) : from;
      to = side[1] < 0 ? Math.min(to, at) : to;
    }
    return Math.max(0, to - from);
  }

  @Test
  void everyCellTakesItsShareOfALine() {
    SplittableRandom random = new SplittableRandom(12);
    for (int trial = 0; trial < 500; trial++) {
      double[] speed = new double[SPEC.cells()];
      for (int i = 0; i < speed.length; i++) {
        speed[i] = 0.25 * (1 + random.nextInt(8));
      }
      double r0 = random.nextDouble(0, ROWS - 1);
      double c0 = random.nextDouble(0, COLS - 1);
      double r1 = random.nextDouble(0, ROWS - 1);
      double c1 = random.nextDouble(0, COLS - 1);
      double planM = Math.hypot((r1 - r0) * 3, (c1 - c0) * 2);
      double timeS = 0;
      for (int i = 0; i < speed.length; i++) {
        timeS += share(r0, c0, r1, c1, i / COLS, i % COLS) * planM / speed[i];
      }
      Drive d = line(field(speed), r0, c0, r1, c1);
      int last = d.moments() - 1;
      assertEquals(timeS, d.timeS(last), 1e-6 * timeS + 1e-9);
      assertEquals(planM, d.distanceM(last), 1e-9 * planM);
      assertEquals(100 * planM + 50 * timeS, d.energyJ(last), 1e-6 * (100 * planM + 50 * timeS));
    }
  }

  private static double[] all(double speedMs) {
    double[] speed = new double[SPEC.cells()];
    Arrays.fill(speed, speedMs);
    return speed;
  }

  private static void setRow(double[] speed, int row, double ms) {
    Arrays.fill(speed, row * COLS, (row + 1) * COLS, ms);
  }

  private static void setCol(double[] speed, int col, double ms) {
    for (int r = 0; r < ROWS; r++) {
      speed[r * COLS + col] = ms;
    }
  }

  /** A line along the border of two rows or columns lies in the quicker of both, open or not. */
  @Test
  void aLineAlongABorderLiesInEitherCell() {
    for (double off : new double[] {0, 4e-7, -4e-7}) {
      for (int side = 0; side < 2; side++) {
        for (double other : new double[] {0, 1}) {
          double[] rows = all(2);
          setRow(rows, 5 + side, other);
          assertEquals(16 / 2.0, end(line(field(rows), 5.5 + off, 2, 5.5 + off, 10)), 1e-9);
          double[] cols = all(2);
          setCol(cols, 7 + side, other);
          assertEquals(18 / 2.0, end(line(field(cols), 9, 7.5 + off, 3, 7.5 + off)), 1e-9);
        }
      }
    }
    double[] rows = all(2);
    setRow(rows, 5, 0);
    setRow(rows, 6, 0);
    assertNotNull(line(field(rows), 5.5, 2, 5.5, 10).barred());
    double[] cols = all(2);
    setCol(cols, 7, 0);
    setCol(cols, 8, 0);
    assertNotNull(line(field(cols), 9, 7.5, 3, 7.5).barred());
  }

  private static double end(Drive d) {
    assertNull(d.barred());
    return d.timeS(d.moments() - 1);
  }

  /** Anything else lies in its own cell, though it is not far from the border. */
  @Test
  void aLineBesideABorderLiesInItsOwnCell() {
    for (int side = -1; side <= 1; side += 2) {
      for (double off : new double[] {2e-6, 0.1, 0.3, 0.45}) {
        double[] rows = all(2);
        setRow(rows, side < 0 ? 6 : 5, 0);
        assertNull(line(field(rows), 5.5 + side * off, 2, 5.5 + side * off, 10).barred());
        assertNotNull(line(field(rows), 5.5 - side * off, 2, 5.5 - side * off, 10).barred());
        double[] cols = all(2);
        setCol(cols, side < 0 ? 8 : 7, 0);
        assertNull(line(field(cols), 9, 7.5 + side * off, 3, 7.5 + side * off).barred());
        assertNotNull(line(field(cols), 9, 7.5 - side * off, 3, 7.5 - side * off).barred());
      }
    }
  }

  /** The outer border of the ground belongs to the cells within. */
  @Test
  void theEdgeOfTheGroundCanBeDriven() {
    TraversalCost field = field(all(2));
    assertEquals(8, end(line(field, ROWS - 0.5, 2, ROWS - 0.5, 10)), 1e-9);
    assertEquals(8, end(line(field, -0.5, 2, -0.5, 10)), 1e-9);
    assertEquals(9, end(line(field, 9, COLS - 0.5, 3, COLS - 0.5)), 1e-9);
    assertEquals(9, end(line(field, 9, -0.5, 3, -0.5)), 1e-9);
  }

  /** What touches a line in a point is not driven. */
  @Test
  void cellsBesideACornerAreNotEntered() {
    for (int down = -1; down <= 1; down += 2) {
      double[] speed = all(0);
      for (int i = 0; i <= 6; i++) {
        speed[(6 + down * (i - 3)) * COLS + 4 + i] = 2;
      }
      assertNull(line(field(speed), 6 - 3 * down, 4, 6 + 3 * down, 10).barred());
      assertNull(line(field(speed), 6 + 3 * down, 10, 6 - 3 * down, 4).barred());
    }
  }

  /**
   * Rocks make a way of 1.25, tacks one that grows with the heading: between two headings as the
   * sines of the angles to both say. The surplus gains no height.
   */
  @Test
  void moreIsDrivenThanTheStraightWay() {
    double[] tacked = new double[Headings.COUNT];
    for (int k = 0; k < tacked.length; k++) {
      tacked[k] = 1 + 0.03 * k * k / 32;
    }
    double[] speed = new double[2001];
    double[] traction = new double[2001];
    for (int i = 0; i < speed.length; i++) {
      double g = (i - 1000) / 2000.0;
      speed[i] = 2 - g;
      traction[i] = 300 + 1000 * g;
    }
    GradeTable table = new GradeTable(-0.5, 0.5, speed, traction, 50, 0);
    TraversalCost field = DetouredFields.field(SPEC, 0.1, -0.05, 1.25, tacked, table);
    SplittableRandom random = new SplittableRandom(14);
    for (int trial = 0; trial < 400; trial++) {
      // Every third along one of the headings itself: they lead to the ring four cells away.
      boolean own = trial % 3 == 0;
      int heading = random.nextInt(Headings.COUNT);
      double dr = own ? Headings.dRow(heading) : random.nextDouble(-4, 4);
      double dc = own ? Headings.dCol(heading) : random.nextDouble(-4, 4);
      double east = dc * 2;
      double north = -dr * 3;
      double planM = Math.hypot(east, north);
      double bearing = clockwise(north, east);
      double longer = Double.NaN;
      for (int k = 0; k < Headings.COUNT && Double.isNaN(longer); k++) {
        int next = (k + 1) % Headings.COUNT;
        double low = bearing(k);
        double width = turned(bearing(next) - low);
        double off = own ? (k == heading ? 0 : 9) : turned(bearing - low);
        if (off < width) {
          double share = off == 0 ? 0 : Math.sin(off) / (Math.sin(off) + Math.sin(width - off));
          longer = (1 - share) * tacked[k] + share * tacked[next];
        }
      }
      double g = (0.1 * east - 0.05 * north) / planM;
      double surfaceM = planM * Math.sqrt(1 + g * g);
      double way = 1.25 * longer;
      double timeS = surfaceM * way / (2 - g);
      double energyJ = surfaceM * (300 + 1000 * g + (way - 1) * 300) + 50 * timeS;
      Drive d = line(field, 6, 7, 6 + dr, 7 + dc);
      int last = d.moments() - 1;
      assertEquals(timeS, d.timeS(last), 1e-6 * timeS, "trial " + trial);
      assertEquals(surfaceM * way, d.distanceM(last), 1e-6 * surfaceM, "trial " + trial);
      assertEquals(energyJ, d.energyJ(last), 1e-6 * energyJ, "trial " + trial);
    }
  }

  private static double bearing(int k) {
    return clockwise(-Headings.dRow(k) * 3.0, Headings.dCol(k) * 2.0);
  }

  private static double clockwise(double north, double east) {
    return turned(Math.atan2(east, north));
  }

  private static double turned(double angle) {
    return angle < 0 ? angle + 2 * Math.PI : angle;
  }

  /** Heights between four cells, the cell's own beside ground without any. */
  @Test
  void energyThatBrakingReturnsRestsOnHeights() {
    float[] z = new float[SPEC.cells()];
    for (int i = 0; i < z.length; i++) {
      int row = i / COLS;
      int col = i % COLS;
      z[i] = 5 + 0.5f * row - 0.25f * col + 0.125f * row * col;
    }
    z[0] = Float.NaN;
    GradeTable table = new GradeTable(-1, 1, new double[] {2, 2}, new double[] {0, 0}, 0, 1000);
    int n = SPEC.cells();
    int[] allowed = new int[n];
    Arrays.fill(allowed, -1);
    TraversalCost field =
        new TraversalCost(SPEC, allowed, new float[n], new float[n], null, null, table);
    SplittableRandom random = new SplittableRandom(16);
    for (int trial = 0; trial < 200; trial++) {
      double r0 = random.nextDouble(1, ROWS - 1);
      double c0 = random.nextDouble(1, COLS - 1);
      double r1 = random.nextDouble(1, ROWS - 1);
      double c1 = random.nextDouble(1, COLS - 1);
      Way way = new Way(new double[] {r0, r1}, new double[] {c0, c1}, null);
      Drive d = Drive.along(way, field, Floats.of(z));
      double riseM = heightM(r1, c1) - heightM(r0, c0);
      assertEquals(1000 * riseM, d.energyJ(d.moments() - 1), 1e-2, "trial " + trial);
    }
    Way way = new Way(new double[] {0.7, 5}, new double[] {0.6, 5}, null);
    Drive d = Drive.along(way, field, Floats.of(z));
    assertEquals(1000 * (heightM(5, 5) - heightM(1, 1)), d.energyJ(d.moments() - 1), 1e-2);
  }

  /** A line that is said to lie in a cell is driven as that cell allows. */
  @Test
  void theCellOfALineMayBeGiven() {
    double[] speed = all(2);
    speed[4 * COLS + 5] = 0.5;
    double[] row = {4, 4, 5};
    double[] col = {3, 8, 8};
    Way way = new Way(row, col, new int[] {Way.ANY, 4 * COLS + 5, 5 * COLS + 8});
    Drive d = Drive.along(way, field(speed), LEVEL);
    // 10 m at 0.5 m/s, then 3 m at 2 m/s.
    assertEquals(20, d.timeS(1), 1e-9);
    assertEquals(21.5, d.timeS(2), 1e-9);
    assertEquals(4 * COLS + 5, d.cell(1));
    Way ends = new Way(row, col, new int[] {Way.ANY, Way.ANY, Way.ANY});
    Drive free = Drive.along(ends, field(speed), LEVEL);
    // 8 m of the line at 2 m/s and 2 m at 0.5 m/s.
    assertEquals(4 + 4 + 1.5, end(free), 1e-9);
    assertThrows(
        IllegalArgumentException.class, () -> new Way(row, col, new int[] {Way.ANY, Way.ANY}));
    assertThrows(IllegalArgumentException.class, () -> new Way(row, new double[2], null));
  }

  private static double heightM(double r, double c) {
    return 5 + 0.5 * r - 0.25 * c + 0.125 * r * c;
  }
}
