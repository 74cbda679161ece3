package org.scarpway.geodata.vector;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collections;
import java.util.List;
import java.util.function.IntPredicate;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.MultiPolygon;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;

/**
 * Traces a set of cells as polygons with holes, along cell edges, without vertices on straight
 * sections. Cells that share an edge are connected (4-connectivity), cells that share only a corner
 * are not, so every polygon is valid and its area is that of its cells. Linear in the number of
 * cells (times the logarithm of a row's runs for each ring); polygons are ordered by their first
 * cell.
 */
public final class CellPolygons {
  private static final GeometryFactory GF = new GeometryFactory();

  /** Headings along cell edges in the order of right turns: east, south, west, north. */
  private static final int[] D_ROW = {0, 1, 0, -1};

  private static final int[] D_COL = {1, 0, -1, 0};

  private final GridSpec spec;
  private final IntPredicate inside;
  private final CellRuns runs;

  /** Cells whose north edge already belongs to a ring. */
  private final BitSet walked = new BitSet();

  /**
   * One bit per corner (indexed by the cell to its south-east) on the current walk at which two
   * cells of the set touch only by that corner. Not a BitSet: clearing its last bit searches all
   * words below.
   */
  private final long[] crossed;

  private final Polygon[] noPolygon = {};
  private final LinearRing[] shells;
  private final List<List<LinearRing>> holes;

  private int[] walkRow = new int[64];
  private int[] walkCol = new int[64];
  private int walkLength;

  private CellPolygons(GridSpec spec, IntPredicate inside) {
    this.spec = spec;
    this.inside = inside;
    this.runs = new CellRuns(spec.rows(), spec.cols(), inside);
    this.crossed = new long[(spec.cells() >>> 6) + 1];
    this.shells = new LinearRing[runs.count()];
    this.holes = new ArrayList<>(Collections.nCopies(runs.count(), null));
  }

  /** Outlines of the cells (by index) for which the predicate holds; empty if there are none. */
  public static MultiPolygon trace(GridSpec spec, IntPredicate inside) {
    return new CellPolygons(spec, inside).polygons();
  }

  /** Outlines of the cells that hold a code. */
  public static MultiPolygon trace(ByteGrid grid, int code) {
    byte[] values = grid.values();
    return trace(grid.spec(), cell -> values[cell] == code);
  }

  private MultiPolygon polygons() {
    for (int row = 0; row < spec.rows(); row++) {
      for (int col = 0; col < spec.cols(); col++) {
        if (isInside(row, col) && !isInside(row - 1, col) && !walked.get(row * spec.cols() + col)) {
          walk(row, col);
        }
      }
    }
    List<Polygon> found = new ArrayList<>();
    for (int part = 0; part < shells.length; part++) {
      if (shells[part] != null) {
        List<LinearRing> inner = holes.get(part);
        found.add(
            inner == null
                ? GF.createPolygon(shells[part])
                : GF.createPolygon(shells[part], inner.toArray(LinearRing[]::new)));
      }
    }
    return GF.createMultiPolygon(found.toArray(noPolygon));
  }

  private boolean isInside(int row, int col) {
    return spec.holds(row, col) && inside.test(row * spec.cols() + col);
  }

  /**
   * Follows the boundary of the set from the north edge of a cell until it closes, with the set on
   * the right. If the walk returns to a corner it passed before, the loop in between is cut off as
   * a separate ring.
   */
  private void walk(int startRow, int startCol) {
    int part = runs.partOf(startRow, startCol);
    int row = startRow;
    int col = startCol;
    int heading = 0;
    walkLength = 0;
    push(row, col);
    do {
      if (heading == 0) {
        walked.set(row * spec.cols() + col);
      }
      row += D_ROW[heading];
      col += D_COL[heading];
      boolean right = aheadInside(row, col, heading, true);
      boolean left = aheadInside(row, col, heading, false);
      if (right && !left) {
        continue;
      }
      boolean cornersMeet = !right && left;
      if (row == startRow && col == startCol) {
        emit(part, 0);
      } else if (cornersMeet && isCrossed(row, col)) {
        emit(part, lastPass(row, col));
      } else {
        push(row, col);
        if (cornersMeet) {
          setCrossed(row, col, true);
        }
      }
      heading = right ? heading + 3 & 3 : heading + 1 & 3;
    } while (row != startRow || col != startCol || heading != 0);
  }

  /**
   * True if the cell ahead, on the right or left of the corner (row, col) along a heading, is in
   * the set.
   */
  private boolean aheadInside(int row, int col, int heading, boolean right) {
    int side = right ? heading : heading + 3 & 3;
    // From a corner, the cell to the south-east is ahead right when going east; the others follow
    // by rotation.
    return switch (side) {
      case 0 -> isInside(row, col);
      case 1 -> isInside(row, col - 1);
      case 2 -> isInside(row - 1, col - 1);
      default -> isInside(row - 1, col);
    };
  }

  private boolean isCrossed(int row, int col) {
    int i = row * spec.cols() + col;
    return (crossed[i >>> 6] >>> i & 1) != 0;
  }

  private void setCrossed(int row, int col, boolean on) {
    int i = row * spec.cols() + col;
    crossed[i >>> 6] = on ? crossed[i >>> 6] | 1L << i : crossed[i >>> 6] & ~(1L << i);
  }

  private void push(int row, int col) {
    if (walkLength == walkRow.length) {
      walkRow = Arrays.copyOf(walkRow, 2 * walkLength);
      walkCol = Arrays.copyOf(walkCol, 2 * walkLength);
    }
    walkRow[walkLength] = row;
    walkCol[walkLength++] = col;
  }

  /**
   * Position of the previous pass of a corner. The backward search is no longer than the ring that
   * is then cut off.
   */
  private int lastPass(int row, int col) {
    int i = walkLength - 1;
    while (walkRow[i] != row || walkCol[i] != col) {
      i--;
    }
    return i;
  }

  /** Emits the walk from a position on as a closed ring; its first corner stays on the walk. */
  private void emit(int part, int from) {
    int n = walkLength - from;
    Coordinate[] ring = new Coordinate[n + 1];
    long twiceArea = 0;
    for (int i = 0; i < n; i++) {
      int at = from + i;
      int next = i + 1 < n ? at + 1 : from;
      twiceArea += (long) walkCol[at] * walkRow[next] - (long) walkCol[next] * walkRow[at];
      ring[i] =
          new Coordinate(
              spec.westM() + walkCol[at] * spec.cellXM(),
              spec.northM() - walkRow[at] * spec.cellYM());
      if (spec.holds(walkRow[at], walkCol[at])) {
        setCrossed(walkRow[at], walkCol[at], false);
      }
    }
    ring[n] = ring[0].copy();
    LinearRing closed = GF.createLinearRing(ring);
    // Rows increase southwards, so a walk around a part with the set on the right has a positive
    // area here.
    if (twiceArea > 0) {
      shells[part] = closed;
    } else {
      if (holes.get(part) == null) {
        holes.set(part, new ArrayList<>());
      }
      holes.get(part).add(closed);
    }
    walkLength = from + 1;
  }
}
