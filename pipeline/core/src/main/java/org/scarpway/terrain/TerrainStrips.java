package org.scarpway.terrain;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * Computes terrain derivatives strip by strip, for ground larger than memory. Quantities that
 * depend on all of the ground (the {@link HeightScale} of exact sums, the {@link SelfAffine} law)
 * are computed first; a strip then needs only its own rows and halo rows. The values do not depend
 * on the height of the strips.
 */
public final class TerrainStrips {
  private final HeightRows ground;
  private final GridSpec spec;
  private final TerrainParams params;
  private final Footprint footprint;
  private final int haloRows;
  private final Extrapolation extrapolation;
  private final Lengths lengths;
  private final TerrainRows kernel;
  private final List<String> notes;
  private float[] heights;
  private TerrainArrays arrays;

  /**
   * The derivatives of a strip.
   *
   * @param layers rows of the strip, with halo rows north and south whose values are meaningless
   * @param skipRows number of halo rows of {@code layers} north of the strip
   */
  public record Strip(TerrainLayers layers, int firstRow, int rows, int skipRows) {}

  /**
   * @throws org.scarpway.stage.UserError if the ground is smaller than a measurement window
   */
  public TerrainStrips(HeightRows ground, TerrainParams params) {
    this.ground = ground;
    this.spec = ground.spec();
    this.params = params;
    this.footprint = FootprintFit.footprint(params, spec);
    this.haloRows = FootprintFit.haloRows(params, spec);
    double cellM = Math.max(spec.cellXM(), spec.cellYM());
    boolean coarse = Breaks.needLaw(params.wheelSpacingM(), cellM);
    GroundLaw law = coarse || isCoarse(params, footprint, spec) ? GroundLaw.of(ground) : null;
    this.extrapolation = extrapolation(params, footprint, law, spec);
    boolean scaled = extrapolation != null && extrapolation.step() != null;
    Breaks breaks =
        new Breaks(
            coarse ? law : null,
            params.wheelSpacingM(),
            cellM,
            scaled ? extrapolation.step().factor() : 1);
    HeightScale scale = HeightScale.of(ground.lowestM(), ground.highestM(), footprint);
    this.kernel =
        new TerrainRows(
            params, footprint, scale, extrapolation, breaks, spec.cellXM(), spec.cellYM());
    this.lengths = Lengths.of(params, footprint, extrapolation, spec);
    this.notes = TerrainNotes.of(params, footprint, extrapolation, spec);
  }

  /** Returns the extrapolation, null if everything is measured at the vehicle's own scale. */
  public Extrapolation extrapolation() {
    return extrapolation;
  }

  public Lengths lengths() {
    return lengths;
  }

  public List<String> notes() {
    return notes;
  }

  /** Number of progress steps of all strips together. */
  public long steps() {
    return 2L * spec.cells();
  }

  /**
   * Reads a strip and computes its derivatives. The returned arrays are reused for the next strip.
   */
  public Strip strip(int firstRow, int rows, Workers workers, Progress progress) {
    int top = Math.max(0, firstRow - haloRows);
    int bottom = Math.min(spec.rows(), firstRow + rows + haloRows);
    int skip = firstRow - top;
    GridSpec part = spec.part(top, 0, bottom - top, spec.cols());
    if (heights != null && heights.length != part.cells()) {
      heights = null;
      arrays = null;
    }
    heights = ground.rows(top, part.rows(), heights);
    FloatGrid heightM = new FloatGrid(part, heights);
    return new Strip(fill(heightM, skip, skip + rows, workers, progress), firstRow, rows, skip);
  }

  /**
   * Computes the derivatives of a window of the ground.
   *
   * @param heightM heights of the window (m), including the halo on every side or up to the edge of
   *     the ground; results within the halo are meaningless
   */
  public TerrainLayers window(FloatGrid heightM, Workers workers) {
    TerrainArrays forStrips = arrays;
    arrays = null;
    TerrainLayers layers = fill(heightM, 0, heightM.spec().rows(), workers, Progress.NONE);
    arrays = forStrips;
    return layers;
  }

  /** Computes rows whose halo is available or lies beyond the edge of the ground. */
  TerrainLayers fill(
      FloatGrid heightM, int fromRow, int toRow, Workers workers, Progress progress) {
    GridSpec part = heightM.spec();
    float[] z = heightM.values();
    TerrainArrays out = arrays == null ? new TerrainArrays(part.cells(), params) : arrays;
    arrays = out;
    int cols = part.cols();
    int planeBand = planeBandRows(footprint, toRow - fromRow, workers.threads());
    List<Runnable> planes = new ArrayList<>();
    for (int from = fromRow; from < toRow; from += planeBand) {
      int first = from;
      int end = Math.min(toRow, from + planeBand);
      planes.add(
          () -> {
            kernel.plane(z, part.rows(), cols, first, end, out);
            progress.advance((long) (end - first) * cols);
          });
    }
    workers.all(planes);
    workers.overRows(
        toRow - fromRow,
        (from, to) -> {
          kernel.rest(z, part.rows(), cols, fromRow + from, fromRow + to, out);
          progress.advance((long) (to - from) * cols);
        });
    Terrain terrain =
        new Terrain(
            heightM,
            new FloatGrid(part, out.slopeDeg),
            new FloatGrid(part, out.gradEast),
            new FloatGrid(part, out.gradNorth),
            new FloatGrid(part, out.roughnessM),
            new FloatGrid(part, out.stepM),
            new FloatGrid(part, out.convexityM),
            extrapolation,
            lengths);
    return new TerrainLayers(
        terrain,
        new FloatGrid(part, out.aspectDeg),
        new FloatGrid(part, out.ruggednessM),
        out.slopeSigmaDeg == null ? Optional.empty() : Optional.of(errors(part, out)),
        notes);
  }

  private static TerrainLayers.SlopeErrors errors(GridSpec part, TerrainArrays out) {
    return new TerrainLayers.SlopeErrors(
        new FloatGrid(part, out.slopeSigmaDeg),
        new FloatGrid(part, out.aspectSigmaDeg),
        Optional.ofNullable(out.slopeOverLimit01).map(p -> new FloatGrid(part, p)));
  }

  /**
   * Starting a band costs as much as a few footprint heights of rows, so bands are several times
   * that.
   */
  private static int planeBandRows(Footprint footprint, int rows, int threads) {
    int even = (rows + threads - 1) / threads;
    return Math.max(16 * footprint.halfRows(), Math.min(even, 256));
  }

  private static boolean isCoarse(TerrainParams params, Footprint footprint, GridSpec spec) {
    double measuredM = footprint.baselineM(spec.cellXM(), spec.cellYM());
    return footprint.equals(Footprint.SMALLEST) && params.baselineM() < measuredM * (1 - 1e-9);
  }

  private static Extrapolation extrapolation(
      TerrainParams params, Footprint footprint, GroundLaw ground, GridSpec spec) {
    boolean coarseFootprint = isCoarse(params, footprint, spec);
    double cellM = Math.max(spec.cellXM(), spec.cellYM());
    boolean coarseStep = params.wheelSpacingM() < cellM * (1 - 1e-9);
    if (!coarseFootprint && !coarseStep) {
      return null;
    }
    SelfAffine law = ground.law();
    double measuredM = footprint.baselineM(spec.cellXM(), spec.cellYM());
    return new Extrapolation(
        law,
        coarseFootprint ? Extrapolation.Scale.of(law, measuredM, params.baselineM()) : null,
        coarseStep ? Extrapolation.Scale.of(law, cellM, params.wheelSpacingM()) : null);
  }
}
