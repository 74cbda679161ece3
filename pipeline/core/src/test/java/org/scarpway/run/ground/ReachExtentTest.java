package org.scarpway.run.ground;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;

class ReachExtentTest {
  private static final GridSpec SPEC = new GridSpec(400, 600, 5, 5, -1500, 1000, "");

  private static double cells(double xM, double yM, double radiusM) {
    return ReachExtent.cellsWithin(SPEC, xM, yM, radiusM);
  }

  @Test
  void circlesByTheirArea() {
    double whole = Math.PI * 500 * 500 / 25;
    assertEquals(whole, cells(0, 0, 500), 0.001 * whole);
    assertEquals(whole / 2, cells(-1500, 0, 500), 0.001 * whole);
    assertEquals(whole / 4, cells(1500, 1000, 500), 0.002 * whole);
  }

  @Test
  void neverMoreThanTheGroundNorLessThanTheBase() {
    assertEquals(240_000, cells(0, 0, 1e5), 1e-6);
    assertEquals(240_000, cells(0, 0, Double.POSITIVE_INFINITY), 1e-6);
    assertEquals(1, cells(0, 0, 0), 1e-6);
  }
}
