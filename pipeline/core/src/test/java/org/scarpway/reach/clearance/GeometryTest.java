package org.scarpway.reach.clearance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.reach.front.BucketQueue;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Line;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** Lines, clearances and the queue against plain definitions. */
class GeometryTest {

  @Test
  void lineSharesItsLengthAmongTheCellsItCrosses() {
    GridSpec spec = Fields.grid(40, 40, 1, 0, 0);
    Line line = new Line(spec);
    Random random = new Random(4);
    for (int n = 0; n < 300; n++) {
      int a = random.nextInt(1600);
      int b = random.nextInt(1600);
      line.between(a, b);
      double from = 0;
      for (int i = 0; i < line.count(); i++) {
        double middle = (from + line.until(i)) / 2;
        int row = (int) Math.floor(row(a) + 0.5 + middle * (row(b) - row(a)));
        int col = (int) Math.floor(a % 40 + 0.5 + middle * (b % 40 - a % 40));
        if (line.until(i) - from > 1e-9) {
          assertEquals(row * 40 + col, line.cell(i), a + " to " + b);
        }
        from = line.until(i);
      }
      assertEquals(1, from);
      assertEquals(b, line.cell(line.count() - 1));
    }
  }

  private static int row(int cell) {
    return cell / 40;
  }

  @Test
  void headingsOfLinesAreTheHeadingsOfTheGrid() {
    for (int k = 0; k < Headings.COUNT; k++) {
      assertEquals(k, Line.headingOf(Headings.dRow(k), Headings.dCol(k)));
      assertEquals(k, Line.headingOf(5 * Headings.dRow(k), 5 * Headings.dCol(k)));
    }
    assertEquals(0.5, Line.headingOf(-8, 1));
    assertEquals(31.5, Line.headingOf(-8, -1));
  }

  @Test
  void lineCostsTheMeanOfItsCells() {
    GridSpec spec = Fields.grid(1, 3, 2, 0, 0);
    TraversalCost field = Fields.level(spec, (x, y) -> x < 2 ? 1 : x < 4 ? 2 : 0.5);
    Costs c = new Costs(field, Quantity.TIME_S, Direction.OUT);
    assertEquals(1 + 1 + 2, new Line(spec).between(2, 0).cost(c), 1e-9);
  }

  @Test
  void clearanceIsTheNearestBarrier() {
    GridSpec spec = new GridSpec(23, 31, 2, 3, 0, 69, "");
    Random random = new Random(8);
    boolean[] barrier = new boolean[spec.cells()];
    for (int i = 0; i < 25; i++) {
      barrier[random.nextInt(spec.cells())] = true;
    }
    TraversalCost field = Fields.level(spec, (x, y) -> barrier[spec.cellOf(x, y)] ? 0 : 1);
    Clearance clearance;
    try (Workers workers = new Workers(2)) {
      clearance = Clearance.of(field, workers);
    }
    for (int i = 0; i < spec.cells(); i++) {
      double least = Double.POSITIVE_INFINITY;
      for (int k = 0; k < spec.cells(); k++) {
        if (barrier[k]) {
          double cols = Math.max(0, Math.abs(i % 31 - k % 31) - 0.5);
          double rows = Math.max(0, Math.abs(i / 31 - k / 31) - 0.5);
          least = Math.min(least, Math.hypot(cols * 2, rows * 3));
        }
      }
      assertEquals(barrier[i] ? 0 : 2 * least, clearance.widthM(i), 1e-4);
    }
  }

  @Test
  void widestWayGoesThroughTheWidestGap() {
    GridSpec spec = Fields.grid(60, 60, 1, 0, 0);
    // A wall with gaps of 3 and 7 cells.
    TraversalCost field =
        Fields.level(
            spec,
            (x, y) -> Math.floor(x) == 30 && !(y > 10 && y < 13) && !(y > 40 && y < 47) ? 0 : 1);
    float[] gapM = new float[spec.cells()];
    try (Workers workers = new Workers(1)) {
      WidestPaths.spread(
          Clearance.of(field, workers), field, spec.cellOf(10.5, 43.5), Floats.of(gapM), workers);
    }
    assertEquals(7, gapM[spec.cellOf(50.5, 12.5)], 1e-6);
    assertTrue(gapM[spec.cellOf(12.5, 43.5)] > 20);
    assertTrue(Float.isNaN(gapM[spec.cellOf(30.5, 30.5)]));
  }

  @Test
  void withoutBarriersNothingIsNarrow() {
    GridSpec spec = Fields.grid(30, 40, 1, 0, 0);
    TraversalCost field = Fields.level(spec, (x, y) -> 1);
    try (Workers workers = new Workers(1)) {
      float[] gapM = new float[spec.cells()];
      WidestPaths.spread(Clearance.of(field, workers), field, 5, Floats.of(gapM), workers);
      assertEquals(50, gapM[777]);
    }
  }

  @Test
  void queueGivesBucketsInOrderHoweverFarApart() {
    double[] key = new double[5000];
    BucketQueue queue = new BucketQueue(key, 0.5);
    Random random = new Random(2);
    for (int i = 0; i < key.length; i++) {
      key[i] = Math.exp(40 * random.nextDouble());
      queue.add(i);
    }
    double last = 0;
    int taken = 0;
    for (int i = queue.poll(); i >= 0; i = queue.poll()) {
      assertTrue(key[i] >= last - 0.5);
      last = Math.max(last, key[i]);
      taken++;
    }
    assertEquals(key.length, taken);
    assertEquals(-1, queue.poll());
  }
}
