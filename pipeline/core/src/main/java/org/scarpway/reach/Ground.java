package org.scarpway.reach;

import org.scarpway.grid.FloatGrid;
import org.scarpway.vehicle.Mobility;

/**
 * The ground as one vehicle finds it.
 *
 * @param heightM elevation on the same grid (m)
 * @param hazard01 hazard on the same grid, 0 to 1; null where no question asks for it
 */
public record Ground(Mobility mobility, FloatGrid heightM, FloatGrid hazard01) {
  public Ground {
    if (!heightM.spec().sameCellsAs(mobility.field().spec())
        || (hazard01 != null && !heightM.spec().sameCellsAs(hazard01.spec()))) {
      throw new IllegalArgumentException("heights, hazard and mobility must share one grid");
    }
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
