package org.scarpway.reach.front;

import java.lang.ref.SoftReference;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.vehicle.TraversalCost;

/**
 * Cache of the fronts of one field, since several requests start from one base. Entries are kept
 * while memory allows; a cached and a recomputed front have identical values.
 */
public final class KeptFronts {
  private final Map<Key, SoftReference<CostField>> labels = new ConcurrentHashMap<>();

  private KeptFronts() {}

  /** The cache of a field, in the memory of the engine that created it. */
  public static KeptFronts of(TraversalCost field) {
    return field.memory().of(field, KeptFronts.class, KeptFronts::new);
  }

  /**
   * Cache key: the parameters of a front.
   *
   * @param tripS time budget whose cells the front is limited to (s), infinite for none
   * @param oneWay true if that time is for the way out alone
   * @param mixed true if the ways out and home have different fields
   */
  public record Key(
      Quantity quantity,
      Direction direction,
      double budget,
      double tripS,
      boolean oneWay,
      boolean mixed,
      List<Integer> sources) {

    /** The key of a front over all ground. */
    public static Key whole(Quantity quantity, Direction direction, int source) {
      double all = Double.POSITIVE_INFINITY;
      return new Key(quantity, direction, all, all, false, false, List.of(source));
    }
  }

  /** The labels of a front, or null if they are not in the cache. */
  public CostField found(Key key) {
    SoftReference<CostField> before = labels.get(key);
    return before == null ? null : before.get();
  }

  void keep(Key key, CostField found) {
    labels.put(key, new SoftReference<>(found));
  }
}
