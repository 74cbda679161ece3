package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.Stencil;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * Cells around the base that a straight line ties to it, on even ground of random heights and
 * random soils: the line is followed here in small pieces, cell after cell.
 */
class PathSumsOnStraightLinesTest {
  private static final double NONE = Double.POSITIVE_INFINITY;
  private static final int N = 23;
  private static final int BASE = 11 * N + 11;
  private static final GridSpec SPEC = Fields.grid(N, N, 8, 0, 0);
  private static final int PIECES = 4000;
  private static final double HOTEL_W = 25;
  private static final double RISE_J_PER_M = 3000;

  private final Random random = new Random(41);
  private final double[] speedMs = new double[N * N];
  private final float[] heightM = new float[N * N];
  private final float[] stopS = new float[N * N];
  private TraversalCost field;

  private record Run(int cell, double timeS, double lengthM) {}

  private void draw() {
    for (int i = 0; i < N * N; i++) {
      speedMs[i] = 1 + random.nextInt(3);
      heightM[i] = random.nextInt(400) / 100f;
      stopS[i] = i == BASE ? 0 : random.nextInt(60);
    }
    double[] fast = new double[81];
    double[] traction = new double[81];
    Arrays.fill(fast, 1e9);
    for (int i = 0; i < 81; i++) {
      traction[i] = 200 + RISE_J_PER_M * (i - 40) / 80;
    }
    float[] cap = new float[N * N];
    int[] allowed = new int[N * N];
    Arrays.fill(allowed, -1);
    for (int i = 0; i < N * N; i++) {
      cap[i] = (float) speedMs[i];
    }
    GradeTable table = new GradeTable(-0.5, 0.5, fast, traction, HOTEL_W, RISE_J_PER_M);
    field = new TraversalCost(SPEC, allowed, new float[N * N], new float[N * N], cap, null, table);
  }

  private CostField front(Direction direction) {
    return Front.spread(new Costs(field, Quantity.TIME_S, direction), Progress.NONE, BASE);
  }

  /** The cells on the line from the base, in order. */
  private Run[] runs(int cell) {
    Run[] all = new Run[3 * N];
    int n = 0;
    int rows = cell / N - 11;
    int cols = cell % N - 11;
    double pieceM = 8 * Math.hypot(rows, cols) / PIECES;
    for (int k = 0; k < PIECES; k++) {
      int row = (int) Math.rint(11 + rows * (k + 0.5) / PIECES);
      int here = row * N + (int) Math.rint(11 + cols * (k + 0.5) / PIECES);
      double s = pieceM / speedMs[here];
      if (n > 0 && all[n - 1].cell == here) {
        Run before = all[--n];
        all[n++] = new Run(here, before.timeS + s, before.lengthM + pieceM);
      } else {
        all[n++] = new Run(here, s, pieceM);
      }
    }
    return Arrays.copyOf(all, n);
  }

  private static double driveJ(Run run) {
    return 200 * run.lengthM + HOTEL_W * run.timeS;
  }

  private static boolean straight(CostField labels, int cell) {
    return cell != BASE && labels.stepAt(cell) == Stencil.STRAIGHT;
  }

  /** Somebody who stops just before a cell is left is home by then and what it takes from there. */
  @Test
  void aCellCountsUntilItIsLeft() {
    ReachLimits limits = Fields.limits(HomeRule.WALK_BACK, NONE, NONE, NONE, NONE, HOTEL_W);
    int asked = 0;
    int between = 0;
    for (int k = 0; k < 16; k++) {
      draw();
      Direction direction = Direction.values()[k % 2];
      CostField labels = front(direction);
      Stops stops = new Stops(limits, Floats.of(stopS), null, List.of());
      PathSums ways = PathSums.along(labels, Floats.of(heightM), false, stops);
      for (int cell = 0; cell < N * N; cell++) {
        if (straight(labels, cell)) {
          Run[] runs = runs(cell);
          double wholeS = Arrays.stream(runs).mapToDouble(Run::timeS).sum();
          // Out the far end is arrived at, home it is left from its middle on.
          double atEndS = stopS[cell] + (direction == Direction.OUT ? wholeS : 0);
          double most = Math.max(wholeS, atEndS);
          double soFarS = 0;
          for (int i = 0; i < runs.length - 1; i++) {
            // Towards the base a cell is left where it is entered on the way out.
            double leftS = direction == Direction.OUT ? soFarS + runs[i].timeS : wholeS - soFarS;
            most = Math.max(most, leftS + stopS[runs[i].cell]);
            soFarS += runs[i].timeS;
          }
          double told = direction == Direction.OUT ? ways.latestS(cell) : ways.needS(cell);
          assertEquals(most, told, 0.02, direction + ", cell " + cell);
          assertEquals(wholeS, ways.timeS(cell), 0.02);
          asked++;
          between += most > Math.max(wholeS, atEndS) + 1 ? 1 : 0;
        }
      }
    }
    assertTrue(asked > 150 && between > 100, asked + " asked, " + between + " between");
  }

