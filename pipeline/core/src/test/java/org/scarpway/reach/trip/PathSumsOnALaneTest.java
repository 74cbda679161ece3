package org.scarpway.reach.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
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
 * One row of cells over random ramps: there is one way, which is followed here in pieces of a
 * twentieth of a cell with a battery that takes nothing when it is full. Near the base cells are
 * tied to it by straight lines, further out by steps over two cells.
 */
class PathSumsOnALaneTest {
  private static final double NONE = Double.POSITIVE_INFINITY;
  private static final int N = 41;
  private static final double CELL_M = 10;
  private static final GridSpec SPEC = Fields.grid(1, N, CELL_M, 0, 0);
  private static final double HOTEL_W = 40;
  private static final double SPEED_MS = 2;
  private static final int PIECES = 20;

  private final double[] grade = new double[N];
  private final float[] heightM = new float[N];

  /** Energy of a metre along the plan, driven towards the east (+1) or the west (-1). */
  private double perM(int cell, int east) {
    double g = east * grade[cell];
    double surface = Math.sqrt(1 + g * g);
    return surface * (tractionJPerM(g) + HOTEL_W / SPEED_MS);
  }

  private static double tractionJPerM(double g) {
    return 2400 * (0.02 + g);
  }

  private void draw(Random random) {
    for (int c = 0; c < N; ) {
      double g = (random.nextInt(9) - 4) / 20.0;
      for (int run = 5 + random.nextInt(6); run > 0 && c < N; run--) {
        grade[c++] = g;
      }
    }
    heights();
  }

  private void heights() {
    heightM[0] = 0;
    for (int c = 1; c < N; c++) {
      heightM[c] = (float) (heightM[c - 1] + CELL_M * (grade[c - 1] + grade[c]) / 2);
    }
  }

  private TraversalCost field() {
    double[] speed = new double[801];
    double[] traction = new double[801];
    for (int i = 0; i < speed.length; i++) {
      speed[i] = SPEED_MS;
      traction[i] = tractionJPerM((i - 400) / 800.0);
    }
    int[] allowed = new int[N];
    Arrays.fill(allowed, -1);
    float[] east = new float[N];
    for (int c = 0; c < N; c++) {
      east[c] = (float) grade[c];
    }
    GradeTable table = new GradeTable(-0.5, 0.5, speed, traction, HOTEL_W, 2400);
    return new TraversalCost(SPEC, allowed, east, new float[N], null, null, table);
  }

  private PathSums ways(Direction direction, Stops stops) {
    CostField labels =
        Front.spread(new Costs(field(), Quantity.TIME_S, direction), Progress.NONE, 0);
    return PathSums.along(labels, Floats.of(heightM.clone()), true, stops);
  }

  /** Used at the end, and the most at any moment, of a drive between the centres of two cells. */
  private record Used(double endJ, double mostJ) {}

  private Used drive(int from, int to, double beforeJ, double waitS, double waitPerCellS) {
    int east = to > from ? 1 : -1;
    double used = beforeJ;
    double most = used + waitJ(from, waitS, waitPerCellS);
    int pieces = PIECES * Math.abs(to - from);
    for (int p = 0; p < pieces; p++) {
      double at = from + east * (p + 0.5) / PIECES;
      used = Math.max(0, used + perM((int) Math.rint(at), east) * CELL_M / PIECES);
      most = Math.max(most, used + waitJ(at, waitS, waitPerCellS));
    }
    return new Used(used, most);
  }

  /** At the base nobody waits. */
  private static double waitJ(double at, double waitS, double perCellS) {
    return at < 0.5 ? 0 : HOTEL_W * (waitS + perCellS * at);
  }

  /** What the ways cannot tell: a crest or a hollow may lie a cell beside where they look. */
  private static final double CELL_J = CELL_M * (tractionJPerM(0.2) + HOTEL_W / SPEED_MS) * 1.03;

