package org.scarpway.reach.front;

import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.TraversalCost;

/** Provides fronts for requests: kept ones if possible, else computed. */
public final class Fronts {
  private Fronts() {}

  /**
   * Begins a front from which one thread requests the labels, while others may help.
   *
   * @param budget cost at which the front ends; cells beyond it count as not reached
   */
  public static Spread begin(
      TraversalCost field,
      Quantity quantity,
      Direction direction,
      double budget,
      Progress progress,
      int... sources) {
    Costs costs = new Costs(field, quantity, direction);
    KeptFronts kept = KeptFronts.of(costs);
    KeptFronts.Key key = KeptFronts.key(costs, quantity, sources);
    CostField found = kept.found(key, budget);
    Front front = found == null ? kept.front(key, budget) : null;
    return new Spread(kept, key, found, front, progress);
  }

  /** Begins a front from the same base that is limited to the cells within a time budget. */
  public static Spread begin(
      Quantity quantity,
      Direction direction,
      double budget,
      TimeBudgetDomain ground,
      Progress progress) {
    Costs costs = new Costs(ground.field(direction), quantity, direction);
    KeptFronts kept = KeptFronts.of(costs);
    String bound = "within " + KeptFronts.digest(ground.within());
    KeptFronts.Key key = KeptFronts.key(costs, quantity, bound, ground.base());
    CostField found = kept.found(key, budget);
    Front front = null;
    if (found == null) {
      front = kept.front(key, budget);
      front.keepTo(ground.within());
    }
    return new Spread(kept, key, found, front, progress);
  }

  /** A front in progress, or the kept result of one. */
  public record Spread(
      KeptFronts kept, KeptFronts.Key key, CostField found, Front front, Progress progress) {

    /** Runs the front until no work is left. */
    public void work() {
      if (front != null) {
        front.work(progress);
      }
    }

    public CostField labels() {
      if (front == null) {
        progress.advance(found.costs().field().spec().cells());
        return found;
      }
      work();
      CostField labels = front.labels();
      kept.keep(key, labels);
      return labels;
    }
  }
}
