package org.scarpway.terrain;

import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.terrain.SlopeError.GradientSigma;
import org.scarpway.terrain.TerrainParams.SlopeMethod;

/**
 * Standard deviations of the layers that a vehicle is evaluated on, propagated from the height
 * error. All layers are linear combinations of heights ({@link HeightSum}), so the values are exact
 * except in two cases named below, which overestimate. Roughness is not included: height errors
 * increase it and do not hide it.
 *
 * @param heights the error itself
 * @param gradient error of a gradient component (rise over run), the larger of the two
 * @param slopeBreak error of the change of grade along a heading from a cell to the next, on the
 *     heading where it is largest; for the footprint plane the upper bound of twice the gradient
 *     error is used
 * @param step error of all differences that a step is the maximum of
 * @param stepOdds the same for each difference separately, null if they cannot be separated
 * @param convexityM error of the rise above the chord of the wheelbase, on the heading where it is
 *     largest
 */
public record LayerErrors(
    HeightError heights,
    double gradient,
    double slopeBreak,
    StepError step,
    StepOdds stepOdds,
    double convexityM) {

  /** Returns the errors, null if the height error is unknown. */
  public static LayerErrors of(TerrainParams params, GridSpec spec) {
    HeightError heights = HeightError.of(params);
    if (heights == null) {
      return null;
    }
    double x = spec.cellXM();
    double y = spec.cellYM();
    Footprint footprint = FootprintFit.footprint(params, spec);
    GradientSigma sigma =
        SlopeError.gradientSigma(
            params.slope(), footprint, x, y, heights.sigmaM(), params.correlationLengthM());
    double gradient = Math.max(sigma.east(), sigma.north());
    return new LayerErrors(
        heights,
        gradient,
        params.slope() == SlopeMethod.FOOTPRINT_PLANE
            ? 2 * gradient
            : slopeBreak(params.slope(), heights, spec),
        StepError.of(params, footprint, heights, spec),
        StepOdds.of(params, footprint, heights, spec),
        convexity(params.wheelbaseM(), heights, x, y));
  }

  private static double slopeBreak(SlopeMethod method, HeightError heights, GridSpec spec) {
    HeightSum east = HeightSum.gradient(method, true, spec.cellXM());
    HeightSum north = HeightSum.gradient(method, false, spec.cellYM());
    Headings headings = Headings.of(spec);
    double most = 0;
    for (int k = 0; k < Headings.COUNT; k++) {
      HeightSum along = new HeightSum().add(east, headings.east(k)).add(north, headings.north(k));
      int rows = (int) Math.round(Headings.dRow(k) / 4.0);
      int cols = (int) Math.round(Headings.dCol(k) / 4.0);
      HeightSum change = new HeightSum().add(along, 1, rows, cols).add(along, -1);
      most = Math.max(most, change.sigma(heights, spec.cellXM(), spec.cellYM()));
    }
    return most;
  }

  private static double convexity(double chordM, HeightError heights, double x, double y) {
    double most = 0;
    boolean curved = Convexity.fromCurvature(chordM, x, y);
    int headings = curved ? 64 : Convexity.CHORDS;
    for (int k = 0; k < headings; k++) {
      double azimuth = Math.PI * k / headings;
      double east = Math.sin(azimuth);
      double north = Math.cos(azimuth);
      HeightSum rise =
          curved
              ? Convexity.ofCurvature(chordM, x, y, east, north)
              : Convexity.ofChord(chordM / x * east, -chordM / y * north);
      most = Math.max(most, rise.sigma(heights, x, y));
    }
    return most;
  }
}
