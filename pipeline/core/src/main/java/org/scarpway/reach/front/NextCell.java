package org.scarpway.reach.front;

import org.scarpway.reach.question.StepCodes;

/** The next cell of the way from a cell to the source of a front. */
public final class NextCell {
  private NextCell() {}

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
