package org.scarpway.reach.front;

import java.lang.ref.SoftReference;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.vehicle.MoveField;

/**
 * Fronts that were spread on one field before, since several questions start from one base. They
 * are kept while memory allows; whether one is found or made anew changes nothing in its values.
 */
public final class KeptFronts {
  private final Map<Key, SoftReference<CostField>> labels = new ConcurrentHashMap<>();

  private KeptFronts() {}

  /** Those of a field, in the memory of the engine that made it. */
  public static KeptFronts of(MoveField field) {
    return field.memory().of(field, KeptFronts.class, KeptFronts::new);
  }

  /**
   * What a front was asked for.
   *
   * @param tripS time within which ground can be reached that the front keeps to, infinite where it
   *     does not
   * @param oneWay whether that is the time out alone
   * @param mixed whether ways out and home were of fields of their own
   */
  public record Key(
      Quantity quantity,
      Direction direction,
      double budget,
      double tripS,
      boolean oneWay,
      boolean mixed,
      List<Integer> sources) {

    /** A front over all ground. */
    public static Key whole(Quantity quantity, Direction direction, int source) {
      double all = Double.POSITIVE_INFINITY;
      return new Key(quantity, direction, all, all, false, false, List.of(source));
    }
  }

  /** Its labels, or null where they are not kept. */
  public CostField found(Key key) {
    SoftReference<CostField> before = labels.get(key);
    return before == null ? null : before.get();
  }

  void keep(Key key, CostField found) {
    labels.put(key, new SoftReference<>(found));
  }
}
