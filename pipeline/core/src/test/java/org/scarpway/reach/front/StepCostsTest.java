package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.vehicle.TraversalCost;

/** Costs of steps read together against those of each quantity by itself, bit for bit. */
class StepCostsTest {
  private static final int SIDE = 9;

  /** Gentle or steep, with barriers, barred headings and grades beyond the tables. */
  static TraversalCost field(Random random) {
    GridSpec spec = new GridSpec(SIDE, SIDE, 5, random.nextBoolean() ? 5 : 4, 0, 40, "");
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] east = new float[n];
    float[] north = new float[n];
    float[] cap = new float[n];
    double steep = random.nextInt(3) == 0 ? 2 : 0.4;
    int barred = 1 + random.nextInt(4);
    for (int i = 0; i < n; i++) {
      boolean some = random.nextInt(4) < barred;
      int mostly = random.nextInt();
      mostly |= random.nextInt();
      allowed[i] = random.nextInt(10) == 0 ? 0 : some ? mostly : -1;
      east[i] = (float) (steep * random.nextGaussian());
      north[i] = (float) (steep * random.nextGaussian());
      cap[i] = random.nextInt(3) == 0 ? Float.POSITIVE_INFINITY : 1 + 2 * random.nextFloat();
    }
    return new TraversalCost(
        spec, allowed, east, north, cap, new byte[n], FrontTest.regenerating());
  }

  @Test
  void togetherTheyAreThoseOfEachAlone() {
    Random random = new Random(3);
    int finite = 0;
    int corners = 0;
    for (int k = 0; k < 60; k++) {
      TraversalCost field = field(random);
      Direction direction = k % 2 == 0 ? Direction.OUT : Direction.HOME;
      Stencil stencil = new Stencil(field.spec());
      boolean hasEnergy = k % 3 > 0;
      StepCosts steps = new StepCosts(field, direction, hasEnergy, stencil);
      Costs[] alone = {
        new Costs(field, Quantity.TIME_S, direction),
        new Costs(field, Quantity.DISTANCE_M, direction),
        new Costs(field, Quantity.ENERGY_J, direction)
      };
      assertEquals(hasEnergy ? 3 : 2, steps.count());
      for (int cell = 0; cell < field.spec().cells(); cell++) {
        for (int code = 0; code < Stencil.CODES; code++) {
          int edge = code - Stencil.CORNER_CODES;
          if (!stencil.inside(cell, edge < 0 ? code : edge * Stencil.EIGHTHS + 1)) {
            continue;
          }
          double share = stencil.share(steps.of(0), cell, code);
          double[] together = steps.of(cell, code, share);
          for (int q = 0; q < steps.count(); q++) {
            double expected = stencil.cost(alone[q], cell, code, share);
            assertEquals(expected, together[q], 0, "ground " + k + ", step " + code);
            finite += expected < Double.POSITIVE_INFINITY ? 1 : 0;
            corners += code >= Stencil.CORNER_CODES && !Double.isNaN(share) ? 1 : 0;
          }
        }
      }
    }
    assertTrue(finite > 100_000 && corners > 100, finite + " finite, " + corners + " corners");
  }
}
