package org.scarpway.run.replan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReplanRequest;
import org.scarpway.reach.question.ReplanResult;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.vehicle.TraversalCost;

/** Closed ground stays closed on the map of the sheet, however long the way home is. */
class ShownPartTest {
  @Test
  void noClosedCellIsDrawnOpen() {
    Random random = new Random(13);
    for (int cols : new int[] {90, 1600, 3200, 4700}) {
      GridSpec spec = Fields.grid(40, cols, 10, 0, 0);
      BitSet open = new BitSet();
      open.set(0, spec.cells());
      for (int i = 0; i < 40; i++) {
        open.clear(random.nextInt(spec.cells()));
      }
      TraversalCost field = Fields.level(spec, (x, y) -> 1).within(open);
      TraversalInput ground = Fields.ground(field, new FloatGrid(spec, new float[spec.cells()]));
      double westM = spec.westM() + 5;
      double eastM = spec.eastM() - 5;
      double middleM = (spec.southM() + spec.northM()) / 2;
      ShownPart part = ShownPart.of(answer(westM, eastM, middleM), ground);
      GridSpec shown = part.closed().spec();
      int closed = 0;
      for (int cell = 0; cell < spec.cells(); cell++) {
        int at = shown.cellOf(spec.xM(cell % cols), spec.yM(cell / cols));
        if (at >= 0 && field.allowed(cell) == 0) {
          assertEquals(1, part.closed().values()[at], cols + " columns, cell " + cell);
          closed++;
        }
      }
      assertTrue(closed > 30, closed + " closed cells");
      ShownPart all =
          ShownPart.of(
              answer(westM, eastM, middleM), ground.withField(Fields.level(spec, (x, y) -> 1)));
      for (byte shut : all.closed().values()) {
        assertEquals(0, shut);
      }
    }
  }

  private static ReplanResult answer(double crewXM, double baseXM, double yM) {
    ReachRequest q =
        Fields.request(
            "q",
            "b",
            baseXM,
            yM,
            new Budget(1.0, null, null),
            HomeRule.DRIVE_BACK,
            List.of(),
            0,
            true);
    ReplanRequest r =
        new ReplanRequest(
            q, crewXM, yM, new Left(1.0, null, null, null), List.of(), true, Quantity.TIME_S);
    return new ReplanResult(
        r,
        "cart",
        (byte) 0,
        "no way home",
        null,
        false,
        List.of(),
        null,
        List.of(),
        List.of(),
        List.of(),
        List.of());
  }
}
