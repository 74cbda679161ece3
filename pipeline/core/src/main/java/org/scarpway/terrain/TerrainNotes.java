package org.scarpway.terrain;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Digits;

/** Notes for the reviewer about the scales of measurement. */
final class TerrainNotes {
  private TerrainNotes() {}

  static List<String> of(
      TerrainParams params, Footprint footprint, Extrapolation extrapolation, GridSpec spec) {
    List<String> notes = new ArrayList<>();
    notes.add(
        text(
            "Slope is measured over %s m; steeper ground shorter than that is smoothed out.",
            Lengths.slopeM(params, footprint, spec)));
    if (params.verticalSigmaM() != null) {
      double sigma =
          SlopeError.gradientSigma(
                  params.slope(),
                  footprint,
                  spec.cellXM(),
                  spec.cellYM(),
                  params.verticalSigmaM(),
                  params.correlationLengthM())
              .mean();
      notes.add(
          text(
              "With a height error of %s m level ground is measured as sloping: by %.2g deg"
                  + " (%.2g %%) on average, 95 %% of it by less than %.2g deg.",
              params.verticalSigmaM(),
              RiceGradient.meanSlopeOfLevelDeg(sigma),
              100 * RiceGradient.mean(0, sigma),
              SlopeAspect.slopeDeg(RiceGradient.quantileOfLevel(sigma, 0.95))));
    }
    if (extrapolation != null) {
      SelfAffine law = extrapolation.law();
      if (law == null) {
        notes.add(
            "Cells are coarser than the wheel spacing and no scaling law could be fitted: roughness and"
                + " step are given at the scale of the cells.");
      } else {
        notes.add(
            text(
                "Cells are coarser than the wheel spacing: scaling law with Hurst exponent %.2f (99 %%"
                    + " above %.2f, 99 %% below %.2f, R2 %.3f, %d lags), fitted to the heights that"
                    + " there are. What it gives is an estimate and may be too low, the more so"
                    + " where rough ground holds no height.",
                law.hurst(), law.hurstLow(), law.hurstHigh(), law.r2(), law.points()));
        addScale(notes, "Roughness", extrapolation.roughness());
        addScale(notes, "Step", extrapolation.step());
      }
      if (extrapolation.step() != null) {
        notes.add(
            "Breaks that this law does not explain (beyond its 99 % at the cells) count as steps"
                + " as they are measured.");
      }
    }
    if (Convexity.fromCurvature(params.wheelbaseM(), spec.cellXM(), spec.cellYM())) {
      notes.add(
          text(
              "Convexity over the wheelbase of %s m comes from the curvature of cells of %s m;"
                  + " sharper crests between cell centres are not seen.",
              params.wheelbaseM(), spec.cellM()));
    }
    return notes;
  }

  private static void addScale(List<String> notes, String what, Extrapolation.Scale scale) {
    if (scale != null) {
      notes.add(
          text(
              "%s is estimated at %s m from values measured at %s m: factor %.2f, by the"
                  + " lowest exponent (%.2f by the fitted one).",
              what, scale.toM(), scale.fromM(), scale.factor(), scale.fitted()));
    }
  }

  private static String text(String format, Object... values) {
    return Digits.text(format, values);
  }
}