  @Test
  void energyIsThatOfABatteryThatTakesNothingWhenItIsFull() {
    Random random = new Random(3);
    int full = 0;
    int crests = 0;
    for (int k = 0; k < 60; k++) {
      draw(random);
      PathSums out = ways(Direction.OUT, null);
      PathSums home = ways(Direction.HOME, null);
      for (int c = 0; c < N; c++) {
        assertEquals(5.0 * c, out.timeS(c) / surface(c), 0.005 * c + 1e-3);
        assertEquals(10.0 * c, home.distanceM(c) / surface(c), 0.01 * c + 1e-3);
        Used there = drive(0, c, 0, 0, 0);
        assertEquals(there.endJ, out.usedJ(c), CELL_J, "ground " + k + ", cell " + c);
        assertEquals(there.mostJ, out.mostJ(c), CELL_J, "ground " + k + ", cell " + c);
        full += out.usedJ(c) > out.energyJ(c) + 1.5 * CELL_J ? 1 : 0;
        crests += out.mostJ(c) > out.usedJ(c) + 2 * CELL_J ? 1 : 0;
        for (double before : new double[] {0, 4000, 40_000}) {
          Used back = drive(c, 0, before, 0, 0);
          assertEquals(back.mostJ, home.needJ(c, before), CELL_J, "ground " + k + ", cell " + c);
        }
      }
    }
    assertTrue(full > 300 && crests > 300, full + " full, " + crests + " beyond crests");
  }

  /**
   * The load of a vehicle that stops on the way home runs on until its crew is fetched: never less
   * than that takes at any place, the borders of cells included, and at most two and a half cells
   * more. Heights run straight between the centres of cells.
   */
  @Test
  void waitingForARescuerTakesEnergyAtEveryPlace() {
    Random random = new Random(4);
    int more = 0;
    for (int k = 0; k < 60; k++) {
      draw(random);
      float[] waitS = new float[N];
      for (int c = 1; c < N; c++) {
        waitS[c] = k % 2 == 0 ? 200 + 10 * c : random.nextInt(1000);
      }
      PathSums home = ways(Direction.HOME, waiting(NONE, waitS));
      for (int c = 0; c < N; c++) {
        for (double before : new double[] {0, 4000, 40_000}) {
          double most = waited(c, before, waitS);
          String where = "ground " + k + ", cell " + c;
          assertTrue(
              home.needJ(c, before) >= most - 0.1,
              where + ": " + home.needJ(c, before) + " of " + most + " before " + before);
          assertEquals(most, home.needJ(c, before), 2.5 * CELL_J, where);
          more += most > drive(c, 0, before, 0, 0).mostJ + 2 * CELL_J ? 1 : 0;
        }
      }
    }
    assertTrue(more > 300, more + " where waiting counts");
  }

  private static Stops waiting(double energyJ, float[] waitS) {
    ReachLimits limits = Fields.limits(HomeRule.BASE_RESCUE, NONE, energyJ, NONE, NONE, HOTEL_W);
    return new Stops(limits, Floats.of(new float[N]), Floats.of(waitS), List.of());
  }

  /** Most that is used and waited for from the centre of a cell to the base. */
  private double waited(int from, double beforeJ, float[] waitS) {
    double used = beforeJ;
    double most = used + HOTEL_W * waitS[from];
    for (int p = 0; p < PIECES * from; p++) {
      double x = from - (double) p / PIECES;
      double to = from - (p + 1.0) / PIECES;
      int cell = (int) Math.rint(0.5 * (x + to));
      double levelJ = (perM(cell, -1) + 2400 * grade[cell]) * CELL_M / PIECES;
      double waitJ = HOTEL_W * waitS[cell];
      most = Math.max(most, used + waitJ);
      used = Math.max(0, used + levelJ + 2400 * (heightAt(to) - heightAt(x)));
      most = Math.max(most, used + waitJ);
    }
    return most;
  }

  private double heightAt(double x) {
    int c = (int) x;
    return heightM[c] + (x - c) * (heightM[Math.min(N - 1, c + 1)] - heightM[c]);
  }

