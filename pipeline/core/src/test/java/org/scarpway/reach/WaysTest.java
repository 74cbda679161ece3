package org.scarpway.reach;

import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.Costs.Direction;
import org.scarpway.reach.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.MoveField;

/**
 * What a verdict rests on is never less than what a way takes that is really driven, line by line,
 * over allowed headings and their tacks: not where headings are open in windows at random, on
 * square cells and on long ones.
 */
class WaysTest {
  /** Sums are stored as floats and, on free ground between windows, interpolated. */
  private static final double ROUNDING = 0.01;

  @Test
  void sumsAreOfWaysThatAreDriven() {
    for (int seed = 500; seed < 506; seed++) {
      holds(Fields.grid(30, 34, 5, 0, 0), seed);
      holds(new GridSpec(30, 34, 4, 7, 0, 210, ""), seed);
    }
  }

  private static void holds(GridSpec spec, int seed) {
    MoveField field = TraceTest.windows(spec, seed);
    Costs costs = new Costs(field, Quantity.TIME_S, Direction.OUT);
    int source = spec.cells() / 2 + spec.cols() / 2;
    Labels labels = Front.spread(costs, Progress.NONE, source);
    Ways ways = Ways.along(labels, Floats.of(spec.cells(), 0, null), false, null);
    int asked = 0;
    for (int cell = 0; cell < spec.cells(); cell++) {
      if (labels.reached(cell) && cell != source) {
        double driven = Trace.toSource(labels, cell).cost();
        assertTrue(
            ways.timeS(cell) >= (1 - ROUNDING) * driven,
            "seed " + seed + " cell " + cell + ": " + ways.timeS(cell) + " of " + driven);
        asked++;
      }
    }
    assertTrue(asked > 500, "few cells asked: " + asked);
  }
}
