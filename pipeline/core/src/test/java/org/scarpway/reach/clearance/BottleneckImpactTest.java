package org.scarpway.reach.clearance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.Random;
import java.util.function.IntBinaryOperator;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/** What closing a gap cuts off, for travel in every direction, against counting. */
class BottleneckImpactTest {
  private static final int ROWS = 31;
  private static final int COLS = 37;
  private static final GridSpec SPEC = new GridSpec(ROWS, COLS, 2, 3, 0, ROWS * 3, "");
  private static final int BASE = 2 * COLS + 2;

  private record Gap(Clearance clearance, BottleneckImpact closing) {
    /** Cells across a point of the lattice of half cells; null if there are none. */
    BitSet across(int row2, int col2) {
      int[] cells = closing.across(row2 * clearance.cols() + col2);
      if (cells == null) {
        return null;
      }
      BitSet set = new BitSet();
      for (int cell : cells) {
        set.set(cell);
      }
      return set;
    }

    double widthM(int row2, int col2) {
      return clearance.widthAtM(row2 * clearance.cols() + col2);
    }

    BitSet behind(BitSet across) {
      return closing.behind(across.stream().toArray());
    }
  }

  /** 0 where the rule says so, by row and column. */
  private static Gap drawn(int base, IntBinaryOperator open) {
    TraversalCost field =
        Fields.level(SPEC, (x, y) -> open.applyAsInt(SPEC.rowOf(y), SPEC.colOf(x)));
    try (Workers workers = new Workers(1)) {
      Clearance clearance = Clearance.of(field, workers);
      return new Gap(clearance, new BottleneckImpact(field, clearance, base));
    }
  }

  private static BitSet cells(int fromRow, int endRow, int fromCol, int endCol) {
    BitSet cells = new BitSet();
    for (int row = fromRow; row < endRow; row++) {
      cells.set(row * COLS + fromCol, row * COLS + endCol);
    }
    return cells;
  }

  private static BitSet with(BitSet some, BitSet more) {
    BitSet all = (BitSet) some.clone();
    all.or(more);
    return all;
  }

  @Test
  void aGapForTravelNorthOrSouthIsAsWideAsItsColumns() {
    for (int n = 1; n <= 6; n++) {
      int wide = n;
      Gap gap = drawn(BASE, (r, c) -> r == 15 && !(c >= 20 && c < 20 + wide) ? 0 : 1);
      BitSet across = gap.across(2 * 15 + 1, 40 + n);
      assertEquals(2.0 * n, gap.widthM(2 * 15 + 1, 40 + n), 1e-5, n + " columns");
      // The line runs from jamb to jamb, along the row of the wall or one of its edges.
      assertEquals(cells(14, 17, 19, 21 + n), with(across, cells(14, 17, 19, 21 + n)));
      assertEquals(across, with(across, cells(15, 16, 20, 20 + n)));
      BitSet far = cells(16, ROWS, 0, COLS);
      far.andNot(across);
      assertEquals(far, gap.behind(across), n + " columns");
      assertEquals(
          with(with(cells(0, 15, 0, COLS), cells(16, ROWS, 0, COLS)), cells(15, 16, 20, 20 + n)),
          gap.closing().joined());
    }
  }

  @Test
  void aGapForTravelEastOrWestIsAsWideAsItsRows() {
    for (int n = 1; n <= 5; n++) {
      int high = n;
      Gap gap = drawn(BASE, (r, c) -> c == 18 && !(r >= 12 && r < 12 + high) ? 0 : 1);
      BitSet across = gap.across(24 + n, 2 * 18 + 1);
      assertEquals(3.0 * n, gap.widthM(24 + n, 2 * 18 + 1), 1e-5, n + " rows");
      BitSet far = cells(0, ROWS, 19, COLS);
      far.andNot(across);
      assertEquals(far, gap.behind(across), n + " rows");
    }
  }

  /** Where no two barriers are equally near, the nearest ones that face each other are joined. */
  @Test
  void aPointBesideTheMiddleOfAGapStillClosesIt() {
    int closed = 0;
    for (int n = 1; n <= 6; n++) {
      int wide = n;
      Gap south = drawn(BASE, (r, c) -> r == 15 && !(c >= 20 && c < 20 + wide) ? 0 : 1);
      Gap east = drawn(BASE, (r, c) -> c == 18 && !(r >= 12 && r < 12 + wide) ? 0 : 1);
      for (int d = -1; d <= 1; d++) {
        closed += cuts(south, 31 + d, 40 + n, cells(17, ROWS, 0, COLS), cells(0, 14, 0, COLS));
        closed += cuts(south, 31, 40 + n + d, cells(17, ROWS, 0, COLS), cells(0, 14, 0, COLS));
        closed += cuts(east, 24 + n, 37 + d, cells(0, ROWS, 20, COLS), cells(0, ROWS, 0, 17));
        closed += cuts(east, 24 + n + d, 37, cells(0, ROWS, 20, COLS), cells(0, ROWS, 0, 17));
      }
    }
    assertTrue(closed >= 48, closed + " closed");
  }

