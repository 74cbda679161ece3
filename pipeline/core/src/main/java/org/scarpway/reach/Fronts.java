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

  record Key(Quantity quantity, Direction direction, double budget, List<Integer> sources) {}

  private Fronts() {}

  /** Least cost between every cell and the nearest source. */
  static Labels spread(
      MoveField field, Quantity quantity, Direction direction, Progress progress, int... sources) {
    return begin(field, quantity, direction, Double.POSITIVE_INFINITY, progress, sources).labels();
  }

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
    Map<Key, SoftReference<Labels>> kept = KEPT.computeIfAbsent(field, f -> new Fronts()).labels;
    Key key = new Key(quantity, direction, budget, Arrays.stream(sources).boxed().toList());
    SoftReference<Labels> before = kept.get(key);
    Labels found = before == null ? null : before.get();
    Front front =
        found == null ? Front.from(new Costs(field, quantity, direction), budget, sources) : null;
    return new Spread(kept, key, found, front, progress);
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
