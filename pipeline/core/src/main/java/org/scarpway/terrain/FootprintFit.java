package org.scarpway.terrain;

import java.util.Locale;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/**
 * Determines the footprint in cells of a grid and the number of halo rows that the derivatives of a
 * strip depend on. Rejects grids that are too fine or too small.
 */
public final class FootprintFit {
  /** Returns the measured footprint: the vehicle's disc, or 3 x 3 cells if that is larger. */
  public static Footprint footprint(TerrainParams params, GridSpec spec) {
    requireCoarseEnough(params, spec);
    double rows = longestM(params) / spec.cellYM();
    double cols = longestM(params) / spec.cellXM();
    if (Math.max(rows, cols) > MOST_CELLS_TO_LOOK_FOR) {
      requireRoom(params, spec, rows + 3, cols + 3);
    }
    double radiusM = params.baselineM() / 2;
    double coarsest = Math.max(spec.cellXM(), spec.cellYM());
    Footprint footprint =
        radiusM < Math.sqrt(2) * coarsest
            ? Footprint.SMALLEST
            : Footprint.disc(radiusM, spec.cellXM(), spec.cellYM());
    requireRoom(
        params,
        spec,
        Math.max(rows, 1 + 2 * TerrainRows.leastRows(params, footprint, spec.cellYM())),
        Math.max(cols, 1 + 2 * TerrainRows.leastRows(params, turned(footprint), spec.cellXM())));
    return footprint;
  }

  /** Returns the number of halo rows on either side of a strip that its derivatives depend on. */
  public static int haloRows(TerrainParams params, GridSpec spec) {
    return TerrainRows.haloRows(params, footprint(params, spec), spec.cellYM());
  }

  /**
   * Beyond this length in cells, the grid size is checked before the footprint is determined, with
   * up to three rows and columns more than may be needed. The search for the footprint takes time
   * proportional to the square of its size, which would otherwise be unbounded.
   */
  private static final double MOST_CELLS_TO_LOOK_FOR = 2048;

  private static void requireCoarseEnough(TerrainParams params, GridSpec spec) {
    double finestM = Math.min(spec.cellXM(), spec.cellYM());
    double leastM = params.wheelSpacingM() / StepHeight.MOST_CELLS;
    if (finestM < leastM * (1 - 1e-9)) {
      throw UserError.of(
          "dem",
          String.format(
              Locale.ROOT,
              "cells of %.4g x %.4g m are too fine for steps within %.4g m, the largest wheel spacing",
              spec.cellXM(),
              spec.cellYM(),
              params.wheelSpacingM()),
          String.format(Locale.ROOT, "cells of %.4g m or more", leastM),
          "set dem.cell_size_m to "
              + Math.ceil(leastM * 1000) / 1000
              + " or more, or correct the cell size of the file");
    }
  }

  private static void requireRoom(
      TerrainParams params, GridSpec spec, double needRows, double needCols) {
    if (!(spec.rows() >= needRows && spec.cols() >= needCols)) {
      throw UserError.of(
          "dem",
          String.format(
              Locale.ROOT,
              "%d x %d cells of %.4g x %.4g m are too few to measure over %.4g m",
              spec.rows(),
              spec.cols(),
              spec.cellYM(),
              spec.cellXM(),
              longestM(params)),
          String.format(
              Locale.ROOT, "at least %.0f x %.0f cells", Math.ceil(needRows), Math.ceil(needCols)),
          "use a larger window, finer cells or a shorter terrain.baseline_m");
    }
  }

  /** Longest baseline of all measures (m). */
  private static double longestM(TerrainParams params) {
    return Math.max(params.baselineM(), Math.max(2 * params.wheelSpacingM(), params.wheelbaseM()));
  }

  private static Footprint turned(Footprint f) {
    return new Footprint(f.halfRows(), f.halfCols(), f.halfDiagonal());
  }

  private FootprintFit() {}
}
