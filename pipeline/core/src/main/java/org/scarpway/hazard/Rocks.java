package org.scarpway.hazard;

import java.util.BitSet;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/** Rock values per cell. */
final class Rocks {
  /** Effect of rocks of one coverage on the vehicle; NaN if rocks are unknown. */
  static final class Figures {
    private double coverage = Double.NaN;

    /** Probability that a random place is blocked, 1 where rocks leave no path. */
    double hazard = Double.NaN;

    double detour = Double.NaN;
    double hitsPerM = Double.NaN;
    double sidestepM = Double.NaN;
  }

  private final RockParams params;
  private final float[] coverage;
  private final double uniform;
  private final BitSet assumed = new BitSet();

  Rocks(HazardParams params, FloatGrid coverageGrid, GridSpec spec, int firstRow, int firstCol) {
    this.params = params.rocks();
    coverage = coverage(coverageGrid, spec, firstRow, firstCol);
    uniform = this.params.coverage() == null ? 0 : this.params.coverage();
  }

  boolean present() {
    return coverage != null || uniform > 0;
  }

  double coverageAt(int cell) {
    return coverage == null ? uniform : coverage[cell];
  }

  /**
   * @param f output; values of the previous cell are reused if the coverage is the same
   */
  void at(int cell, Figures f) {
    double k = coverageAt(cell);
    if (k == f.coverage) {
      return;
    }
    f.coverage = k;
    if (Double.isNaN(k)) {
      f.hazard = Double.NaN;
      f.detour = Double.NaN;
      f.hitsPerM = Double.NaN;
      f.sidestepM = Double.NaN;
      return;
    }
    RockModel model = RockModel.of(params.count(), k);
    double density = model.density(params.body());
    f.hitsPerM = model.hitsPerM(params.body());
    boolean closed = density >= RockModel.CLOSED_DENSITY || f.hitsPerM * params.noGoM() > 1;
    f.hazard = closed ? 1 : -Math.expm1(-density);
    f.detour = closed ? Double.POSITIVE_INFINITY : RockModel.detourFactor(density);
    // The mean sidestep for an obstacle of width c, body included, is c / 4; averaged over all
    // rocks
    // in the way it is the sum of c2 / 4 divided by the sum of c.
    f.sidestepM = f.hitsPerM > 0 ? density / (Math.PI * f.hitsPerM) : 0;
  }

  /** True if rocks leave no path in the cell, or are unknown. */
  boolean bar(int cell, Figures f) {
    at(cell, f);
    return !(f.hazard < 1);
  }

  Hazard.Boulders boulders(float[] hitsPerKm, float[] sidestepM, GridSpec spec) {
    return new Hazard.Boulders(
        new FloatGrid(spec, hitsPerKm),
        new FloatGrid(spec, sidestepM),
        params.slowM(),
        params.noGoM());
  }

  /** Cells on which a stated coverage replaces an unknown one; null if there are none. */
  BitSet assumed() {
    return assumed;
  }

  /** Returns the coverage; a copy if unknown values are replaced by the stated one. */
  private float[] coverage(FloatGrid grid, GridSpec spec, int firstRow, int firstCol) {
    if (grid == null) {
      return null;
    }
    if (grid.values().length != spec.cells()) {
      throw new IllegalArgumentException(
          "rock coverage has " + grid.values().length + " cells, the ground " + spec.cells());
    }
    RockRange range = new RockRange(params.count(), params.noData());
    float[] values = params.noData() == null ? grid.values() : grid.values().clone();
    for (int i = 0; i < values.length; i++) {
      int row = firstRow + i / spec.cols();
      int col = firstCol + i % spec.cols();
      range.require(values[i], params.source(), row, col, "the ground analysed");
      if (params.noData() != null && Float.isNaN(values[i])) {
        assumed.set(i);
        values[i] = params.noData().floatValue();
      }
    }
    return values;
  }
}
