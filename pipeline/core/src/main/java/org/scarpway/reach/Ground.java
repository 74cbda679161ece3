package org.scarpway.reach;

import org.scarpway.grid.FloatGrid;
import org.scarpway.vehicle.Mobility;

/**
 * The ground as one vehicle finds it.
 *
 * @param heightM elevation on the same grid (m)
 */
public record Ground(Mobility mobility, FloatGrid heightM) {
  public Ground {
    if (!heightM.spec().sameCellsAs(mobility.field().spec())) {
      throw new IllegalArgumentException("heights and mobility must share one grid");
    }
  }
}
