package org.scarpway.reach.corridor;

import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.stage.Floats;

/** A question that is answered, with the ground of the route any rows at a time. */
public final class CorridorAnswer {
  private final Floats excessPct;
  private final CorridorResult rest;
  private final GridSpec spec;

  /**
   * @param rest everything else
   */
  CorridorAnswer(Floats excessPct, CorridorResult rest, GridSpec spec) {
    this.excessPct = excessPct;
    this.rest = rest;
    this.spec = spec;
  }

  /** The layer of some rows, and everything else of the whole. */
  public CorridorResult rows(int firstRow, int rows) {
    GridSpec part = spec.part(firstRow, 0, rows, spec.cols());
    float[] pct = new float[part.cells()];
    excessPct.read(firstRow * spec.cols(), pct, 0, pct.length);
    return rest.with(new FloatGrid(part, pct));
  }
}
