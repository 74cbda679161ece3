package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.vehicle.TraversalCost;

/** Bounds on steps against the cost of every step from every cell, on random ground. */
class StepBoundTest {
  @Test
  void noStepCostsLess() {
    Random random = new Random(5);
    int close = 0;
    for (int k = 0; k < 60; k++) {
      TraversalCost field = StepCostsTest.field(random);
      Costs costs =
          new Costs(field, Quantity.values()[k % 3], k % 2 == 0 ? Direction.OUT : Direction.HOME);
      Stencil stencil = new Stencil(field.spec());
      int rows = field.spec().rows();
      int cols = field.spec().cols();
      int from = random.nextInt(rows);
      int to = from + 1 + random.nextInt(rows - from);
      StepBound bound = new StepBound(costs, from, to);
      StepBound all = new StepBound(costs, 0, rows);
      for (int cell = from * cols; cell < to * cols; cell++) {
        double perM = bound.perM(cell);
        assertEquals(all.perM(cell), perM, 0, "whatever the rows");
        for (int code = 0; code < Stencil.CORNER_CODES; code++) {
          if (stencil.inside(cell, code)) {
            double cost = stencil.cost(costs, cell, code);
            double least = perM * stencil.lengthM(code);
            assertTrue(least <= cost, "ground " + k + ", step " + code + ": " + cost);
            close += cost < 1.2 * least ? 1 : 0;
          }
        }
      }
    }
    assertTrue(close > 10_000, "steps close to their bound: " + close);
  }
}
