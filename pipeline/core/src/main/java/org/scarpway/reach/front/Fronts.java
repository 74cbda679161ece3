package org.scarpway.reach.front;

import java.util.Arrays;
import java.util.List;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.MoveField;

/** Fronts as questions ask for them: found among those that were kept, else spread. */
public final class Fronts {
  private Fronts() {}

  /**
   * A front that one thread asks for its labels and others may help.
   *
   * @param budget cells that cost more are as if there were no way; the front ends there
   */
  public static Spread begin(
      MoveField field,
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

  /** A front from the same base that keeps to ground that a time suffices for. */
  public static Spread begin(
      Quantity quantity,
      Direction direction,
      double budget,
      TimeBudgetDomain ground,
      Progress progress) {
    MoveField field = ground.field(direction);
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

  /** A front under way, or what was kept of one. */
  public record Spread(
      KeptFronts kept, KeptFronts.Key key, CostField found, Front front, Progress progress) {

    /** Works on the front until there is nothing left to do. */
    public void help() {
      if (front != null) {
        front.help(progress);
      }
    }

    public CostField labels() {
      if (front == null) {
        progress.advance(found.costs().field().spec().cells());
        return found;
      }
      help();
      CostField labels = front.labels();
      kept.keep(key, labels);
      return labels;
    }
  }
}
