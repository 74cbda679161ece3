package org.scarpway.reach.corridor;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.CorridorRequest.Cost;
import org.scarpway.reach.question.CorridorRequest.Stop;
import org.scarpway.reach.question.CorridorResult.PinchPoint;
import org.scarpway.reach.question.Questions;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * Chambers one behind the other from west to east, of given widths (cells of 2 m, to either side of
 * the middle row), and what is narrow between them, by hand.
 */
class CorridorPinchPointsTest {
  private static final int ROWS = 43;
  private static final int MIDDLE = 21;

  /** Centre of the first column and of the middle row. */
  private static final double X_M = 1000;

  private static final double Y_M = 500;

  /** Width of each column. */
  private final List<Integer> widths = new ArrayList<>();

  private final List<Integer> necks = new ArrayList<>();

  /** Walls with another gap, of thirteen cells, in their south. */
  private final List<Integer> besides = new ArrayList<>();

  private CorridorPinchPointsTest chamber(int width, int length) {
    for (int i = 0; i < length; i++) {
      widths.add(width);
    }
    return this;
  }

  /** A wall of one cell with a gap. */
  private CorridorPinchPointsTest neck(int width) {
    necks.add(widths.size());
    widths.add(width);
    return this;
  }

  private boolean open(int column, int row) {
    int width = widths.get(column);
    int south = MIDDLE + width / 2;
    boolean beside = besides.contains(column) && row >= 29 && row <= 41;
    return beside || (row <= south && row > south - width);
  }

  private List<PinchPoint> found(int... columns) {
    return found(0, columns);
  }

  /**
   * @param turns by so many quarters to the right
   */
  private List<PinchPoint> found(int turns, int[] columns) {
    int n = widths.size();
    boolean lying = turns % 2 == 0;
    int rows = lying ? ROWS : n;
    int cols = lying ? n : ROWS;
    GridSpec spec =
        lying
            ? Fields.grid(rows, cols, 2, X_M - 1, Y_M - 2 * MIDDLE - 1)
            : Fields.grid(rows, cols, 2, 0, 0);
    List<Stop> stops = new ArrayList<>();
    for (int along : columns) {
      int col = lying ? along : MIDDLE;
      int row = lying ? MIDDLE : along;
      col = turns == 2 ? n - 1 - along : col;
      row = turns == 3 ? n - 1 - along : row;
      stops.add(Questions.stop("s" + stops.size(), spec.xM(col), spec.yM(row)));
    }
    try (Workers workers = new Workers(1)) {
      return CorridorSolver.solve(
              Questions.corridor("c", stops, Cost.DISTANCE, List.of(1.0), 0),
              Fields.level(
                  Fields.level(
                      spec,
                      (x, y) -> {
                        int row = spec.rowOf(y);
                        int col = spec.colOf(x);
                        int along = lying ? col : row;
                        int across = lying ? row : ROWS - 1 - col;
                        boolean back = turns >= 2;
                        along = back ? n - 1 - along : along;
                        across = back ? ROWS - 1 - across : across;
                        return open(along, across) ? 1 : 0;
                      })),
              workers,
              Progress.NONE)
          .pinchPoints();
    }
  }

  private List<PinchPoint> foundFromEndToEnd() {
    return found(0, widths.size() - 1);
  }

  private static double[] widthsOf(List<PinchPoint> found) {
    return found.stream().mapToDouble(p -> p.widthM() / 2).toArray();
  }

  /** Widths of chambers, each as long as it is wide, and those that are told. */
  @Test
  void narrowIsWhatIsHalfAsWideAgainOnBothSides() {
    int[][][] cases = {
      {{21, 7, 21}, {7}},
      {{21, 7}, {}},
      {{7, 21}, {}},
      {{21, 7, 9, 5, 21}, {5}},
      {{21, 7, 11, 5, 21}, {5, 7}},
      {{21, 5, 9, 7, 21}, {5}},
      {{21, 5, 11, 7, 21}, {5, 7}},
      {{9, 6, 9}, {6}},
      {{8, 6, 9}, {}},
      {{9, 6, 8}, {}},
      {{21, 13, 21, 13, 21}, {13, 13}},
      {{21, 15, 21}, {}},
      {{21, 14, 21}, {14}},
      {{9, 7, 9, 5, 3, 5, 9}, {3}},
      {{11, 7, 5, 11, 21}, {5}},
      {{21, 21, 21}, {}},
    };
    for (int[][] c : cases) {
      widths.clear();
      chamber(c[0][0], 160);
      for (int i = 1; i + 1 < c[0].length; i++) {
        chamber(c[0][i], c[0][i] + 2);
      }
      chamber(c[0][c[0].length - 1], 160);
      double[] want = Arrays.stream(c[1]).asDoubleStream().toArray();
      assertEquals(
          Arrays.toString(want),
          Arrays.toString(widthsOf(foundFromEndToEnd())),
          Arrays.toString(c[0]));
    }
  }