  /** A way out on which a stop never asks for more than there is holds at every place on it. */
  @Test
  void aStopAnywhereOnTheWayOutIsWithinTheLimit() {
    Random random = new Random(5);
    int holds = 0;
    int breaks = 0;
    for (int k = 0; k < 200; k++) {
      draw(random);
      float[] waitS = new float[N];
      for (int c = 1; c < N; c++) {
        waitS[c] = random.nextInt(1000);
      }
      double limitJ = 20_000 + 100_000 * random.nextDouble();
      PathSums out = ways(Direction.OUT, waiting(limitJ, waitS));
      double used = 0;
      double most = 0;
      for (int p = 0; p < PIECES * (N - 1); p++) {
        double x = (double) p / PIECES;
        double to = (p + 1.0) / PIECES;
        int cell = (int) Math.rint(0.5 * (x + to));
        double levelJ = (perM(cell, 1) - 2400 * grade[cell]) * CELL_M / PIECES;
        double waitJ = HOTEL_W * waitS[cell];
        most = Math.max(most, used + waitJ);
        used = Math.max(0, used + levelJ + 2400 * (heightAt(to) - heightAt(x)));
        most = Math.max(most, used + waitJ);
        if ((p + 1) % PIECES == 0) {
          int c = (p + 1) / PIECES;
          boolean broken = out.broken(c);
          assertTrue(broken || most <= limitJ + 0.1, "ground " + k + ", cell " + c);
          assertTrue(!broken || most + HOTEL_W * waitS[c] > limitJ - 4 * CELL_J);
          holds += broken ? 0 : 1;
          breaks += broken ? 1 : 0;
        }
      }
    }
    assertTrue(holds > 500 && breaks > 500, holds + " hold, " + breaks + " break");
  }

  /** Driven metres per metre of the plan, on average. */
  private double surface(int cell) {
    double sum = 0;
    for (int c = 0; c <= cell; c++) {
      double share = c == 0 || c == cell ? 0.5 : 1;
      sum += cell == 0 ? 1 : share * Math.sqrt(1 + grade[c] * grade[c]) / cell;
    }
    return sum;
  }

  private static Stops onFoot(float[] homeS) {
    ReachLimits limits = Fields.limits(HomeRule.WALK_BACK, NONE, NONE, NONE, NONE, HOTEL_W);
    return new Stops(limits, Floats.of(homeS), null, List.of());
  }

  /** Between what a stop on arrival in each cell asks for and what one on leaving it does. */
  @Test
  void theLatestMomentIsTheWorstOfAllStops() {
    Arrays.fill(grade, 0);
    heights();
    Random random = new Random(6);
    for (int k = 0; k < 60; k++) {
      float[] homeS = new float[N];
      int size = k % 2 == 0 ? 30 : 400;
      for (int c = 0; c < N; c++) {
        homeS[c] = random.nextInt(size);
      }
      PathSums out = ways(Direction.OUT, onFoot(homeS));
      PathSums home = ways(Direction.HOME, onFoot(homeS));
      for (int c = 0; c < N; c++) {
        double outLow = 5.0 * c + homeS[c];
        double outHigh = outLow;
        double homeLow = Math.max(5.0 * c, homeS[c]);
        double homeHigh = homeLow;
        for (int j = 0; j < c; j++) {
          outLow = Math.max(outLow, 5.0 * j + homeS[j]);
          outHigh = Math.max(outHigh, 5.0 * j + 2.5 + homeS[j]);
          homeLow = Math.max(homeLow, 5.0 * (c - j) + homeS[j]);
          homeHigh = Math.max(homeHigh, 5.0 * (c - j) + (j == 0 ? 0 : 2.5) + homeS[j]);
        }
        String where = "lane " + k + ", cell " + c;
        between(outLow, out.latestS(c), outHigh, where);
        between(homeLow, home.needS(c), homeHigh, where);
      }
    }
  }

  private static void between(double low, double value, double high, String where) {
    assertTrue(
        value >= low - 1e-3 && value <= high + 1e-3,
        where + ": " + value + " from " + low + " to " + high);
  }

  /** A cell from which it takes long counts until it is left, wherever it lies. */
  @Test
  void aPlaceBetweenTheEndsOfAStepCountsUntilItIsLeft() {
    Arrays.fill(grade, 0);
    heights();
    for (int at = 3; at < N - 4; at++) {
      float[] homeS = new float[N];
      homeS[at] = 1000;
      PathSums out = ways(Direction.OUT, onFoot(homeS));
      PathSums home = ways(Direction.HOME, onFoot(homeS));
      int halves = 0;
      for (int c = at + 1; c < N; c++) {
        double outS = out.latestS(c) - 1000 - 5 * at;
        double homeOnS = home.needS(c) - 1000 - 5 * (c - at);
        // To the cell's centre where a step ends there, which is then left by the next.
        assertTrue(outS == 2.5 || outS == 0, at + " and " + c + ": " + outS);
        assertTrue(homeOnS == 2.5 || homeOnS == 0, at + " and " + c + ": " + homeOnS);
        halves += outS == 2.5 ? 1 : 0;
        halves += homeOnS == 2.5 ? 1 : 0;
      }
      assertTrue(halves >= (N - at - 1) / 2, at + ": " + halves);
      assertTrue(out.latestS(at - 1) < 1000 && home.needS(at - 1) < 1000);
    }
  }

