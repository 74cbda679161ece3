package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.TraversalCost;

/** Which cell a place stands on, and what is said where it cannot. */
class StartCellTest {
  private static final Pattern NEAREST =
      Pattern.compile("nearest usable cell is at \\(([-\\d.]+), ([-\\d.]+)\\), (\\d+) m away");

  private static int cell(String what, double x, double y, TraversalCost field, byte limit) {
    byte[] code = new byte[field.spec().cells()];
    Arrays.fill(code, limit);
    ByteGrid limits = limit < 0 ? null : new ByteGrid(field.spec(), code);
    return StartCell.require(what, x, y, "cart", field, limits);
  }

  private static String refused(TraversalCost field, double x, double y) {
    String message =
        assertThrows(UserError.class, () -> cell("base 'b'", x, y, field, Limit.SIDE.code()))
            .getMessage();
    String walked =
        assertThrows(UserError.class, () -> StartCell.requireOnFoot("refuge 'r'", x, y, field))
            .getMessage();
    assertTrue(walked.startsWith("refuge 'r'"), walked);
    return message;
  }

  @Test
  void theNearestUsableCellIsNamed() {
    Random random = new Random(9);
    GridSpec[] specs = {
      new GridSpec(40, 30, 20, 30, 0, 1200, ""),
      new GridSpec(30, 40, 30, 20, 0, 600, ""),
      Fields.grid(33, 37, 100, -500, -800)
    };
    for (int k = 0; k < 30; k++) {
      GridSpec spec = specs[k % 3];
      boolean[] open = new boolean[spec.cells()];
      for (int i = 0; i < 1 + k / 6; i++) {
        open[random.nextInt(open.length)] = true;
      }
      TraversalCost field =
          Fields.level(spec, (x, y) -> open[spec.rowOf(y) * spec.cols() + spec.colOf(x)] ? 1 : 0);
      for (int n = 0; n < 20; n++) {
        int cell = random.nextInt(open.length);
        double x = spec.xM(cell % spec.cols());
        double y = spec.yM(cell / spec.cols());
        if (open[cell]) {
          assertEquals(cell, cell("b", x, y, field, (byte) 0));
          assertEquals(cell, StartCell.requireOnFoot("b", x, y, field));
          continue;
        }
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < open.length; i++) {
          if (open[i]) {
            double dx = spec.xM(i % spec.cols()) - x;
            double dy = spec.yM(i / spec.cols()) - y;
            least = Math.min(least, Math.sqrt(dx * dx + dy * dy));
          }
        }
        String said = refused(field, x, y);
        Matcher m = NEAREST.matcher(said);
        assertTrue(m.find(), said);
        assertEquals(least, Double.parseDouble(m.group(3)), 0.5001, said);
        double nx = Double.parseDouble(m.group(1));
        double ny = Double.parseDouble(m.group(2));
        assertEquals(least, Math.hypot(nx - x, ny - y), 0.2, said);
        assertTrue(open[spec.cellOf(nx, ny)], said);
      }
    }
  }

  @Test
  void whyIsSaid() {
    GridSpec spec = Fields.grid(5, 5, 10, 0, 0);
    TraversalCost barred = Fields.level(spec, (x, y) -> 0);
    String said = refused(barred, 25, 25);
    assertTrue(said.contains("base 'b'") && said.contains("side slope"), said);
    assertTrue(said.contains("no usable ground near it"), said);
    for (byte code : new byte[] {0, -1}) {
      String why =
          assertThrows(UserError.class, () -> cell("b", 25, 25, barred, code)).getMessage();
      assertTrue(why.contains("no heading is allowed"), why);
    }
    String outside =
        assertThrows(UserError.class, () -> StartCell.requireOnFoot("b", 51, 25, barred))
            .getMessage();
    assertTrue(outside.contains("outside") && outside.contains("[0.0, 50.0]"), outside);
  }
}
