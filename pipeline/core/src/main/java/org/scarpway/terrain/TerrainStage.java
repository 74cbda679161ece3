package org.scarpway.terrain;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.dem.Dem;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/** From heights to everything that is derived from them. The same bytes for any thread count. */
public final class TerrainStage {
  private TerrainStage() {}

  /**
   * @throws UserError where the ground is smaller than what is to be measured on it
   */
  public static Terrain compute(Dem dem, TerrainParams params, Workers workers, Progress progress) {
    GridSpec spec = dem.heightM().spec();
    float[] heightM = dem.heightM().values();
    int rows = spec.rows();
    int cols = spec.cols();
    Footprint footprint = footprint(params, spec);
    requireRoom(params, footprint, spec);
    Extrapolation extrapolation = extrapolation(params, footprint, spec, heightM);
    HeightScale scale = heightScale(heightM, rows, cols, footprint, workers);
    TerrainRows kernel =
        new TerrainRows(params, footprint, scale, extrapolation, spec.cellXM(), spec.cellYM());

    TerrainArrays out = new TerrainArrays(spec.cells(), params);
    progress.begin("terrain", 2L * spec.cells());
    int planeBand = planeBandRows(footprint, rows, workers.threads());
    List<Runnable> planes = new ArrayList<>();
    for (int from = 0; from < rows; from += planeBand) {
      int first = from;
      int end = Math.min(rows, from + planeBand);
      planes.add(
          () -> {
            kernel.plane(heightM, rows, cols, first, end, out);
            progress.advance((long) (end - first) * cols);
          });
    }
    workers.all(planes);
    workers.overRows(
        rows,
        (from, to) -> {
          kernel.rest(heightM, rows, cols, from, to, out);
          progress.advance((long) (to - from) * cols);
        });
    progress.end();
    return new Terrain(
        dem.heightM(),
        new FloatGrid(spec, out.slopeDeg),
        new FloatGrid(spec, out.aspectDeg),
        new FloatGrid(spec, out.gradEast),
        new FloatGrid(spec, out.gradNorth),
        new FloatGrid(spec, out.roughnessM),
        new FloatGrid(spec, out.stepM),
        new FloatGrid(spec, out.ruggednessM),
        new FloatGrid(spec, out.convexityM),
        out.slopeSigmaDeg == null ? null : new FloatGrid(spec, out.slopeSigmaDeg),
        out.slopeOverLimit01 == null ? null : new FloatGrid(spec, out.slopeOverLimit01),
        extrapolation,
        notes(params, footprint, extrapolation, spec));
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

  /** A start-up of a band costs a few footprint heights of rows, so bands are several of them. */
  private static int planeBandRows(Footprint footprint, int rows, int threads) {
    int even = (rows + threads - 1) / threads;
    return Math.max(16 * footprint.halfRows(), Math.min(even, 256));
  }

  private static void requireRoom(TerrainParams params, Footprint footprint, GridSpec spec) {
    int needRows = 1 + 2 * TerrainRows.haloRows(params, footprint, spec.cellYM());
    int needCols = 1 + 2 * TerrainRows.haloRows(params, turned(footprint), spec.cellXM());
    if (spec.rows() < needRows || spec.cols() < needCols) {
      throw UserError.of(
          "dem",
          String.format(
              Locale.ROOT,
              "%d x %d cells of %.4g x %.4g m are too few to measure over %.4g m",
              spec.rows(),
              spec.cols(),
              spec.cellYM(),
              spec.cellXM(),
              Math.max(
                  params.baselineM(), Math.max(2 * params.wheelSpacingM(), params.wheelbaseM()))),
          "at least " + needRows + " x " + needCols + " cells",
          "use a larger window, finer cells or a shorter terrain.baseline_m");
    }
  }

  private static Footprint turned(Footprint f) {
    return new Footprint(f.halfRows(), f.halfCols(), f.halfDiagonal());
  }

  private static Extrapolation extrapolation(
      TerrainParams params, Footprint footprint, GridSpec spec, float[] heightM) {
    double measuredM = footprint.baselineM(spec.cellXM(), spec.cellYM());
    boolean coarseFootprint =
        footprint.equals(Footprint.SMALLEST) && params.baselineM() < measuredM * (1 - 1e-9);
    double cellM = Math.max(spec.cellXM(), spec.cellYM());
    boolean coarseStep = params.wheelSpacingM() < cellM * (1 - 1e-9);
    if (!coarseFootprint && !coarseStep) {
      return null;
    }
    SelfAffine law =
        SelfAffine.ofGround(heightM, spec.rows(), spec.cols(), spec.cellXM(), spec.cellYM());
    return new Extrapolation(
        law,
        coarseFootprint ? Extrapolation.Scale.of(law, measuredM, params.baselineM()) : null,
        coarseStep ? Extrapolation.Scale.of(law, cellM, params.wheelSpacingM()) : null);
  }

  static HeightScale heightScale(
      float[] heightM, int rows, int cols, Footprint footprint, Workers workers) {
    float[] lowest = new float[rows];
    float[] highest = new float[rows];
    workers.overRows(
        rows,
        (from, to) -> {
          for (int row = from; row < to; row++) {
            float low = Float.POSITIVE_INFINITY;
            float high = Float.NEGATIVE_INFINITY;
            for (int i = row * cols; i < row * cols + cols; i++) {
              float z = heightM[i];
              // Both comparisons are false for a void.
              low = z < low ? z : low;
              high = z > high ? z : high;
            }
            lowest[row] = low;
            highest[row] = high;
          }
        });
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int row = 0; row < rows; row++) {
      low = Math.min(low, lowest[row]);
      high = Math.max(high, highest[row]);
    }
    return HeightScale.of(low, high, footprint);
  }

