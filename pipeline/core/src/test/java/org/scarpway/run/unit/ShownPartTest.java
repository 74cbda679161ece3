package org.scarpway.run.unit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
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
      ShownPart part = ShownPart.of(ends(westM, eastM, middleM), ground);
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
              ends(westM, eastM, middleM), ground.withField(Fields.level(spec, (x, y) -> 1)));
      for (byte shut : all.closed().values()) {
        assertEquals(0, shut);
      }
    }
  }

  private static List<double[]> ends(double westM, double eastM, double yM) {
    return List.of(new double[] {westM, yM}, new double[] {eastM, yM});
  }
}
