package org.scarpway.reach.corridor;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.DoubleAccumulator;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * The excess cost of the best route through each cell over the best route of all, as a percentage
 * of the whole route: the minimum over the legs of the cost that a detour of the leg through the
 * cell adds. The cost of the best route is that of the fronts, or that of the driven route where it
 * is higher; driven routes therefore lie inside their own corridor.
 */
final class Excess {
  private final GridSpec spec;
  private final Workers workers;
  private final Quantity quantity;
  private final double reference;
  private final double mostPct;
  private final Floats pct;

  /** Cost of the best route, leg by leg. */
  private final List<Double> least = new ArrayList<>();

  private Excess(
      Quantity quantity, double reference, double mostPct, TraversalCost field, Workers workers) {
    this.spec = field.spec();
    this.workers = workers;
    this.quantity = quantity;
    this.reference = reference;
    this.mostPct = mostPct;
    this.pct = Floats.of(spec.cells(), field.scratch((long) Float.BYTES * spec.cells()));
    pct.fill(Float.NaN);
  }

  /**
   * @param best the best route as driven
   * @param reference cost that corresponds to 100 %
   * @param mostPct limit of the widest corridor (%); the layer is NaN beyond it
   */
  static Excess of(
      List<Detours> detours,
      Centreline best,
      Quantity quantity,
      double reference,
      double mostPct,
      TraversalCost field,
      Workers workers) {
    Excess e = new Excess(quantity, reference, mostPct, field, workers);
    for (int i = 0; i < detours.size(); i++) {
      e.lower(detours.get(i), best.legCost(i, quantity));
    }
    return e;
  }

  /** Excess per cell (%), NaN beyond the widest corridor. */
  Floats pct() {
    return pct;
  }

  /** Lowers each cell to the cost that a detour of the leg through it adds, if that is less. */
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

  /**
   * Lowers the cells that a driven route crosses, also those crossed away from their centres or by
   * the swing of a tack, to the excess of that route.
   */
  void lowerAlong(Centreline way) {
    for (int leg = 0; leg < way.legs(); leg++) {
      float p = over(way.legCost(leg, quantity), least.get(leg));
      for (int i = way.legFrom(leg); i <= way.legTo(leg); i++) {
        lower(way.cells().get(i), p);
      }
      for (int cell : way.besideLeg(leg)) {
        lower(cell, p);
      }
    }
  }
}
