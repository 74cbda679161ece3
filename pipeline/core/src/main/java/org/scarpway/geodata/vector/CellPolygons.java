package org.scarpway.geodata.vector;

import java.util.AbstractList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntPredicate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.MultiPolygon;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Ints;
import org.scarpway.stage.Memory;
import org.scarpway.stage.ScratchFile;

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
  private final CellSet walked;

  /**
   * One bit per corner (indexed by the cell to its south-east) on the current walk at which two
   * cells of the set touch only by that corner.
   */
  private final CellSet crossed;

  /** Corners of all rings, one ring after another, each as row and column. */
  private Ints corners;

  private int cornerCount;

  /** First corner of each ring, then the number of all corners. */
  private Ints ringStart;

  /** Component of each ring; of a hole, its complement. */
  private Ints ringPart;

  private int ringCount;
  private int[] walkRow = new int[64];
  private int[] walkCol = new int[64];
  private int walkLength;

  private CellPolygons(GridSpec spec, IntPredicate inside, Memory memory, ScratchFile file) {
    this.spec = spec;
    this.inside = inside;
    this.runs = new CellRuns(spec.rows(), spec.cols(), inside, file);
    this.walked = new CellSet(spec, memory);
    this.crossed = new CellSet(spec, memory);
    this.corners = Ints.few(file);
    this.ringStart = Ints.few(file);
    this.ringPart = Ints.few(file);
  }

  /** Outlines of the cells (by index) for which the predicate holds; empty if there are none. */
  public static MultiPolygon trace(GridSpec spec, IntPredicate inside) {
    return multi(new CellPolygons(spec, inside, new Memory(), null).polygons());
  }

  /**
   * Outlines of the cells of a set, one polygon for each component. Each is made when it is asked
   * for, since all together may be larger than memory.
   */
  public static List<Polygon> of(CellSet cells) {
    // As many bytes as runs and corners take where every other cell is a run.
    ScratchFile file = cells.memory().scratch(12L * cells.spec().cells());
    return of(cells, file);
  }

  /** As {@link #of(CellSet)}, with runs and corners in a scratch file, or on the heap if null. */
  static List<Polygon> of(CellSet cells, ScratchFile file) {
    return new CellPolygons(cells.spec(), cells::has, cells.memory(), file).polygons();
  }

  /** Returns polygons as one geometry. */
  public static MultiPolygon multi(List<Polygon> polygons) {
    return GF.createMultiPolygon(polygons.toArray(Polygon[]::new));
  }

  private List<Polygon> polygons() {
    for (int row = 0; row < spec.rows(); row++) {
      for (int col = 0; col < spec.cols(); col++) {
        if (isInside(row, col) && !isInside(row - 1, col) && !walked.has(row * spec.cols() + col)) {
          walk(row, col);
        }
      }
    }
    ringStart = put(ringStart, ringCount, cornerCount);
    // Components in order, of each the shell before its holes, and these as they were found.
    long[] order = new long[ringCount];
    int shells = 0;
    for (int ring = 0; ring < ringCount; ring++) {
      int part = ringPart.get(ring);
      boolean shell = part >= 0;
      shells += shell ? 1 : 0;
      order[ring] = (shell ? 2L * part : 2L * ~part + 1) << 31 | ring;
    }
    Arrays.sort(order);
    int[] ring = new int[ringCount];
    int[] firsts = new int[shells + 1];
    int polygon = 0;
    for (int i = 0; i < ringCount; i++) {
      ring[i] = (int) (order[i] & Integer.MAX_VALUE);
      if (ringPart.get(ring[i]) >= 0) {
        firsts[polygon++] = i;
      }
    }
    firsts[polygon] = ringCount;
    return new AbstractList<>() {
      @Override
      public Polygon get(int i) {
        LinearRing[] holes = new LinearRing[firsts[i + 1] - firsts[i] - 1];
        for (int k = 0; k < holes.length; k++) {
          holes[k] = ring(ring[firsts[i] + 1 + k]);
        }
        return GF.createPolygon(ring(ring[firsts[i]]), holes);
      }

      @Override
      public int size() {
        return firsts.length - 1;
      }
    };
  }

  private LinearRing ring(int index) {
    int first = ringStart.get(index);
    int count = ringStart.get(index + 1) - first;
    return GF.createLinearRing(new CornerSequence(spec, corners, first, count));
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
        walked.set(row * spec.cols() + col, true);
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
      } else if (cornersMeet && crossed.has(row * spec.cols() + col)) {
        emit(part, lastPass(row, col));
      } else {
        push(row, col);
        if (cornersMeet) {
          crossed.set(row * spec.cols() + col, true);
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
    ringStart = put(ringStart, ringCount, cornerCount);
    long twiceArea = 0;
    for (int at = from; at < walkLength; at++) {
      int next = at + 1 < walkLength ? at + 1 : from;
      twiceArea += (long) walkCol[at] * walkRow[next] - (long) walkCol[next] * walkRow[at];
      corners = put(corners, 2 * cornerCount, walkRow[at]);
      corners = put(corners, 2 * cornerCount++ + 1, walkCol[at]);
      if (spec.holds(walkRow[at], walkCol[at])) {
        crossed.set(walkRow[at] * spec.cols() + walkCol[at], false);
      }
    }
    // Rows increase southwards, so a walk around a part with the set on the right has a positive
    // area here.
    ringPart = put(ringPart, ringCount++, twiceArea > 0 ? part : ~part);
    walkLength = from + 1;
  }

  private static Ints put(Ints list, int at, int value) {
    Ints longEnough = at < list.size() ? list : list.more();
    longEnough.set(at, value);
    return longEnough;
  }
}
