package org.scarpway.terrain;

import java.util.Arrays;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * Monte Carlo slope error: the slope of the ground under many realisations of the height error
 * ({@link ErrorField}), by the job's slope method. Nothing is linearised, so the result is also
 * valid on level ground, where the closed form of {@link SlopeError} is not.
 *
 * <p>Source (approach): Hunter G.J. and Goodchild M.F. 1997, Geogr. Analysis 29(1):35-49; Oksanen
 * J. and Sarjakoski T. 2005, Computers and Geosciences 31(8):1015-1027.
 */
public final class SlopeMonteCarlo {
  private final TerrainParams params;
  private final GridSpec spec;
  private final Footprint footprint;
  private final HeightScale scale;
  private final float[] slopeDeg;
  private final float[] sum;
  private final float[] squares;
  private final float[] over;

  private SlopeMonteCarlo(Terrain terrain, TerrainParams params) {
    this.params = params;
    this.spec = terrain.heightM().spec();
    this.footprint = FootprintFit.footprint(params, spec);
    this.slopeDeg = terrain.slopeDeg().values();
    HeightScale measured = HeightScale.of(terrain.heightM(), footprint);
    // Leave room for the errors beyond the relief: a quantum twice as coarse covers twice the
    // relief.
    this.scale = new HeightScale(measured.middleM(), 2 * measured.quantumM());
    this.sum = new float[spec.cells()];
    this.squares = new float[spec.cells()];
    this.over = new float[spec.cells()];
  }

  /**
   * @param params parameters that the terrain was computed with; height error and limit are
   *     required
   * @param realisations at least 2
   * @param seed the same seed gives bit-identical results on every machine
   */
  public static SlopeSpread run(
      Terrain terrain,
      TerrainParams params,
      int realisations,
      long seed,
      Workers workers,
      Progress progress) {
    if (params.verticalSigmaM() == null || params.slopeLimitDeg() == null || realisations < 2) {
      throw new IllegalArgumentException(
          "needs a height error, a slope limit and at least 2 realisations");
    }
    SlopeMonteCarlo all = new SlopeMonteCarlo(terrain, params);
    ErrorField errors =
        new ErrorField(
            "terrain.monte_carlo",
            all.spec,
            params.verticalSigmaM(),
            params.correlationLengthM(),
            seed,
            workers);
    float[] heightM = terrain.heightM().values();
    float[][] ground = new float[2][heightM.length];
    float[][] plane = new float[3][heightM.length];
    progress.begin("slope error", realisations);
    for (int done = 0; done < realisations; done += 2) {
      errors.addPair(done / 2, heightM, ground[0], ground[1], workers);
      for (int k = 0; k < Math.min(2, realisations - done); k++) {
        float[] drawn = ground[k];
        workers.overRows(all.spec.rows(), (from, to) -> all.add(drawn, plane, from, to));
        progress.advance(1);
      }
    }
    progress.end();
    return all.result(realisations, seed);
  }

  /**
   * Adds the differences from the measured slope; these are small, which preserves float precision.
   */
  private void add(float[] heightM, float[][] plane, int from, int to) {
    int rows = spec.rows();
    int cols = spec.cols();
    double cellXM = spec.cellXM();
    double cellYM = spec.cellYM();
    SlopeMethod method = params.slope();
    if (!Gradients.fill(
        method, heightM, rows, cols, from, to, cellXM, cellYM, plane[0], plane[1])) {
      FootprintPlane.fill(
          heightM, rows, cols, from, to, footprint, scale, cellXM, cellYM, plane[0], plane[1],
          plane[2]);
    }
    for (int i = from * cols; i < to * cols; i++) {
      double east = plane[0][i];
      double north = plane[1][i];
      double drawn = SlopeAspect.slopeDeg(Math.sqrt(east * east + north * north));
      double off = drawn - slopeDeg[i];
      sum[i] += (float) off;
      squares[i] += (float) (off * off);
      over[i] += drawn > params.slopeLimitDeg() ? 1 : 0;
    }
  }

  private SlopeSpread result(int n, long seed) {
    float[] sigma = new float[sum.length];
    float[] bias = new float[sum.length];
    float[] share = new float[sum.length];
    Arrays.fill(share, Float.NaN);
    for (int i = 0; i < sum.length; i++) {
      double mean = (double) sum[i] / n;
      bias[i] = (float) mean;
      sigma[i] = (float) Math.sqrt(Math.max(0, squares[i] - n * mean * mean) / (n - 1));
      if (!Double.isNaN(mean)) {
        share[i] = over[i] / n;
      }
    }
    return new SlopeSpread(
        new FloatGrid(spec, sigma),
        new FloatGrid(spec, bias),
        new FloatGrid(spec, share),
        params.slopeLimitDeg(),
        n,
        seed);
  }
}
