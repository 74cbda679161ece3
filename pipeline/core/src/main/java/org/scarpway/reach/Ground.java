package org.scarpway.reach;

import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.Mobility;

/**
 * The ground as one vehicle finds it.
 *
 * @param mobility of which the field is needed, and {@code limit} where it is at hand
 * @param heightM elevation on the same grid (m)
 * @param hazard01 hazard on the same grid, 0 to 1; null where no question asks for it
 */
public record Ground(Mobility mobility, Floats heightM, FloatGrid hazard01) {
  public Ground {
    GridSpec spec = mobility.field().spec();
    if (heightM.size() != spec.cells()
        || (hazard01 != null && !spec.sameCellsAs(hazard01.spec()))) {
      throw new IllegalArgumentException("heights, hazard and mobility must share one grid");
    }
  }

  /** With heights in memory. */
  public Ground(Mobility mobility, FloatGrid heightM, FloatGrid hazard01) {
    this(mobility, onGridOf(mobility, heightM), hazard01);
  }

  private static Floats onGridOf(Mobility mobility, FloatGrid heightM) {
    if (!heightM.spec().sameCellsAs(mobility.field().spec())) {
      throw new IllegalArgumentException("heights and mobility must share one grid");
    }
    return Floats.of(heightM.values());
  }

  /** Without hazard. */
  public Ground(Mobility mobility, FloatGrid heightM) {
    this(mobility, heightM, null);
  }

  /** Hazard of a cell, 0 where it is not known. */
  double hazard01(int cell) {
    float h = hazard01 == null ? 0 : hazard01.values()[cell];
    return h > 0 ? h : 0;
  }
}
