package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.TraversalCost;

/** Which cells have a way at all, told by a front that has stopped early. */
class ConnectedGroundTest {
  private static CostField stopped(
      TraversalCost field, Direction direction, double budgetS, int source) {
    Front front = Front.from(new Costs(field, Quantity.TIME_S, direction), budgetS, source);
    front.work(Progress.NONE);
    return front.labels();
  }

  private static BitSet reached(CostField labels) {
    BitSet reached = new BitSet();
    for (int i = 0; i < labels.costs().field().spec().cells(); i++) {
      reached.set(i, labels.reached(i));
    }
    return reached;
  }

  /** With every heading open the four neighbours join what is joined. */
  @Test
  void onFreeHeadingsItIsWhatNeighboursJoin() {
    Random random = new Random(4);
    int rows = 60;
    int cols = 47;
    int source = 30 * cols + 20;
    for (int k = 0; k < 6; k++) {
      boolean[] open = new boolean[rows * cols];
      for (int i = 0; i < open.length; i++) {
        open[i] = i == source || random.nextInt(10) < 7;
      }
      GridSpec spec = new GridSpec(rows, cols, 2, 3, 0, 3 * rows, "");
      TraversalCost field =
          Fields.level(spec, (x, y) -> open[spec.rowOf(y) * cols + spec.colOf(x)] ? 1 : 0);
      BitSet expected = new BitSet();
      int[] waiting = new int[4 * open.length + 1];
      int n = 1;
      waiting[0] = source;
      while (n > 0) {
        int cell = waiting[--n];
        if (open[cell] && !expected.get(cell)) {
          expected.set(cell);
          int col = cell % cols;
          int[] around = {
            cell - cols, cell + cols, col > 0 ? cell - 1 : -1, col < cols - 1 ? cell + 1 : -1
          };
          for (int to : around) {
            if (to >= 0 && to < open.length) {
              waiting[n++] = to;
            }
          }
        }
      }
      for (Direction d : Direction.values()) {
        CostField labels = stopped(field, d, 20, source);
        assertTrue(reached(labels).cardinality() < expected.cardinality());
        assertEquals(expected, ConnectedGround.of(labels), "ground " + k + " " + d);
      }
    }
  }

  /** Where headings are open in windows it is what the same front comes to that does not stop. */
  @Test
  void inWindowsItIsWhatTheWholeFrontComesTo() {
    int more = 0;
    for (int seed = 0; seed < 8; seed++) {
      GridSpec spec = new GridSpec(50, 40, 3, 2, 0, 150, "");
      TraversalCost field = TraceTest.windows(spec, seed);
      int source = 25 * 40 + 20;
      for (Direction d : Direction.values()) {
        BitSet whole = reached(stopped(field, d, Double.POSITIVE_INFINITY, source));
        CostField labels = stopped(field, d, 15, source);
        assertEquals(whole, ConnectedGround.of(labels), "seed " + seed + " " + d);
        more += whole.cardinality() - reached(labels).cardinality();
      }
    }
    assertTrue(more > 5000, more + " cells found");
  }

  /** More cells at a time than are looked after at first. */
  @Test
  void wideGround() {
    GridSpec spec = Fields.grid(600, 600, 1, 0, 0);
    TraversalCost field = Fields.level(spec, (x, y) -> 1);
    CostField labels = stopped(field, Direction.OUT, 5, 300 * 600 + 300);
    assertEquals(spec.cells(), ConnectedGround.of(labels).cardinality());
  }

  /** Ways out and home differ where headings are one way. */
  @Test
  void oneWayGroundLeadsOutAndNotHome() {
    GridSpec spec = Fields.grid(30, 90, 1, 0, 0);
    int n = spec.cells();
    int[] allowed = new int[n];
    float[] cap = new float[n];
    for (int i = 0; i < n; i++) {
      // East and up to four headings to either side from column 50 on.
      allowed[i] = i % 90 < 50 ? -1 : 0x1FF << 4;
      cap[i] = 1;
    }
    TraversalCost field =
        new TraversalCost(
            spec, allowed, new float[n], new float[n], cap, new byte[n], Fields.constant(1));
    int source = 15 * 90 + 10;
    BitSet out = ConnectedGround.of(stopped(field, Direction.OUT, 6, source));
    BitSet home = ConnectedGround.of(stopped(field, Direction.HOME, 6, source));
    assertEquals(n, out.cardinality());
    for (int i = 0; i < n; i++) {
      assertEquals(i % 90 < 50, home.get(i), "cell " + i);
    }
  }
}
