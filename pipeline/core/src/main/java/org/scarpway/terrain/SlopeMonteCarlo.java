package org.scarpway.terrain;

import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * Monte Carlo slope error: the slope of the ground under many realisations of the height error
 * ({@link ErrorField}), by the job's slope method. Nothing is linearised, so the result is also
 * valid on level ground, where the closed form of {@link SlopeError} is not.
 *
 * <p>Every realisation is worked in strips, and what is kept of all ground may be in a scratch
 * file; the values depend on neither.
 *
 * <p>Source (approach): Hunter G.J. and Goodchild M.F. 1997, Geogr. Analysis 29(1):35-49; Oksanen
 * J. and Sarjakoski T. 2005, Computers and Geosciences 31(8):1015-1027.
 */
public final class SlopeMonteCarlo {
  /** Cells of a strip, unless its halo is nearly as high. */
  private static final int STRIP_CELLS = 1 << 20;

  private final TerrainParams params;
  private final GridSpec spec;
  private final Footprint footprint;
  private final HeightScale scale;
  private final ScratchFile file;
  private final int stripRows;
  private final Floats heightM;
  private final Floats slopeDeg;
  private final Floats sum;
  private final Floats squares;
  private final Floats over;
  private int realisations;
  private long seed;

  /**
   * @param lowestM lowest height of all ground
   * @param highestM highest height of all ground
   * @param params parameters that the terrain was computed with; height error and limit are
   *     required
   * @param file for what is kept of all ground, {@link #bytes}; null for the heap
   */
  public SlopeMonteCarlo(
      GridSpec spec, double lowestM, double highestM, TerrainParams params, ScratchFile file) {
    this(
        spec,
        lowestM,
        highestM,
        params,
        file,
        Math.max(STRIP_CELLS / spec.cols(), 8 * FootprintFit.footprint(params, spec).halfRows()));
  }

  SlopeMonteCarlo(
      GridSpec spec,
      double lowestM,
      double highestM,
      TerrainParams params,
      ScratchFile file,
      int stripRows) {
    if (params.verticalSigmaM() == null || params.slopeLimitDeg() == null) {
      throw new IllegalArgumentException("needs a height error and a slope limit");
    }
    this.params = params;
    this.spec = spec;
    this.footprint = FootprintFit.footprint(params, spec);
    HeightScale measured = HeightScale.of(lowestM, highestM, footprint);
    // Leave room for the errors beyond the relief: a quantum twice as coarse covers twice the
    // relief.
    this.scale = new HeightScale(measured.middleM(), 2 * measured.quantumM());
    this.file = file;
    this.stripRows = Math.min(spec.rows(), stripRows);
    this.heightM = Floats.of(spec.cells(), file);
    this.slopeDeg = Floats.of(spec.cells(), file);
    this.sum = Floats.of(spec.cells(), file);
    this.squares = Floats.of(spec.cells(), file);
    this.over = Floats.of(spec.cells(), file);
  }

  /** Returns the bytes that are kept of all ground. */
  public static double bytes(GridSpec spec, Double correlationLengthM) {
    return 5.0 * Float.BYTES * spec.cells() + ErrorField.bytes(spec, correlationLengthM);
  }

  /** Takes the terrain of some rows; all rows are required before anything is drawn. */
  public void measured(int firstRow, Terrain rows) {
    int at = firstRow * spec.cols();
    heightM.write(at, rows.heightM().values(), 0, rows.heightM().values().length);
    slopeDeg.write(at, rows.slopeDeg().values(), 0, rows.slopeDeg().values().length);
  }

  /**
   * Draws the realisations, once.
   *
   * @param n number of realisations, at least 2
   * @param withSeed the same seed gives bit-identical results on every machine
   */
  public void draw(int n, long withSeed, Workers workers, Progress progress) {
    if (n < 2) {
      throw new IllegalArgumentException("needs at least 2 realisations");
    }
    realisations = n;
    seed = withSeed;
    ErrorField errors =
        new ErrorField(
            "terrain.monte_carlo",
            spec,
            params.verticalSigmaM(),
            params.correlationLengthM(),
            seed,
            file,
            workers);
    Strip strip = new Strip();
    progress.begin("slope error", n);
    for (int done = 0; done < n; done += 2) {
      int both = Math.min(2, n - done);
      errors.draw(done / 2, workers);
      for (int row = 0; row < spec.rows(); row += stripRows) {
        strip.add(errors, both, row, Math.min(spec.rows(), row + stripRows), workers);
      }
      progress.advance(both);
    }
    progress.end();
  }

