package org.scarpway.hazard;

import java.util.BitSet;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/** Rock figures per cell. */
final class Rocks {
  /** What rocks of one coverage do to the vehicle; NaN where nobody knows of them. */
  static final class Figures {
    private double coverage = Double.NaN;

    /** Probability that a place at random is blocked, 1 where rocks leave no way. */
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
   * @param f may hold those of the cell before, which are kept where the coverage is the same
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
    // Out of the way of one as wide as c, body included, a quarter of c on the mean; over all rocks
    // that are met, the sum of c2 / 4 over that of c.
    f.sidestepM = f.hitsPerM > 0 ? density / (Math.PI * f.hitsPerM) : 0;
  }

  /** Whether they leave no way there, or nobody knows. */
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

  /** Cells on which a stated coverage stands in for one that is not known; null for none. */
  BitSet assumed() {
    return assumed.isEmpty() ? null : assumed;
  }

  /** A copy, so that what is stated can stand where nothing is known. */
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
