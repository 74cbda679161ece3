package org.scarpway.terrain;

import java.util.EnumMap;
import java.util.Map;
import java.util.Set;
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

  /**
   * @param params parameters that the terrain was computed with
   * @return one grid per derivative, in the order of {@link Derivative}
   */
  public static Map<Derivative, FloatGrid> compute(
      Terrain terrain,
      TerrainParams params,
      Set<Derivative> wanted,
      Workers workers,
      Progress progress) {
    GridSpec spec = terrain.heightM().spec();
    Map<Derivative, float[]> out = new EnumMap<>(Derivative.class);
    for (Derivative d : wanted) {
      out.put(d, new float[spec.cells()]);
    }
    Footprint footprint = FootprintFit.footprint(params, spec);
    float[] heightM = terrain.heightM().values();
    HeightScale scale = HeightScale.of(terrain.heightM(), footprint);
    DerivativeRows kernel = new DerivativeRows(footprint, scale, spec.cellXM(), spec.cellYM());
    float[][] plane =
        wanted.contains(Derivative.LARGEST_RESIDUAL) ? new float[3][spec.cells()] : null;
    DerivativeRows.Strip ground =
        new DerivativeRows.Strip(
            heightM,
            terrain.gradEast().values(),
            terrain.gradNorth().values(),
            terrain.slopeDeg().values(),
            spec.rows(),
            spec.cols());
    progress.begin("derivatives", spec.cells());
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          kernel.fill(ground, from, to, out, plane);
          progress.advance((long) (to - from) * spec.cols());
        });
    progress.end();
    Map<Derivative, FloatGrid> grids = new EnumMap<>(Derivative.class);
    out.forEach((d, values) -> grids.put(d, new FloatGrid(spec, values)));
    return grids;
  }
}
