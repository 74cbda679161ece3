package org.scarpway.reach;

import java.lang.ref.SoftReference;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.WeakHashMap;
import java.util.concurrent.ConcurrentHashMap;
import org.scarpway.reach.Costs.Direction;
import org.scarpway.reach.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
import org.scarpway.vehicle.MoveField;

/**
 * Fronts that were spread on a field before, since several questions start from one base. They are
 * kept while memory allows; whether one is found or made anew changes nothing in its values.
 */
final class Fronts {
  private static final Map<MoveField, Fronts> KEPT =
      Collections.synchronizedMap(new WeakHashMap<>());

  private final Map<Key, SoftReference<Labels>> labels = new ConcurrentHashMap<>();

  /**
   * @param tripS time within which ground can be reached that the front keeps to, infinite where it
   *     does not
   * @param oneWay whether that is the time out alone
   * @param mixed whether ways out and home were of fields of their own
   */
  private record Key(
      Quantity quantity,
      Direction direction,
      double budget,
      double tripS,
      boolean oneWay,
      boolean mixed,
      List<Integer> sources) {}

  private Fronts() {}

  /**
   * A front that one thread asks for its labels and others may help.
   *
   * @param budget cells that cost more are as if there were no way; the front ends there
   */
  static Spread begin(
      MoveField field,
      Quantity quantity,
      Direction direction,
      double budget,
      Progress progress,
      int... sources) {
    Map<Key, SoftReference<Labels>> kept = kept(field);
    List<Integer> from = Arrays.stream(sources).boxed().toList();
    Key key = new Key(quantity, direction, budget, Double.POSITIVE_INFINITY, false, false, from);
    Labels found = found(kept, key);
    Front front =
        found == null ? Front.from(new Costs(field, quantity, direction), budget, sources) : null;
    return new Spread(kept, key, found, front, progress);
  }

  /** A front from the same base that keeps to ground that a time suffices for. */
  static Spread begin(
      Quantity quantity,
      Direction direction,
      double budget,
      TimedGround ground,
      Progress progress) {
    MoveField field = ground.field(direction);
    Map<Key, SoftReference<Labels>> kept = kept(field);
    List<Integer> source = List.of(ground.base());
    boolean mixed = ground.field(Direction.OUT) != ground.field(Direction.HOME);
    Key key = new Key(quantity, direction, budget, ground.tripS(), ground.oneWay(), mixed, source);
    Labels found = found(kept, key);
    Front front = null;
    if (found == null) {
      front = Front.from(new Costs(field, quantity, direction), budget, ground.base());
      front.keepTo(ground.within());
    }
    return new Spread(kept, key, found, front, progress);
  }

  /** Labels of a front over all ground if they were kept, else null. */
  static Labels kept(MoveField field, Quantity quantity, Direction direction, int source) {
    return found(kept(field), whole(quantity, direction, source));
  }

  /** Keeps labels of a front over all ground. */
  static void keep(Quantity quantity, Direction direction, int source, Labels labels) {
    kept(labels.costs().field())
        .put(whole(quantity, direction, source), new SoftReference<>(labels));
  }

  private static Key whole(Quantity quantity, Direction direction, int source) {
    double all = Double.POSITIVE_INFINITY;
    return new Key(quantity, direction, all, all, false, false, List.of(source));
  }

  private static Map<Key, SoftReference<Labels>> kept(MoveField field) {
    return KEPT.computeIfAbsent(field, f -> new Fronts()).labels;
  }

  private static Labels found(Map<Key, SoftReference<Labels>> kept, Key key) {
    SoftReference<Labels> before = kept.get(key);
    return before == null ? null : before.get();
  }

  /** A front under way, or what was kept of one. */
  record Spread(
      Map<Key, SoftReference<Labels>> kept, Key key, Labels found, Front front, Progress progress) {

    /** Works on the front until there is nothing left to do. */
    void help() {
      if (front != null) {
        front.help(progress);
      }
    }

    Labels labels() {
      if (front == null) {
        progress.advance(found.costs().field().spec().cells());
        return found;
      }
      help();
      Labels labels = front.labels();
      kept.put(key, new SoftReference<>(labels));
      return labels;
    }
  }
}
