package org.scarpway.terrain;

import org.scarpway.dem.Dem;
import org.scarpway.dem.HeightRows;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * Computes all terrain derivatives from heights. The result is bit-identical for any thread count.
 */
public final class TerrainStage {
  private TerrainStage() {}

  /**
   * Computes what later stages use of all ground at once; {@link TerrainStrips} processes ground
   * larger than memory.
   *
   * @throws org.scarpway.stage.UserError if the ground is smaller than a measurement window
   */
  public static Terrain compute(Dem dem, TerrainParams params, Workers workers, Progress progress) {
    return layers(dem, params, workers, progress).terrain();
  }

  /** Computes every layer of all ground at once, like {@link #compute}. */
  public static TerrainLayers layers(
      Dem dem, TerrainParams params, Workers workers, Progress progress) {
    TerrainStrips strips = new TerrainStrips(HeightRows.of(dem.heightM()), params);
    progress.begin("terrain", strips.steps());
    TerrainLayers layers =
        strips.fill(dem.heightM(), 0, dem.heightM().spec().rows(), workers, progress);
    progress.end();
    return layers;
  }
}
