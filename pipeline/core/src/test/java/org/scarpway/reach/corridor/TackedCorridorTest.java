package org.scarpway.reach.corridor;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.CorridorRequest;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.Reserves;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.VehicleParts;

/** Lines drawn in tacks on ground where few headings are open, against their own corridors. */
class TackedCorridorTest {
  private static final int N = 24;
  private static final GridSpec SPEC = Fields.grid(N, N, 1, -0.5, -0.5);

  /** Two or three headings, most of them nearly opposite, everywhere but in some open cells. */
  private static TraversalCost ground(Random random) {
    int first = random.nextInt(32);
    int bits = 1 << first;
    bits |= 1 << ((first + 10 + random.nextInt(6)) & 31);
    bits |= random.nextBoolean() ? 1 << ((first + 24) & 31) : 0;
    int[] allowed = new int[N * N];
    float[] cap = new float[N * N];
    Arrays.fill(cap, 1);
    for (int i = 0; i < allowed.length; i++) {
      allowed[i] = random.nextInt(12) == 0 ? -1 : random.nextInt(60) == 0 ? 0 : bits;
    }
    return new TraversalCost(
        SPEC,
        allowed,
        new float[N * N],
        new float[N * N],
        cap,
        new byte[N * N],
        Fields.constant(1));
  }

  /** True if a cell that meets at a point, to within a thousandth, is in the corridor. */
  private static boolean inside(FloatGrid excess, ProfilePoint p) {
    for (double east : new double[] {-1e-3, 1e-3}) {
      for (double north : new double[] {-1e-3, 1e-3}) {
        int cell = SPEC.cellOf(p.xM() + east, p.yM() + north);
        if (cell >= 0 && !Float.isNaN(excess.values()[cell])) {
          return true;
        }
      }
    }
    return false;
  }

  @Test
  void everyPointOfALineLiesInItsCorridor() {
    Random random = new Random(83);
    int lines = 0;
    int swings = 0;
    try (Workers workers = new Workers(1)) {
      for (int n = 0; n < 400; n++) {
        TraversalCost field = ground(random);
        int a = random.nextInt(N * N);
        int b = random.nextInt(N * N);
        CorridorRequest q =
            new CorridorRequest(
                "c",
                List.of(
                    Questions.stop("a", SPEC.xM(a % N), SPEC.yM(a / N)),
                    Questions.stop("b", SPEC.xM(b % N), SPEC.yM(b / N))),
                false,
                Cost.values()[random.nextInt(2) * 2],
                List.of(2.0),
                0,
                50,
                0,
                Reserves.NONE,
                null);
        CorridorResult r;
        try {
          r =
              CorridorSolver.solve(
                  q,
                  Fields.ground(
                      field,
                      FloatGrid.empty(SPEC),
                      Fields.cart(1, 0.0, null, VehicleParts.crew(2, 4, null))),
                  workers,
                  Progress.NONE);
        } catch (UserError e) {
          continue;
        }
        lines++;
        for (ProfilePoint p : r.centreline()) {
          int at = SPEC.cellOf(p.xM(), p.yM());
          swings += r.centreline().size() > 50 ? 1 : 0;
          assertTrue(
              inside(r.excessPct(), p) || field.allowed(at) == 0,
              "ground " + n + ": " + p.xM() + " " + p.yM());
        }
      }
    }
    assertTrue(lines > 100 && swings > 1000, lines + " lines, " + swings + " points in tacks");
  }
}
