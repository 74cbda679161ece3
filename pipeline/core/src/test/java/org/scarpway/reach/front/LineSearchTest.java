package org.scarpway.reach.front;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.audit.RouteAudit;
import org.scarpway.audit.Way;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * Lines drawn on ground where the speed drops at once with the grade. The quickest ways take turns
 * between headings there, so the straight line between two of their places may be much slower.
 */
class LineSearchTest {
  private static final int N = 81;
  private static final int BASE = N / 2 * N + N / 2;
  private static final double CELL_M = 5;
  private static final GridSpec SPEC = Fields.grid(N, N, CELL_M, 0, 0);

  /** A plane or hills on it. */
  private static TraversalCost ground(Random random, boolean plane) {
    float[] east = new float[N * N];
    float[] north = new float[N * N];
    double slope = 0.05 + 0.3 * random.nextDouble();
    double aspect = 2 * Math.PI * random.nextDouble();
    double phase = 6 * random.nextDouble();
    double hills = plane ? 0 : 0.1;
    for (int i = 0; i < N * N; i++) {
      double x = i % N;
      double y = i / (double) N;
      east[i] = (float) (slope * Math.cos(aspect) + hills * Math.sin(x / 9 + y / 17 + phase));
      north[i] = (float) (slope * Math.sin(aspect) + hills * Math.cos(y / 11 - x / 23 + phase));
    }
    double from = 0.02 + slope * random.nextDouble();
    double within = 0.001 + 0.01 * random.nextDouble();
    double[] speed = new double[1601];
    for (int i = 0; i < speed.length; i++) {
      double over = (Math.abs(i - 800) / 800.0 - from) / within;
      speed[i] = 0.9 - 0.5 * Math.min(1, Math.max(0, over));
    }
    int[] open = new int[N * N];
    Arrays.fill(open, -1);
    GradeTable table = new GradeTable(-1, 1, speed, new double[speed.length], 0, 0);
    return new TraversalCost(SPEC, open, east, north, null, new byte[N * N], table);
  }

  private static Way way(Trace trace) {
    int[] cells = trace.cells();
    double[] row = Arrays.stream(cells).map(c -> c / N).asDoubleStream().toArray();
    double[] col = Arrays.stream(cells).map(c -> c % N).asDoubleStream().toArray();
    return new Way(row, col, null);
  }

  /**
   * Driven by the audit, a searched line takes no longer than its label by more than half a percent
   * and two cells; lines that are only straightened do.
   */
  @Test
  void searchedLinesTakeTheTimeThatTheLabelsSay() {
    Random random = new Random(41);
    Floats level = Floats.of(new float[N * N]);
    int straightened = 0;
    int searched = 0;
    for (int trial = 0; trial < 16; trial++) {
      TraversalCost field = ground(random, trial % 2 == 0);
      Costs costs = new Costs(field, Quantity.TIME_S, Direction.HOME);
      CostField labels = Front.spread(costs, Progress.NONE, BASE);
      for (int n = 0; n < 40; n++) {
        int cell = random.nextInt(N * N);
        double cells = Math.hypot(cell / N - N / 2, cell % N - N / 2);
        double saidS = labels.value(cell) * (1.005 + 2 / Math.max(2, cells)) / 1.001;
        String[] fault = new String[Trace.Drawn.values().length];
        for (Trace.Drawn drawn : Trace.Drawn.values()) {
          Trace trace = Trace.toSource(labels, cell, c -> true, drawn);
          fault[drawn.ordinal()] = RouteAudit.of(way(trace), field, level, saidS, Double.NaN, 0);
        }
        assertEquals("", fault[Trace.Drawn.SEARCHED.ordinal()], "ground " + trial + " " + cell);
        boolean slower = Arrays.stream(fault).filter(f -> !f.isEmpty()).count() == 3;
        straightened += slower ? 1 : 0;
        searched++;
      }
    }
    assertTrue(straightened > 5 && searched == 640, straightened + " slower of " + searched);
  }
}
