package org.scarpway.reach.front;

import org.scarpway.reach.question.StepCodes;

/** The next cell of the way from a cell to the source of a front. */
public final class NextCell {
  private NextCell() {}

  /**
   * Returns the code of a cell on the way to the nearest of several sources. Where the way is a
   * straight line, the code is that of the step that follows it best.
   *
   * @param line of the front's ground; one for each thread
   */
  public static byte codeToAnySource(CostField labels, int cell, Line line) {
    if (!labels.reached(cell)) {
      return 0;
    }
    if (labels.stepAt(cell) != Stencil.STRAIGHT) {
      return code(labels, cell);
    }
    int source = labels.straightSource(cell, line);
    int cols = labels.costs().field().spec().cols();
    return source == cell
        ? StepCodes.SOURCE
        : towards(source / cols - cell / cols, source % cols - cell % cols);
  }

  /** The step that leaves the least distance to a cell so many rows and columns away. */
  static byte towards(int rows, int cols) {
    int best = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int code = 1; code <= StepCodes.CELLS; code++) {
      double left = Math.hypot(rows - StepCodes.rows(code), cols - StepCodes.cols(code));
      if (left < least) {
        least = left;
        best = code;
      }
    }
    return (byte) best;
  }

  /**
   * Returns the code of a cell by {@link StepCodes}; of a step that ends between two cells that of
   * the cell through which the way is cheaper, as {@link Trace} follows it.
   *
   * @param labels of a front with one source
   */
  public static byte code(CostField labels, int cell) {
    if (!labels.reached(cell)) {
      return 0;
    }
    int step = labels.stepAt(cell);
    if (labels.sources()[0] == cell) {
      return StepCodes.SOURCE;
    }
    if (step == Stencil.STRAIGHT) {
      return StepCodes.STRAIGHT;
    }
    Stencil stencil = labels.stencil();
    int end = 0;
    if (Stencil.toCell(step, 0) != step) {
      double first = labels.value(stencil.first(cell, step));
      double second = labels.value(stencil.second(cell, step));
      end = stencil.throughEnd(labels.costs(), cell, step, first, second);
    }
    int toCell = Stencil.toCell(step, end);
    return (byte)
        (toCell < Stencil.NEAR_CODES
            ? 1 + toCell / Stencil.EIGHTHS
            : 1 + Stencil.FAR + (toCell - Stencil.NEAR_CODES) / Stencil.QUARTERS);
  }
}
