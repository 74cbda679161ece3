package org.scarpway.terrain;

import org.scarpway.dem.HeightRows;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/** Slope error by simulation on ground in memory. */
public final class SlopeDraws {
  private SlopeDraws() {}

  public static SlopeSpread spread(
      Terrain terrain,
      TerrainParams params,
      int realisations,
      long seed,
      Workers workers,
      Progress progress) {
    GridSpec spec = terrain.heightM().spec();
    HeightRows heights = HeightRows.of(terrain.heightM());
    SlopeMonteCarlo all =
        new SlopeMonteCarlo(spec, heights.lowestM(), heights.highestM(), params, null);
    all.measured(0, terrain);
    all.draw(realisations, seed, workers, progress);
    return all.rows(0, spec.rows());
  }
}
