package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Stencil;
import org.scarpway.reach.front.TraceTest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Which step a way home of the least need begins with: all steps are gone through in a list here,
 * each with what it asks for, and sorted. What a step crosses and costs is taken from the stencil,
 * which exact solutions hold.
 */
class NeedStepsTest {
  private static final double NONE = Double.POSITIVE_INFINITY;
  private static final int N = 25;
  private static final int BASE = 12 * N + 12;

  private final Random random = new Random(71);
  private TraversalCost field;
  private float[] homeS;
  private CostField labels;
  private int far;
  private int near;

  /** A step and what it asks for (s): at the worst, and if the vehicle does not stop. */
  private record Step(int code, double asksS, double takesS) {
    static final Comparator<Step> BEST =
        Comparator.comparingDouble(Step::asksS)
            .thenComparingDouble(Step::takesS)
            .thenComparingInt(Step::code);
  }

  private void spread(TraversalCost over, float[] walkS) {
    field = over;
    homeS = walkS;
    ReachLimits limits = Fields.limits(HomeRule.WALK_BACK, NONE, NONE, NONE, NONE, 0);
    try (Workers workers = new Workers(1)) {
      Stops stops = new Stops(limits, Floats.of(walkS), null, List.of());
      labels = NeedFront.spread(field, stops, BASE, workers, Progress.NONE);
    }
  }

  /** Null where a step leads off the grid or to no smaller labels. */
  private Step step(int cell, int code) {
    Stencil stencil = labels.stencil();
    if (!stencil.inside(cell, code)) {
      return null;
    }
    double share = stencil.share(labels.costs(), cell, code);
    double here = labels.value(cell);
    double first = labels.value(stencil.first(cell, code));
    double second = share == 0 ? first : labels.value(stencil.second(cell, code));
    if (first >= here || second >= here) {
      return null;
    }
    double costS = stencil.cost(labels.costs(), cell, code);
    double takesS = (1 - share) * first + share * second + costS;
    if (share != 0 && field.allowed(cell) != -1) {
      double throughS = NONE;
      for (int end = 0; end < 2; end++) {
        double toEndS = stencil.cost(labels.costs(), cell, Stencil.toCell(code, end));
        throughS = Math.min(throughS, (end == 0 ? first : second) + stencil.gain(code) * toEndS);
      }
      takesS = Math.max(takesS, throughS);
    }
    double asksS = Math.max(here, takesS);
    for (int which = 0; which < 2; which++) {
      int between = stencil.between(cell, code, which);
      if (between >= 0 && !Float.isNaN(homeS[between])) {
        // Until three quarters of the step are driven the cells between may be stopped in.
        asksS = Math.max(asksS, homeS[between] + 0.75 * costS);
      }
    }
    return new Step(code, asksS, takesS);
  }

  /** The best of the steps to cells and of those to either side of it. */
  private int best(int cell) {
    List<Step> toCells = new ArrayList<>();
    for (int edge = 0; edge < 16; edge++) {
      toCells.add(step(cell, 8 * edge));
    }
    for (int edge = 0; edge < 8; edge++) {
      toCells.add(step(cell, 128 + 4 * edge));
    }
    toCells.removeIf(s -> s == null || !(s.asksS < NONE));
    if (toCells.isEmpty()) {
      return -1;
    }
    Step best = toCells.stream().min(Step.BEST).orElseThrow();
    List<Step> all = new ArrayList<>(List.of(best));
    boolean isFar = best.code < 128;
    int points = isFar ? 8 : 4;
    for (int i = 1; i < points; i++) {
      int behind = best.code - points + i;
      int first = isFar ? 0 : 128;
      int round = isFar ? 128 : 32;
      all.add(step(cell, best.code + i));
      all.add(step(cell, behind < first ? behind + round : behind));
    }
    all.removeIf(s -> s == null);
    return all.stream().min(Step.BEST).orElseThrow().code;
  }

