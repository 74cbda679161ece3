package org.scarpway.run.unit;

import java.util.List;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.vehicle.TraversalCost;

/**
 * The part of the ground that a sheet for a crew shows: given places with a rim, in square blocks
 * of cells if it is large.
 *
 * @param closed 1 where the vehicle cannot enter a cell, or one of the block, that has an elevation
 */
public record ShownPart(
    FloatGrid heightM, FloatGrid gradEast, FloatGrid gradNorth, ByteGrid closed) {
  private static final double RIM = 0.12;
  private static final int LEAST_RIM_CELLS = 20;

  /** No more than the map has pixels: it would show the most frequent class of several cells. */
  private static final int MOST_CELLS = 1000;

  /**
   * @param places each its x and y (m) on the grid
   */
  public static ShownPart of(List<double[]> places, TraversalInput ground) {
    TraversalCost field = ground.field();
    Bounds box = new Bounds(field.spec());
    places.forEach(xy -> box.add(xy[0], xy[1]));
    GridSpec spec = box.withRim();
    ShownPart part =
        new ShownPart(
            FloatGrid.empty(spec),
            FloatGrid.empty(spec),
            FloatGrid.empty(spec),
            ByteGrid.empty(spec));
    GridSpec whole = field.spec();
    int block = (int) Math.round(spec.cellXM() / whole.cellXM());
    for (int i = 0; i < spec.cells(); i++) {
      double xM = spec.xM(i % spec.cols());
      double yM = spec.yM(i / spec.cols());
      int middle = whole.cellOf(xM, yM);
      part.heightM.values()[i] = ground.heightM().get(middle);
      part.gradEast.values()[i] = field.gradEast(middle);
      part.gradNorth.values()[i] = field.gradNorth(middle);
      int corner =
          whole.cellOf(
              xM - (spec.cellXM() - whole.cellXM()) / 2, yM + (spec.cellYM() - whole.cellYM()) / 2);
      part.closed.values()[i] = (byte) (anyShut(corner, block, ground) ? 1 : 0);
    }
    return part;
  }

  /** True if the vehicle cannot enter some cell of a block: what is drawn open is open. */
  private static boolean anyShut(int corner, int block, TraversalInput ground) {
    int cols = ground.field().spec().cols();
    for (int k = 0; k < block * block; k++) {
      int cell = corner + k / block * cols + k % block;
      if (ground.field().allowed(cell) == 0 && !Float.isNaN(ground.heightM().get(cell))) {
        return true;
      }
    }
    return false;
  }

  /** Rows and columns about places. */
  private static final class Bounds {
    private final GridSpec spec;
    private int top;
    private int bottom = -1;
    private int left;
    private int right = -1;

    Bounds(GridSpec spec) {
      this.spec = spec;
      this.top = spec.rows();
      this.left = spec.cols();
    }

    void add(double xM, double yM) {
      int cell = spec.cellOf(xM, yM);
      if (cell >= 0) {
        top = Math.min(top, cell / spec.cols());
        bottom = Math.max(bottom, cell / spec.cols());
        left = Math.min(left, cell % spec.cols());
        right = Math.max(right, cell % spec.cols());
      }
    }

    /** The grid of the cells shown. */
    GridSpec withRim() {
      int longest = Math.max(bottom - top, right - left) + 1;
      int rim = Math.max(LEAST_RIM_CELLS, (int) Math.ceil(RIM * longest));
      int row = Math.max(0, top - rim);
      int col = Math.max(0, left - rim);
      int rows = Math.min(spec.rows(), bottom + rim + 1) - row;
      int cols = Math.min(spec.cols(), right + rim + 1) - col;
      int step = (Math.max(rows, cols) + MOST_CELLS - 1) / MOST_CELLS;
      return new GridSpec(
          Math.max(1, rows / step),
          Math.max(1, cols / step),
          spec.cellXM() * step,
          spec.cellYM() * step,
          spec.westM() + col * spec.cellXM(),
          spec.northM() - row * spec.cellYM(),
          spec.crsWkt());
    }
  }
}