  /** Of twelve gaps the ten narrowest, each where it is and with what lies beyond it. */
  @Test
  void theNarrowestAreToldWithWhatHangsOnThem() {
    int[] gaps = {5, 2, 11, 8, 1, 12, 3, 10, 7, 4, 9, 6};
    chamber(21, 24);
    for (int gap : gaps) {
      neck(gap).chamber(21, 24);
    }
    List<PinchPoint> found = foundFromEndToEnd();
    assertEquals(10, found.size());
    for (int i = 0; i < 10; i++) {
      PinchPoint p = found.get(i);
      assertEquals(2 * (i + 1), p.widthM(), 1e-6);
      int at = -1;
      for (int k = 0; k < gaps.length; k++) {
        at = gaps[k] == i + 1 ? necks.get(k) : at;
      }
      double beyond = 0;
      for (int col = at + 1; col < widths.size(); col++) {
        beyond += widths.get(col);
      }
      // The first of the points that are as narrow: where the gap begins, half-way between cells.
      assertEquals(X_M + 2 * at - 1, p.xM(), 1e-6, "gap of " + (i + 1));
      assertEquals(i % 2 == 0 ? Y_M : Y_M - 1, p.yM(), 1e-6);
      assertEquals(2 * at - 1, p.distanceM(), 1.01);
      // On its edge a gap may be closed with a column of the chamber before or behind it.
      assertEquals(4 * beyond, p.behindM2(), 4 * 21);
    }
  }

  /** A gap is told once, however often it is driven through, and each where it is first. */
  @Test
  void aGapOnTheWayBackIsTheSame() {
    chamber(21, 30).neck(5).chamber(21, 30).neck(7).chamber(21, 30);
    int last = widths.size() - 1;
    assertEquals("[5.0]", Arrays.toString(widthsOf(found(0, 50, 0))));
    assertEquals(found(0, last), found(0, last, 0, last));
    // From the middle chamber west, then all the way east.
    List<PinchPoint> both = found(45, 0, last);
    assertEquals("[5.0, 7.0]", Arrays.toString(widthsOf(both)));
    assertEquals(2 * (45 - 30), both.get(0).distanceM(), 1.01);
    assertEquals(2 * (45 + 61), both.get(1).distanceM(), 1.01);
    assertEquals(4 * 30 * 21, both.get(0).behindM2(), 4 * 21);
    assertEquals(4 * 30 * 21, both.get(1).behindM2(), 4 * 21);
    // Whoever starts in a gap cannot close it.
    PinchPoint own = found(30, 0, last).get(0);
    assertEquals(10, own.widthM(), 1e-6);
    assertEquals(Double.NaN, own.behindM2());
  }

  /**
   * The way through the gap of five cells is meant, whatever else there is. Nothing hangs on it.
   */
  @Test
  void aWideGapBesideTheWayIsAnotherWay() {
    chamber(41, 60).neck(5).chamber(41, 60);
    besides.add(60);
    PinchPoint p = foundFromEndToEnd().get(0);
    assertEquals(10, p.widthM(), 1e-6);
    assertEquals(0, p.behindM2());
  }

  /**
   * Three columns behind a gap of five cells, 2.5 cells from its corners along the way and 2.5
   * across, 7.1 cells are free; four columns behind 8.6, which is half as wide again.
   */
  @Test
  void theWayCountsToItsEnd() {
    chamber(21, 60).neck(5).chamber(21, 60);
    assertEquals(0, found(0, 63).size());
    assertEquals(1, found(0, 64).size());
    assertEquals(0, found(57, 120).size());
    assertEquals(1, found(56, 120).size());
  }

  /**
   * Two gaps of 10 m, which from either side begin 10 m apart, are one place, or with one more
   * column of 2 m between them two.
   */
  @Test
  void placesNoFurtherApartThanTheyAreWideAreOne() {
    chamber(21, 60).neck(5).chamber(21, 3).neck(5).chamber(21, 60);
    assertEquals(1, found(0, 120, 0).size());
    widths.clear();
    chamber(21, 60).neck(5).chamber(21, 4).neck(5).chamber(21, 60);
    assertEquals(2, found(0, 120, 0).size());
  }

  /** Wider than a tenth of the way is not narrow: a gap of 8 m is on 82 m, on 78 m it is not. */
  @Test
  void whatIsWideForAShortWayIsNotNarrow() {
    chamber(21, 60).neck(4).chamber(21, 60);
    assertEquals(1, found(40, 81).size());
    assertEquals(0, found(40, 79).size());
    // A tenth itself still is, whatever the sum of the steps of the way is rounded to.
    for (int width = 2; width <= 10; width++) {
      for (int from = 60 - 6 * width; from <= 60 - 4 * width; from += width) {
        widths.clear();
        chamber(21, 60).neck(width).chamber(21, 60);
        String on = "gap of " + width + " from " + from;
        assertEquals(1, found(from, from + 10 * width).size(), on);
        assertEquals(0, found(from, from + 10 * width - 1).size(), on);
      }
    }
  }

  /** Chambers that are open to the edges of the grid end nowhere else. */
  @Test
  void theWidestWayMayLeadAlongTheEdgeOfTheGrid() {
    chamber(43, 60).neck(5).chamber(43, 60);
    assertEquals("[5.0]", Arrays.toString(widthsOf(foundFromEndToEnd())));
  }
}
