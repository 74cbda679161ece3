package org.scarpway.terrain;

import java.util.EnumMap;
import java.util.Map;
import java.util.Set;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * Computes the derivatives that a job requests beyond {@link Terrain}. The result is bit-identical
 * for any thread count.
 */
public final class DerivativeStage {
  private DerivativeStage() {}

  /** Number of rows beyond a strip that its derivatives may depend on. */
  public static int haloRows(TerrainParams params, GridSpec whole) {
    return Math.max(1, FootprintFit.footprint(params, whole).halfRows());
  }

  /**
   * Computes all rows at once.
   *
   * @param params parameters that the terrain was computed with
   * @return one grid per derivative, in the order of {@link Derivative}
   */
  public static Map<Derivative, FloatGrid> compute(
      Terrain terrain,
      TerrainParams params,
      Set<Derivative> wanted,
      Workers workers,
      Progress progress) {
    HeightRows heights = HeightRows.of(terrain.heightM());
    progress.begin("derivatives", heights.spec().cells());
    Map<Derivative, FloatGrid> all =
        strip(terrain, 0, heights.spec().rows(), heights, params, wanted, workers, progress);
    progress.end();
    return all;
  }

  /**
   * Computes some rows; those before and after them are not filled.
   *
   * @param terrain of these rows and of {@link #haloRows} around them, as far as the ground has
   *     them
   * @param fromRow first row of the terrain that is computed
   * @param heights of all ground
   */
  public static Map<Derivative, FloatGrid> strip(
      Terrain terrain,
      int fromRow,
      int rows,
      HeightRows heights,
      TerrainParams params,
      Set<Derivative> wanted,
      Workers workers,
      Progress progress) {
    GridSpec spec = terrain.heightM().spec();
    Map<Derivative, float[]> out = new EnumMap<>(Derivative.class);
    for (Derivative d : wanted) {
      out.put(d, new float[spec.cells()]);
    }
    Footprint footprint = FootprintFit.footprint(params, heights.spec());
    HeightScale scale = HeightScale.of(heights.lowestM(), heights.highestM(), footprint);
    DerivativeRows kernel = new DerivativeRows(footprint, scale, spec.cellXM(), spec.cellYM());
    float[][] plane =
        wanted.contains(Derivative.LARGEST_RESIDUAL) ? new float[3][spec.cells()] : null;
    DerivativeRows.Strip ground =
        new DerivativeRows.Strip(
            terrain.heightM().values(),
            terrain.gradEast().values(),
            terrain.gradNorth().values(),
            terrain.slopeDeg().values(),
            spec.rows(),
            spec.cols());
    workers.overRows(
        rows,
        (from, to) -> {
          kernel.fill(ground, fromRow + from, fromRow + to, out, plane);
          progress.advance((long) (to - from) * spec.cols());
        });
    Map<Derivative, FloatGrid> grids = new EnumMap<>(Derivative.class);
    out.forEach((d, values) -> grids.put(d, new FloatGrid(spec, values)));
    return grids;
  }
}
