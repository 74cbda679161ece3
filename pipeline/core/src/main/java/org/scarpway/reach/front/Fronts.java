package org.scarpway.reach.front;

import java.util.Arrays;
import java.util.List;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.TraversalCost;

/** Provides fronts for requests, from the cache if possible, else computed. */
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
    KeptFronts kept = KeptFronts.of(field);
    List<Integer> from = Arrays.stream(sources).boxed().toList();
    KeptFronts.Key key =
        new KeptFronts.Key(
            quantity, direction, budget, Double.POSITIVE_INFINITY, false, false, from);
    CostField found = kept.found(key);
    Front front =
        found == null ? Front.from(new Costs(field, quantity, direction), budget, sources) : null;
    return new Spread(kept, key, found, front, progress);
  }

  /** Begins a front from the same base that is limited to the cells within a time budget. */
  public static Spread begin(
      Quantity quantity,
      Direction direction,
      double budget,
      TimeBudgetDomain ground,
      Progress progress) {
    TraversalCost field = ground.field(direction);
    KeptFronts kept = KeptFronts.of(field);
    List<Integer> source = List.of(ground.base());
    boolean mixed = ground.field(Direction.OUT) != ground.field(Direction.HOME);
    KeptFronts.Key key =
        new KeptFronts.Key(
            quantity, direction, budget, ground.tripS(), ground.oneWay(), mixed, source);
    CostField found = kept.found(key);
    Front front = null;
    if (found == null) {
      front = Front.from(new Costs(field, quantity, direction), budget, ground.base());
      front.keepTo(ground.within());
    }
    return new Spread(kept, key, found, front, progress);
  }

  /** A front in progress, or the cached result of one. */
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