  /** What a drive straight to the base asks for, followed in small pieces (s). */
  private double straightS(int cell) {
    int rows = BASE / N - cell / N;
    int cols = BASE % N - cell % N;
    int pieces = 4000;
    double pieceM = 10 * Math.hypot(rows, cols) / pieces;
    double at = 0;
    double most = homeS[cell];
    int before = cell;
    for (int k = 0; k < pieces; k++) {
      int firstRow = cell / N;
      int row = (int) Math.rint(firstRow + rows * (k + 0.5) / pieces);
      int here = row * N + (int) Math.rint(cell % N + cols * (k + 0.5) / pieces);
      if (field.allowed(here) == 0) {
        return NONE;
      }
      boolean diagonal = here / N != before / N && here % N != before % N;
      boolean squeezed = field.allowed(before / N * N + here % N) == 0;
      squeezed |= field.allowed(here / N * N + before % N) == 0;
      if (diagonal && squeezed) {
        return NONE;
      }
      most = here == before ? most : Math.max(most, at + homeS[here]);
      before = here;
      at += pieceM / field.speedCapMs(here);
    }
    return Math.max(most, at);
  }

  private void stepsAreTheBest(String where) {
    for (int cell = 0; cell < N * N; cell++) {
      int code = labels.stepAt(cell);
      if (labels.reached(cell) && cell != BASE && code != Stencil.STRAIGHT) {
        int best = best(cell);
        if (best >= 0) {
          assertEquals(best, code, where + ", cell " + cell);
        }
        far += code < 128 && code % 8 != 0 ? 1 : 0;
        near += code >= 128 ? 1 : 0;
      }
    }
  }

  private float[] walks(int most) {
    float[] s = new float[N * N];
    for (int i = 0; i < s.length; i++) {
      int rows = i / N - 12;
      int cols = i % N - 12;
      int near = rows * rows + cols * cols;
      s[i] = near <= 2 ? 0 : random.nextInt(5) == 0 ? random.nextInt(most) : (float) near / 4;
    }
    return s;
  }

  @Test
  void onGroundThatIsOpenToAllSides() {
    int straight = 0;
    int bent = 0;
    for (int k = 0; k < 30; k++) {
      GridSpec spec = Fields.grid(N, N, 10, 0, 0);
      float[] speed = new float[N * N];
      for (int i = 0; i < speed.length; i++) {
        boolean closed = k % 3 != 0 && random.nextInt(12) == 0;
        speed[i] = closed ? 0 : k % 3 == 2 ? 1 + random.nextInt(3) : 4;
      }
      for (int i = -1; i <= 1; i++) {
        for (int j = -1; j <= 1; j++) {
          speed[BASE + i * N + j] = 4;
        }
      }
      spread(Fields.level(spec, (x, y) -> speed[spec.cellOf(x, y)]), walks(k % 2 == 0 ? 60 : 300));
      stepsAreTheBest("ground " + k);
      for (int cell = 0; cell < N * N; cell++) {
        int rows = cell / N - 12;
        int cols = cell % N - 12;
        int off = rows * rows + cols * cols;
        if (labels.reached(cell) && off > 0) {
          double more = straightS(cell) - labels.value(cell);
          boolean isStraight = labels.stepAt(cell) == Stencil.STRAIGHT;
          String where = "ground " + k + ", cell " + cell + ": " + more;
          if (off > 100 || more > 0.5) {
            assertTrue(!isStraight, where);
            bent += off <= 100 ? 1 : 0;
          } else if (k % 3 == 0 && more <= 1e-9 && labels.value(cell) == homeS[cell]) {
            // Elsewhere the front may be quicker by a rounding.
            assertTrue(isStraight, where);
            straight++;
          }
        }
      }
    }
    assertTrue(straight > 100 && bent > 1000, straight + " straight, " + bent + " bent");
    assertTrue(far > 1000 && near > 300, far + " far, " + near + " near");
  }

  @Test
  void whereHeadingsAreBarred() {
    for (int k = 0; k < 20; k++) {
      GridSpec spec = new GridSpec(N, N, k % 2 == 0 ? 5 : 4, k % 2 == 0 ? 5 : 7, 0, 0, "");
      spread(TraceTest.windows(spec, 300 + k), walks(60));
      stepsAreTheBest("ground " + k);
    }
    assertTrue(far > 100 && near > 100, far + " far, " + near + " near");
  }
}
