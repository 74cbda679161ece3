package org.scarpway.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/** 400 m of level road at 2 m/s, for 100 J/m and 50 W: 200 s and 50 000 J. */
class RouteAuditTest {
  private static final GridSpec SPEC = new GridSpec(1, 401, 1, 1, 0, 1, "");

  private static String of(int shut, double saidS, double saidJ) {
    int[] allowed = new int[SPEC.cells()];
    Arrays.fill(allowed, -1);
    if (shut >= 0) {
      allowed[shut] = 0;
    }
    float[] level = new float[SPEC.cells()];
    double[] speed = {2, 2};
    double[] traction = {100, 100};
    TraversalCost road =
        new TraversalCost(
            SPEC, allowed, level, level, null, null, new GradeTable(-1, 1, speed, traction, 50, 0));
    Way way = new Way(new double[] {0, 0}, new double[] {0, 400}, null);
    return RouteAudit.of(way, road, Floats.of(level), saidS, saidJ, 50_000);
  }

  /** A way of one place takes nothing, which is not more than nothing. */
  @Test
  void nothingIsEnoughForNoWay() {
    GridSpec spec = new GridSpec(1, 2, 1, 1, 0, 1, "");
    double[] two = {2, 2};
    TraversalCost field =
        new TraversalCost(
            spec,
            new int[] {-1, -1},
            new float[2],
            new float[2],
            null,
            null,
            new GradeTable(-1, 1, two, two, 50, 0));
    Way still = new Way(new double[] {0}, new double[] {0}, null);
    assertEquals("", RouteAudit.of(still, field, Floats.of(new float[2]), 0, 0, 0));
  }

  @Test
  void lessThanItTakesIsFound() {
    assertEquals("", of(-1, 200, 50_000));
    assertEquals("", of(-1, 230, 60_000));
    assertEquals("takes 200.00 s, not 199.00 s", of(-1, 199, 50_000));
    assertEquals("takes 50000 J, not 49500 J", of(-1, 200, 49_500));
    // A thousandth is rounding.
    assertEquals("", of(-1, 199.81, 49_951));
    assertEquals("takes 200.00 s, not 199.79 s", of(-1, 199.79, 50_000));
    assertEquals("takes 50000 J, not 49949 J", of(-1, 200, 49_949));
    assertEquals("", of(-1, 200, Double.NaN));
    assertTrue(of(300, 200, 50_000).endsWith("not allowed in row 0.00, column 300.50"));
  }
}
