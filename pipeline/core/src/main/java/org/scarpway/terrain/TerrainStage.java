package org.scarpway.terrain;

import org.scarpway.dem.Dem;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.GridSpec;
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

  /** The footprint that is measured: the vehicle's disc, or 3 x 3 cells where that is larger. */
  public static Footprint footprint(TerrainParams params, GridSpec spec) {
    double radiusM = params.baselineM() / 2;
    double coarsest = Math.max(spec.cellXM(), spec.cellYM());
    return radiusM < Math.sqrt(2) * coarsest
        ? Footprint.SMALLEST
        : Footprint.disc(radiusM, spec.cellXM(), spec.cellYM());
  }

  /** Rows beyond a strip of ground that its derivatives depend on. */
  public static int haloRows(TerrainParams params, GridSpec spec) {
    return TerrainRows.haloRows(params, footprint(params, spec), spec.cellYM());
  }
}
