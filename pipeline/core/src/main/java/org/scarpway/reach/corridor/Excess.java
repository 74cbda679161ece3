package org.scarpway.reach.corridor;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.DoubleAccumulator;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.MoveField;

/**
 * By how much the best way through each cell exceeds the best of all, as a percentage of the whole
 * route: the least over the legs of what a detour of the leg through the cell adds. The best of all
 * is the least that the fronts say, or the way that was driven where that costs more; so ways that
 * were driven lie in their own corridor.
 */
final class Excess {
  private final GridSpec spec;
  private final Workers workers;
  private final Quantity quantity;
  private final double reference;
  private final double mostPct;
  private final Floats pct;

  /** What the best way costs, leg by leg. */
  private final List<Double> least = new ArrayList<>();

  private Excess(
      Quantity quantity, double reference, double mostPct, MoveField field, Workers workers) {
    this.spec = field.spec();
    this.workers = workers;
    this.quantity = quantity;
    this.reference = reference;
    this.mostPct = mostPct;
    this.pct = Floats.of(spec.cells(), field.scratch((long) Float.BYTES * spec.cells()));
    pct.fill(Float.NaN);
  }

  /**
   * @param best the best way, driven
   * @param reference what it is a percentage of
   * @param mostPct NaN beyond
   */
  static Excess of(
      List<Detours> detours,
      Centreline best,
      Quantity quantity,
      double reference,
      double mostPct,
      MoveField field,
      Workers workers) {
    Excess e = new Excess(quantity, reference, mostPct, field, workers);
    for (int i = 0; i < detours.size(); i++) {
      e.lower(detours.get(i), best.legCost(i, quantity));
    }
    return e;
  }

  /** NaN beyond the widest corridor. */
  Floats pct() {
    return pct;
  }

  /** To what a detour of that leg through each cell adds, where that is less. */
  private void lower(Detours leg, double driven) {
    DoubleAccumulator least = new DoubleAccumulator(Math::min, Double.POSITIVE_INFINITY);
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          double here = Double.POSITIVE_INFINITY;
          for (int i = from * spec.cols(); i < to * spec.cols(); i++) {
            here = Math.min(here, leg.from().value(i) + leg.to().value(i));
          }
          least.accumulate(here);
        });
    double leastOfAll = Math.max(least.get(), driven);
    this.least.add(leastOfAll);
    workers.overRows(
        spec.rows(),
        (from, to) -> {
          for (int i = from * spec.cols(); i < to * spec.cols(); i++) {
            double sum = leg.from().value(i) + leg.to().value(i);
            if (sum < Double.POSITIVE_INFINITY) {
              lower(i, over(sum, leastOfAll));
            }
          }
        });
  }

  private float over(double cost, double leastOfAll) {
    return reference > 0 ? (float) Math.max(0, 100 * (cost - leastOfAll) / reference) : 0;
  }

  private void lower(int cell, float p) {
    if (p <= mostPct && !(pct.get(cell) <= p)) {
      pct.set(cell, p);
    }
  }

  /** To what a way that was driven adds, in the cells that it crosses off their middles too. */
  void lowerAlong(Centreline way) {
    for (int leg = 0; leg < way.legs(); leg++) {
      float p = over(way.legCost(leg, quantity), least.get(leg));
      for (int i = way.legFrom(leg); i <= way.legTo(leg); i++) {
        lower(way.cells().get(i), p);
      }
    }
  }
}