  private static List<String> notes(
      TerrainParams params, Footprint footprint, Extrapolation extrapolation, GridSpec spec) {
    List<String> notes = new ArrayList<>();
    double slopeM =
        params.slope() == SlopeMethod.FOOTPRINT_PLANE
            ? footprint.baselineM(spec.cellXM(), spec.cellYM())
            : 2 * spec.cellM();
    notes.add(
        text(
            "Slope is measured over %.3g m; steeper ground shorter than that is smoothed out.",
            slopeM));
    if (extrapolation != null) {
      SelfAffine law = extrapolation.law();
      if (law == null) {
        notes.add(
            "Cells are coarser than the vehicle and no scaling law could be fitted: roughness and"
                + " step are given at the scale of the cells.");
      } else {
        notes.add(
            text(
                "Cells are coarser than the vehicle: scaling law with Hurst exponent %.2f (95 %%"
                    + " %.2f to %.2f, R2 %.3f, %d lags). What it gives is an estimate and may be"
                    + " too low.",
                law.hurst(), law.hurstLow(), law.hurstHigh(), law.r2(), law.points()));
        addScale(notes, "Roughness", extrapolation.roughness());
        addScale(notes, "Step", extrapolation.step());
      }
    }
    if (Convexity.fromCurvature(params.wheelbaseM(), spec.cellXM(), spec.cellYM())) {
      notes.add(
          text(
              "Convexity over the wheelbase of %.3g m comes from the curvature of cells of %.3g m;"
                  + " sharper crests between cell centres are not seen.",
              params.wheelbaseM(), spec.cellM()));
    }
    return notes;
  }

  private static void addScale(List<String> notes, String what, Extrapolation.Scale scale) {
    if (scale != null) {
      notes.add(
          text(
              "%s is estimated at %.3g m from values measured at %.3g m: factor %.2f (%.2f to"
                  + " %.2f).",
              what,
              scale.toM(),
              scale.fromM(),
              scale.factor(),
              scale.factorLow(),
              scale.factorHigh()));
    }
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
