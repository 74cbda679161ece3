package org.scarpway.reach.corridor;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.function.Function;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.KeptFronts;
import org.scarpway.reach.front.LegLine;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * A route driven leg by leg as the crew comes to it: each leg is found, drawn and simulated like
 * one of a corridor, speed in curves included, and recalculated by the audit. Nothing beyond the
 * leg asked for is computed.
 */
public final class PlannedWay {
  private final TraversalInput ground;
  private final Quantity quantity;
  private final boolean hasEnergy;
  private final Workers workers;
  private final Progress progress;

  /**
   * @param quantity quantity that every leg minimises
   */
  public PlannedWay(
      TraversalInput ground,
      Quantity quantity,
      boolean hasEnergy,
      Workers workers,
      Progress progress) {
    this.ground = ground;
    this.quantity = quantity;
    this.hasEnergy = hasEnergy;
    this.workers = workers;
    this.progress = progress;
  }

  /**
   * A leg as driven, from its start: time, energy and distance are 0 at the first point.
   *
   * @param cells the cell that is entered at each point
   */
  public record Driven(LegLine way, List<ProfilePoint> points, List<Integer> cells) {
    static Driven along(LegLine way, TraversalInput ground, boolean hasEnergy) {
      Centreline line = Centreline.drive(ground, hasEnergy, List.of(way));
      return new Driven(way, line.points(), line.cells());
    }
  }

  /** A given line as driven on this ground; its tacks must be drawn. */
  public static Driven along(LegLine way, TraversalInput ground, boolean hasEnergy) {
    return Driven.along(way, ground, hasEnergy);
  }

  /** The best way between two cells as driven, null if there is none. */
  public Driven leg(int start, int end) {
    if (ground.field().allowed(start) == 0 || ground.field().allowed(end) == 0) {
      return null;
    }
    CostField labels = labels(start, new int[] {end});
    if (!labels.reached(end)) {
      return null;
    }
    return driven(labels, start, end);
  }

  /**
   * Uses of the best ways from a cell to others, found by one front.
   *
   * @param ends cells; closed ones, and those that are less than 0, have no way
   * @return one for each end, null where there is no way
   */
  public <T> List<T> legs(int start, int[] ends, Function<Driven, T> use) {
    List<T> all = new ArrayList<>(Collections.nCopies(ends.length, null));
    int[] open = Arrays.stream(ends).filter(this::isOpen).toArray();
    if (open.length == 0 || !isOpen(start)) {
      return all;
    }
    CostField labels = labels(start, open);
    List<Runnable> work = new ArrayList<>();
    for (int i = 0; i < ends.length; i++) {
      int at = i;
      if (isOpen(ends[i]) && labels.reached(ends[i])) {
        work.add(() -> all.set(at, use.apply(driven(labels, start, ends[at]))));
      }
    }
    workers.all(work);
    return all;
  }

  private boolean isOpen(int cell) {
    return cell >= 0 && ground.field().allowed(cell) != 0;
  }

  private Driven driven(CostField labels, int start, int end) {
    return Driven.along(new Legs.Leg(labels, null, start, end).way(), ground, hasEnergy);
  }

  /** Labels from a cell, final at some others. */
  private CostField labels(int start, int[] ends) {
    Costs costs = new Costs(ground.field(), quantity, Direction.OUT);
    KeptFronts kept = KeptFronts.of(costs);
    KeptFronts.Key key = KeptFronts.key(costs, quantity, start);
    CostField labels = kept.any(key);
    boolean whole = labels != null && labels.upTo() == Double.POSITIVE_INFINITY;
    if (labels == null || !(whole || Arrays.stream(ends).allMatch(labels::reached))) {
      labels = spread(labels, costs, start, ends);
      kept.keep(key, labels);
    }
    return labels;
  }

  private CostField spread(CostField begun, Costs costs, int start, int[] ends) {
    Front front =
        begun == null ? Front.from(costs, 0, start) : Front.continuing(begun, begun.upTo());
    progress.begin("planned way", ground.field().spec().cells());
    front.raiseBudget(Arrays.stream(ends).mapToDouble(front::straight).max().orElse(0));
    work(front);
    while (!Arrays.stream(ends).allMatch(front::isFinal)) {
      front.raiseBudget(0);
      work(front);
    }
    progress.end();
    return front.labels();
  }

  private void work(Front front) {
    List<Runnable> work = new ArrayList<>();
    for (int i = 0; i < workers.threads(); i++) {
      work.add(() -> front.work(progress));
    }
    workers.all(work);
  }
}