  /** 1 where the gap is closed, 0 where nothing faces anything about the point. */
  private static int cuts(Gap gap, int row2, int col2, BitSet far, BitSet near) {
    BitSet across = gap.across(row2, col2);
    if (across == null) {
      return 0;
    }
    BitSet behind = gap.behind(across);
    String where = row2 + ", " + col2;
    assertEquals(behind, with(behind, far), where);
    assertTrue(!behind.intersects(near), where);
    return 1;
  }

  /** Jambs that stand askew: the shortest line between them, a hypotenuse. */
  @Test
  void jambsThatStandAskew() {
    // The western wall ends at column 20 in row 15, the eastern starts at column 23 in row 17; the
    // corners between them are 3 columns (6 m) and 1 row (3 m) apart.
    Gap gap = drawn(BASE, (r, c) -> (r == 15 && c < 20) || (r == 17 && c >= 23) ? 0 : 1);
    BitSet across = gap.across(33, 43);
    assertEquals(Math.hypot(6, 3), gap.widthM(33, 43), 1e-5);
    BitSet behind = gap.behind(across);
    assertTrue(behind.get(25 * COLS + 5));
    assertTrue(!behind.get(16 * COLS + 30));
    // All south of both walls and what lies under the western one up to the closed line.
    assertTrue(behind.cardinality() > 13 * COLS && behind.cardinality() < 15 * COLS);
  }

  @Test
  void anotherWayRoundLosesNothing() {
    Gap gap = drawn(BASE, (r, c) -> r == 15 && !(c >= 20 && c < 22) && !(c >= 5 && c < 9) ? 0 : 1);
    BitSet narrow = gap.across(31, 42);
    assertEquals(4, gap.widthM(31, 42), 1e-5);
    assertEquals(new BitSet(), gap.behind(narrow));
  }

  @Test
  void aBaseInTheGapHasNothingBehindIt() {
    Gap gap = drawn(15 * COLS + 20, (r, c) -> r == 15 && !(c >= 20 && c < 22) ? 0 : 1);
    assertNull(gap.behind(gap.across(31, 42)));
  }

  @Test
  void whereNoBarriersFaceEachOtherThereIsNoGap() {
    Gap one = drawn(BASE, (r, c) -> r == 15 && c == 20 ? 0 : 1);
    assertNull(one.across(21, 41));
    Gap none = drawn(BASE, (r, c) -> 1);
    assertEquals(ROWS * COLS, none.closing().joined().cardinality());
  }

  /** What is joined is what single steps to the four neighbours come to, on random ground. */
  @Test
  void joinedIsWhatNeighboursJoin() {
    Random random = new Random(8);
    for (int n = 0; n < 30; n++) {
      boolean[] barred = new boolean[SPEC.cells()];
      for (int i = 0; i < barred.length; i++) {
        barred[i] = i != BASE && random.nextInt(5) < 2;
      }
      Gap gap = drawn(BASE, (r, c) -> barred[r * COLS + c] ? 0 : 1);
      BitSet reached = new BitSet();
      reached.set(BASE);
      for (boolean more = true; more; ) {
        more = false;
        for (int i = 0; i < barred.length; i++) {
          boolean near =
              (i >= COLS && reached.get(i - COLS))
                  || reached.get(i + COLS)
                  || (i % COLS > 0 && reached.get(i - 1))
                  || (i % COLS < COLS - 1 && reached.get(i + 1));
          if (!barred[i] && near && !reached.get(i)) {
            reached.set(i);
            more = true;
          }
        }
      }
      assertEquals(reached, gap.closing().joined(), "ground " + n);
    }
  }

  /** More ways that branch off than are looked after at first. */
  @Test
  void aCombOfManyTeethIsJoined() {
    GridSpec wide = Fields.grid(4, 5001, 1, 0, 0);
    TraversalCost field =
        Fields.level(wide, (x, y) -> wide.rowOf(y) == 0 || wide.colOf(x) % 2 == 0 ? 1 : 0);
    try (Workers workers = new Workers(1)) {
      BottleneckImpact closing = new BottleneckImpact(field, Clearance.of(field, workers), 0);
      assertEquals(5001 + 3 * 2501, closing.joined().cardinality());
    }
  }
}
