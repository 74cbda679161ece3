package org.scarpway.reach.corridor;

import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.stage.Floats;

/** A solved corridor request; the excess layer can be requested for any range of rows. */
public final class CorridorAnswer {
  private final Floats excessPct;
  private final CorridorResult rest;
  private final GridSpec spec;

  /**
   * @param rest the result without the excess layer
   */
  CorridorAnswer(Floats excessPct, CorridorResult rest, GridSpec spec) {
    this.excessPct = excessPct;
    this.rest = rest;
    this.spec = spec;
  }

  /**
   * Returns the result with the excess layer of some rows; everything else refers to the whole
   * grid.
   *
   * @param firstRow first row, from 0 in the north
   * @param rows number of rows, at least 1
   */
  public CorridorResult rows(int firstRow, int rows) {
    GridSpec part = spec.part(firstRow, 0, rows, spec.cols());
    float[] pct = new float[part.cells()];
    excessPct.read(firstRow * spec.cols(), pct, 0, pct.length);
    return rest.with(new FloatGrid(part, pct));
  }
}
