package org.scarpway.hazard;

import java.util.BitSet;
import java.util.Locale;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/** Rock figures per cell; one fraction for all cells is worked out once. */
final class Rocks {
  private final double swathM;
  private final double diameterM;
  private final float[] coverage;
  private final Double noData;
  private final RockCount count;
  private final BitSet assumed = new BitSet();
  private final double uniform;
  private final double uniformHazard;
  private final double uniformDetour;

  Rocks(HazardParams params, FloatGrid coverageGrid, GridSpec spec, int firstRow) {
    RockParams rocks = params.rocks();
    swathM = rocks.swathM();
    diameterM = RockModel.blockingDiameterM(rocks.clearanceM());
    noData = rocks.noData();
    count = rocks.count();
    coverage = coverage(coverageGrid, spec, firstRow);
    uniform = rocks.coverage() == null ? 0 : rocks.coverage();
    RockModel model = RockModel.of(count, uniform);
    uniformHazard = uniform > 0 ? hazard(model) : 0;
    uniformDetour = uniform > 0 ? model.detourFactor(swathM, diameterM) : 1;
  }

  boolean present() {
    return coverage != null || uniform > 0;
  }

  /** Rocks in the way per km driven straight on; NaN where the coverage is not known. */
  void fillHitsPerKm(float[] hits, int from, int to) {
    double uniformHits =
        coverage == null ? 1000 * RockModel.of(count, uniform).hitsPerM(swathM, diameterM) : 0;
    for (int i = from; i < to; i++) {
      double k = coverageAt(i);
      hits[i] =
          (float)
              (coverage == null
                  ? uniformHits
                  : k > 0 ? 1000 * RockModel.of(count, k).hitsPerM(swathM, diameterM) : k);
    }
  }

  double coverageAt(int cell) {
    return coverage == null ? uniform : coverage[cell];
  }

  double hazardAt(double k) {
    return coverage == null ? uniformHazard : k > 0 ? hazard(RockModel.of(count, k)) : 0;
  }

  /** NaN where the coverage is not known. */
  double detourAt(double k) {
    return coverage == null
        ? uniformDetour
        : k > 0 ? RockModel.of(count, k).detourFactor(swathM, diameterM) : k == 0 ? 1 : Double.NaN;
  }

  private double hazard(RockModel model) {
    return model.blockingDensity(swathM, diameterM) >= RockModel.BARRIER_DENSITY
        ? 1
        : model.blockedProbability(swathM, diameterM);
  }

  /** Cells on which a stated coverage stands in for one that is not known; null for none. */
  BitSet assumed() {
    return assumed.isEmpty() ? null : assumed;
  }

  /** A copy, so that what is stated can stand where nothing is known. */
  private float[] coverage(FloatGrid grid, GridSpec spec, int firstRow) {
    if (grid == null) {
      return null;
    }
    if (grid.values().length != spec.cells()) {
      throw new IllegalArgumentException(
          "rock coverage has " + grid.values().length + " cells, the ground " + spec.cells());
    }
    double most = count.most() * (1 + 1e-6);
    float[] values = noData == null ? grid.values() : grid.values().clone();
    for (int i = 0; i < values.length; i++) {
      if (values[i] < 0 || values[i] > most) {
        throw refused(
            "hazard.rock_coverage",
            values[i],
            firstRow + i / spec.cols(),
            i % spec.cols(),
            String.format(
                Locale.ROOT, "0 to %.3g, for which the law of rocks was fitted", count.most()),
            values[i] >= 1
                ? "divide percentages by 100"
                : "state by hazard.rock_counts what it counts, or keep out of such ground");
      }
      if (noData == null) {
        continue;
      }
      if (Float.isNaN(values[i])) {
        assumed.set(i);
        values[i] = noData.floatValue();
      } else if (values[i] > noData.floatValue()) {
        throw refused(
            "hazard.rock_no_data",
            values[i],
            firstRow + i / spec.cols(),
            i % spec.cols(),
            "no more anywhere than the "
                + noData
                + " that is to count where the raster has no data",
            "state the most that the ground may have, or no-verdict");
      }
    }
    return values;
  }

  private static UserError refused(
      String where, float coverage, int row, int col, String expected, String remedy) {
    return UserError.of(
        where,
        String.format(Locale.ROOT, "coverage is %.4g at row %d, column %d", coverage, row, col),
        expected,
        remedy);
  }
}
