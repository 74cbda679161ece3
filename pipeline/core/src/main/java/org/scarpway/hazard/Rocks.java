package org.scarpway.hazard;

import java.util.Locale;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/** Rock figures per cell; one fraction for all cells is worked out once. */
final class Rocks {
  private final double swathM;
  private final double diameterM;
  private final float[] coverage;
  private final double uniform;
  private final double uniformHazard;
  private final double uniformDetour;

  Rocks(HazardParams params, FloatGrid coverageGrid, GridSpec spec, int firstRow) {
    swathM = params.swathM();
    diameterM = RockModel.blockingDiameterM(params.clearanceM());
    coverage = coverage(coverageGrid, spec, firstRow);
    uniform = params.rockCoverage() == null ? 0 : params.rockCoverage();
    RockModel model = RockModel.of(uniform);
    uniformHazard = uniform > 0 ? hazard(model) : 0;
    uniformDetour = uniform > 0 ? model.detourFactor(swathM, diameterM) : 1;
  }

  boolean present() {
    return coverage != null || uniform > 0;
  }

  /** Rocks in the way per km driven straight on; NaN where the coverage is not known. */
  void fillHitsPerKm(float[] hits, int from, int to) {
    double uniformHits =
        coverage == null ? 1000 * RockModel.of(uniform).hitsPerM(swathM, diameterM) : 0;
    for (int i = from; i < to; i++) {
      double k = coverageAt(i);
      hits[i] =
          (float)
              (coverage == null
                  ? uniformHits
                  : k > 0 ? 1000 * RockModel.of(k).hitsPerM(swathM, diameterM) : k);
    }
  }

  double coverageAt(int cell) {
    return coverage == null ? uniform : coverage[cell];
  }

  double hazardAt(double k) {
    return coverage == null ? uniformHazard : k > 0 ? hazard(RockModel.of(k)) : 0;
  }

  /** 1 where the coverage is not known: the void shows in the hazard instead. */
  double detourAt(double k) {
    return coverage == null
        ? uniformDetour
        : k > 0 ? RockModel.of(k).detourFactor(swathM, diameterM) : 1;
  }

  private double hazard(RockModel model) {
    return model.blockingDensity(swathM, diameterM) >= RockModel.BARRIER_DENSITY
        ? 1
        : model.blockedProbability(swathM, diameterM);
  }

  private static float[] coverage(FloatGrid grid, GridSpec spec, int firstRow) {
    if (grid == null) {
      return null;
    }
    float[] values = grid.values();
    if (values.length != spec.cells()) {
      throw new IllegalArgumentException(
          "rock coverage has " + values.length + " cells, the ground " + spec.cells());
    }
    for (int i = 0; i < values.length; i++) {
      if (values[i] < 0 || values[i] >= 1) {
        throw UserError.of(
            "hazard.rock_coverage",
            String.format(
                Locale.ROOT,
                "coverage is %.4g at row %d, column %d",
                values[i],
                firstRow + i / spec.cols(),
                i % spec.cols()),
            "a fraction in [0, 1)",
            "divide percentages by 100");
      }
    }
    return values;
  }
}
