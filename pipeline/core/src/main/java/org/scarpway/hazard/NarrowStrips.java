package org.scarpway.hazard;

import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/**
 * Applies {@link MinimumGap} to some rows of the ground, from the cells that block a vehicle there.
 */
final class NarrowStrips {
  private final HazardParams params;
  private final KeepOutCells keepOut;
  private final int haloRows;

  private NarrowStrips(HazardParams params, GridSpec whole, int haloRows) {
    this.params = params;
    // The areas without their margin, which already keeps the middle of the vehicle away.
    this.keepOut = new KeepOutCells(params.keepOut(), 0, whole, KeepOutCells.KEY);
    this.haloRows = haloRows;
  }

  /** Creates the check; null if no room is required or every cell is large enough. */
  static NarrowStrips of(HazardParams params, GridSpec whole) {
    if (params.room() == null) {
      return null;
    }
    int halo = MinimumGap.haloRows(params.room().gapM(), params.room().turnM(), whole);
    return halo == 0 ? null : new NarrowStrips(params, whole, halo);
  }

  int haloRows() {
    return haloRows;
  }

  /** Returns one code of {@link MinimumGap} per cell. */
  byte[] find(Terrain terrain, int firstRow, int firstCol, Rocks rocks, Workers workers) {
    GridSpec spec = terrain.slopeDeg().spec();
    HazardParams.Room room = params.room();
    byte[] keptOut = new byte[spec.cells()];
    keepOut.mark(firstRow, firstCol, spec.rows(), spec.cols(), keptOut, 1);
    float[] slopeDeg = terrain.slopeDeg().values();
    float[] stepM = terrain.stepM().values();
    // A step that is only estimated slows a vehicle, but does not block it.
    boolean measured = terrain.extrapolation() == null || terrain.extrapolation().step() == null;
    double stepLimitM = measured ? params.stepM() : Double.POSITIVE_INFINITY;
    Rocks.Figures figures = new Rocks.Figures();
    boolean[] blocked = new boolean[spec.cells()];
    for (int i = 0; i < blocked.length; i++) {
      // NaN (unknown slope, step or coverage) fails its comparison and blocks.
      blocked[i] =
          keptOut[i] != 0
              || !(slopeDeg[i] <= room.blockedDeg())
              || !(stepM[i] <= stepLimitM)
              || rocks.bar(i, figures);
    }
    return MinimumGap.find(blocked, spec, room.gapM(), room.turnM(), workers);
  }
}