  /** Arrays of a strip and the halo rows around it. */
  private final class Strip {
    private final int cols = spec.cols();
    private final int most =
        Math.min(spec.rows(), stripRows + 2 * footprint.halfRows()) * spec.cols();
    private final float[] measuredM = new float[most];
    private final float[] measuredDeg = new float[most];
    private final float[][] drawn = new float[2][most];
    private final float[][] plane = new float[3][most];
    private final float[][] tally = new float[3][most];

    /** Adds one or both of a pair of realisations on some rows. */
    void add(ErrorField errors, int both, int fromRow, int toRow, Workers workers) {
      int top = Math.max(0, fromRow - footprint.halfRows());
      int end = Math.min(spec.rows(), toRow + footprint.halfRows());
      int skip = (fromRow - top) * cols;
      int at = fromRow * cols;
      int cells = (toRow - fromRow) * cols;
      heightM.read(top * cols, measuredM, 0, (end - top) * cols);
      slopeDeg.read(at, measuredDeg, skip, cells);
      sum.read(at, tally[0], skip, cells);
      squares.read(at, tally[1], skip, cells);
      over.read(at, tally[2], skip, cells);
      errors.add(top, end - top, measuredM, drawn[0], drawn[1], workers);
      for (int k = 0; k < both; k++) {
        float[] one = drawn[k];
        workers.overRows(
            toRow - fromRow,
            (from, to) -> add(one, end - top, fromRow - top + from, fromRow - top + to));
      }
      sum.write(at, tally[0], skip, cells);
      squares.write(at, tally[1], skip, cells);
      over.write(at, tally[2], skip, cells);
    }

    /**
     * Adds the differences from the measured slope; these are small, which preserves float
     * precision.
     */
    private void add(float[] drawnM, int rows, int from, int to) {
      double cellXM = spec.cellXM();
      double cellYM = spec.cellYM();
      SlopeMethod method = params.slope();
      if (!Gradients.fill(
          method, drawnM, rows, cols, from, to, cellXM, cellYM, plane[0], plane[1])) {
        FootprintPlane.fill(
            drawnM, rows, cols, from, to, footprint, scale, cellXM, cellYM, plane[0], plane[1],
            plane[2]);
      }
      for (int i = from * cols; i < to * cols; i++) {
        double east = plane[0][i];
        double north = plane[1][i];
        double slope = SlopeAspect.slopeDeg(Math.sqrt(east * east + north * north));
        double off = slope - measuredDeg[i];
        tally[0][i] += (float) off;
        tally[1][i] += (float) (off * off);
        tally[2][i] += slope > params.slopeLimitDeg() ? 1 : 0;
      }
    }
  }

  /** Returns the statistics of some rows over all realisations drawn. */
  public SlopeSpread rows(int firstRow, int rows) {
    GridSpec part = spec.part(firstRow, 0, rows, spec.cols());
    int n = realisations;
    float[] bias = read(sum, firstRow, part);
    float[] sigma = read(squares, firstRow, part);
    float[] share = read(over, firstRow, part);
    for (int i = 0; i < share.length; i++) {
      double mean = (double) bias[i] / n;
      bias[i] = (float) mean;
      sigma[i] = (float) Math.sqrt(Math.max(0, sigma[i] - n * mean * mean) / (n - 1));
      share[i] = Double.isNaN(mean) ? Float.NaN : share[i] / n;
    }
    return new SlopeSpread(
        new FloatGrid(part, sigma),
        new FloatGrid(part, bias),
        new FloatGrid(part, share),
        params.slopeLimitDeg(),
        n,
        seed);
  }

  private float[] read(Floats all, int firstRow, GridSpec part) {
    float[] some = new float[part.cells()];
    all.read(firstRow * spec.cols(), some, 0, some.length);
    return some;
  }
}
