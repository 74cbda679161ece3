package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.StepCodes;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.TraversalCost;

class NextCellTest {
  /**
   * On ground with windows of open headings and barriers every label has a way by its codes, made
   * of steps that may be driven and that together cost no more than the bound of {@link
   * Stencil#gain} allows.
   */
  @Test
  void everyLabelHasAWayByCodesThatMayBeDriven() {
    int followed = 0;
    for (int seed = 0; seed < 8; seed++) {
      GridSpec spec =
          seed % 2 == 0 ? Fields.grid(30, 34, 5, 0, 0) : new GridSpec(30, 34, 4, 7, 0, 210, "");
      TraversalCost field = TraceTest.windows(spec, 700 + seed);
      Direction direction = Direction.values()[seed / 2 % 2];
      int source = spec.cells() / 2 + spec.cols() / 2;
      CostField labels =
          Front.spread(new Costs(field, Quantity.TIME_S, direction), Progress.NONE, source);
      double gain = labels.stencil().leastGain();
      Line line = new Line(spec);
      for (int cell = 0; cell < spec.cells(); cell++) {
        int[] way = StepCodes.follow(spec, c -> NextCell.code(labels, c), cell, source);
        assertEquals(labels.reached(cell), way.length > 0);
        if (way.length > 0) {
          assertEquals(cell, way[0]);
          assertEquals(source, way[way.length - 1]);
          double cost = 0;
          for (int i = 1; i < way.length; i++) {
            cost += line.between(way[i - 1], way[i]).cost(labels.costs());
          }
          assertTrue(cost <= labels.value(cell) / gain * (1 + 1e-6), seed + " cell " + cell);
          followed++;
        }
      }
    }
    assertTrue(followed > 2000, followed + " ways");
  }

  /** Step by step to any cell, along the line and never past it. */
  @Test
  void stepsTowardsACellArrive() {
    for (int rows = -15; rows <= 15; rows++) {
      for (int cols = -15; cols <= 15; cols++) {
        int r = rows;
        int c = cols;
        for (int n = 0; n < 16 && (r != 0 || c != 0); n++) {
          byte code = NextCell.towards(r, c);
          double before = Math.hypot(r, c);
          r -= StepCodes.rows(code);
          c -= StepCodes.cols(code);
          assertTrue(Math.hypot(r, c) < before, rows + ", " + cols);
        }
        assertEquals(0, Math.abs(r) + Math.abs(c), rows + ", " + cols);
      }
    }
  }

  @Test
  void aCodeIsTheCellItNames() {
    assertEquals(-2, StepCodes.rows(1));
    assertEquals(0, StepCodes.cols(1));
    assertEquals(-1, StepCodes.rows(1 + Stencil.FAR));
    for (int code = 1; code <= StepCodes.CELLS; code++) {
      int far = Math.max(Math.abs(StepCodes.rows(code)), Math.abs(StepCodes.cols(code)));
      assertEquals(code <= Stencil.FAR ? 2 : 1, far);
      for (int other = 1; other < code; other++) {
        assertFalse(
            StepCodes.rows(code) == StepCodes.rows(other)
                && StepCodes.cols(code) == StepCodes.cols(other));
      }
    }
  }

  /** A broken raster, such as one whose steps run in a circle, has no way. */
  @Test
  void codesThatRunInACircleEnd() {
    GridSpec spec = Fields.grid(3, 4, 5, 0, 0);
    int east = 0;
    int west = 0;
    for (int code = 1 + Stencil.FAR; code <= StepCodes.CELLS; code++) {
      boolean level = StepCodes.rows(code) == 0;
      east = level && StepCodes.cols(code) == 1 ? code : east;
      west = level && StepCodes.cols(code) == -1 ? code : west;
    }
    int[] turn = {east, west};
    assertEquals(0, StepCodes.follow(spec, c -> turn[c % 2], 4, 0).length);
    assertEquals(0, StepCodes.follow(spec, c -> 0, 4, 0).length);
  }
}
