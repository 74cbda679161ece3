package org.scarpway.terrain;

import org.scarpway.dem.Dem;
import org.scarpway.dem.HeightRows;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/** From heights to everything that is derived from them. The same bytes for any thread count. */
public final class TerrainStage {
  private TerrainStage() {}

  /**
   * All ground at once; {@link TerrainStrips} works on ground larger than memory.
   *
   * @throws org.scarpway.stage.UserError where the ground is smaller than what is to be measured on
   *     it
   */
  public static Terrain compute(Dem dem, TerrainParams params, Workers workers, Progress progress) {
    TerrainStrips strips = new TerrainStrips(HeightRows.of(dem.heightM()), params);
    progress.begin("terrain", strips.steps());
    Terrain terrain = strips.fill(dem.heightM(), 0, dem.heightM().spec().rows(), workers, progress);
    progress.end();
    return terrain;
  }
}