  /** A battery that takes nothing when it is full, and a vehicle that waits where it stops. */
  @Test
  void energyIsFollowedFromCellToCell() {
    ReachLimits limits = Fields.limits(HomeRule.BASE_RESCUE, NONE, NONE, NONE, NONE, HOTEL_W);
    int full = 0;
    int waits = 0;
    for (int k = 0; k < 16; k++) {
      draw();
      float[] waitS = stopS.clone();
      for (int i = 0; i < waitS.length; i++) {
        waitS[i] *= i == BASE ? 0 : 8;
      }
      Floats none = Floats.of(new float[N * N]);
      Stops stops = new Stops(limits, none, Floats.of(waitS), List.of());
      CostField out = front(Direction.OUT);
      CostField home = front(Direction.HOME);
      PathSums outWays = PathSums.along(out, Floats.of(heightM), true, null);
      PathSums homeWays = PathSums.along(home, Floats.of(heightM), true, stops);
      for (int cell = 0; cell < N * N; cell++) {
        Run[] runs = straight(out, cell) || straight(home, cell) ? runs(cell) : null;
        if (straight(out, cell)) {
          double used = 0;
          double most = 0;
          double sum = 0;
          for (int i = 0; i < runs.length; i++) {
            double fromM = heightM[runs[Math.max(0, i - 1)].cell];
            double j = driveJ(runs[i]) + RISE_J_PER_M * (heightM[runs[i].cell] - fromM);
            sum += j;
            used = Math.max(0, used + j);
            most = Math.max(most, used);
          }
          assertEquals(sum, outWays.energyJ(cell), 8, "cell " + cell);
          assertEquals(used, outWays.usedJ(cell), 8, "cell " + cell);
          assertEquals(most, outWays.mostJ(cell), 8, "cell " + cell);
          full += used > sum + 50 ? 1 : 0;
        }
        if (straight(home, cell)) {
          for (double before : new double[] {0, 2000, 30_000}) {
            double used = before;
            double most = before;
            for (int i = runs.length - 1; i >= 0; i--) {
              int here = runs[i].cell;
              double waitJ = HOTEL_W * waitS[here];
              double fromM = heightM[runs[Math.min(runs.length - 1, i + 1)].cell];
              double toM = heightM[runs[Math.max(0, i - 1)].cell];
              // At its middle on entering, and until it is left as high as the line leads in it.
              double upM = Math.max(0, Math.max(fromM, toM) - heightM[here]);
              most = Math.max(most, used + waitJ);
              most = Math.max(most, used + driveJ(runs[i]) + RISE_J_PER_M * upM + waitJ);
              used = Math.max(0, used + driveJ(runs[i]) + RISE_J_PER_M * (toM - heightM[here]));
              waits += most > Math.max(used, before) ? 1 : 0;
            }
            most = Math.max(most, used);
            assertEquals(most, homeWays.needJ(cell, before), 8, "cell " + cell + ", " + before);
          }
        }
      }
    }
    assertTrue(full > 5 && waits > 20, full + " full, " + waits + " waits");
  }

  /** Of the cells on the line, the far end among them and the base not, each must hold. */
  @Test
  void oneStopThatAsksForTooMuchBreaksTheLine() {
    float[] waitS = new float[N * N];
    Floats none = Floats.of(new float[N * N]);
    int[] count = new int[2];
    for (int k = 0; k < 16; k++) {
      draw();
      Arrays.fill(heightM, 0);
      CostField labels = front(Direction.OUT);
      for (int i = 0; i < waitS.length; i++) {
        waitS[i] = random.nextInt(6) == 0 && i != BASE ? 400 + random.nextInt(800) : 0;
      }
      ReachLimits limits = Fields.limits(HomeRule.BASE_RESCUE, NONE, 31_234, NONE, NONE, HOTEL_W);
      Stops stops = new Stops(limits, none, Floats.of(waitS), List.of());
      PathSums ways = PathSums.along(labels, Floats.of(heightM), true, stops);
      for (int cell = 0; cell < N * N; cell++) {
        if (straight(labels, cell)) {
          Run[] runs = runs(cell);
          double usedJ = Arrays.stream(runs).mapToDouble(PathSumsOnStraightLinesTest::driveJ).sum();
          boolean broken = false;
          for (Run run : runs) {
            broken |= usedJ + HOTEL_W * waitS[run.cell] > 31_234;
          }
          assertEquals(broken, ways.broken(cell), "ground " + k + ", cell " + cell);
          count[broken ? 1 : 0]++;
        }
      }
    }
    assertTrue(count[0] > 100 && count[1] > 25, Arrays.toString(count));
  }
}