  /** Where a stop takes more energy than there is no way leads on, and all ways before hold. */
  @Test
  void oneStopThatAsksForTooMuchBreaksAllWaysBeyondIt() {
    Arrays.fill(grade, 0);
    heights();
    double perCellJ = CELL_M * perM(0, 1);
    for (int at = 1; at < N; at++) {
      for (int side = -1; side <= 1; side += 2) {
        float[] waitS = new float[N];
        waitS[at] = 100;
        double limitJ = at * perCellJ + 100 * HOTEL_W + side * 0.1 * perCellJ;
        ReachLimits limits =
            Fields.limits(HomeRule.BASE_RESCUE, NONE, Math.max(limitJ, 0), NONE, NONE, HOTEL_W);
        Stops stops = new Stops(limits, Floats.of(new float[N]), Floats.of(waitS), List.of());
        PathSums out = ways(Direction.OUT, stops);
        for (int c = 0; c < N; c++) {
          boolean empty = c * perCellJ > limitJ;
          boolean beyond = c > at && side > 0 && (c * perCellJ + 100 * HOTEL_W > limitJ);
          if (!beyond || empty) {
            assertEquals(empty || (side < 0 && c >= at), out.broken(c), at + " and " + c);
          }
        }
      }
    }
  }

  /** On straight lines from the base a stop that asks for too much breaks what lies behind it. */
  @Test
  void aStopOnAStraightLineBreaksWhatLiesBehindIt() {
    GridSpec spec = Fields.grid(21, 21, 10, 0, 0);
    int base = 10 * 21 + 10;
    int[] allowed = new int[spec.cells()];
    Arrays.fill(allowed, -1);
    float[] zero = new float[spec.cells()];
    double[] two = {2, 2};
    GradeTable table = new GradeTable(-1, 1, two, two, HOTEL_W, 0);
    TraversalCost field = new TraversalCost(spec, allowed, zero, zero, null, null, table);
    CostField labels =
        Front.spread(new Costs(field, Quantity.TIME_S, Direction.OUT), Progress.NONE, base);
    int behind = 0;
    int beside = 0;
    for (int at : new int[] {10 * 21 + 15, 7 * 21 + 7, 14 * 21 + 12}) {
      int atRow = at / 21;
      int atCol = at % 21;
      float[] waitS = new float[spec.cells()];
      waitS[at] = 1000;
      ReachLimits limits = Fields.limits(HomeRule.BASE_RESCUE, NONE, 20_000, NONE, NONE, HOTEL_W);
      Floats none = Floats.of(new float[spec.cells()]);
      PathSums ways = PathSums.along(labels, none, true, new Stops(limits, none, null, List.of()));
      ways.holdStops(new Stops(limits, none, Floats.of(waitS), List.of()));
      for (int cell = 0; cell < spec.cells(); cell++) {
        int dr = cell / 21 - 10;
        int dc = cell % 21 - 10;
        int inside = 0;
        double nearest = NONE;
        for (int k = 0; k <= 200; k++) {
          double offRow = Math.abs(10 + dr * k / 200.0 - atRow);
          double offCol = Math.abs(10 + dc * k / 200.0 - atCol);
          double off = Math.max(offRow, offCol);
          inside += off < 0.5 ? 1 : 0;
          nearest = Math.min(nearest, off);
        }
        double cellsInside = inside * Math.hypot(dr, dc) / 200;
        String where = at + " and " + cell;
        if (labels.stepAt(cell) == Stencil.STRAIGHT && cellsInside > 0.4) {
          assertTrue(ways.broken(cell), where);
          behind++;
        } else if (nearest > 2.6) {
          assertFalse(ways.broken(cell), where);
          beside++;
        }
      }
    }
    assertTrue(behind > 10 && beside > 300, behind + " behind, " + beside + " beside");
  }
}
