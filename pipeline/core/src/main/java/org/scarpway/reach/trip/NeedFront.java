package org.scarpway.reach.trip;

import java.util.Collections;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.KeptFronts;
import org.scarpway.reach.front.Line;
import org.scarpway.reach.front.Stencil;
import org.scarpway.reach.front.StepBound;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes the ways home that require the least time until everybody is home, wherever the vehicle
 * stops. They differ from the quickest ones where those lead through cells from which getting home
 * after a stop takes long.
 */
final class NeedFront {
  private static final int SEED_CELLS = 10;

  /** Share of a step that has been driven when the cells between its ends are left. */
  private static final double LEFT_SHARE = 0.75;

  /** Factor that keeps bounds below the bounded values despite rounding. */
  private static final double ALMOST = 1 - 1e-6;

  private final CostField labels;
  private final Costs costs;
  private final Stencil stencil;
  private final Stops stops;
  private final StepBound bound;
  private double label;
  private double leastPerM;
  private double leastAsked;
  private double best;
  private int code;

  private NeedFront(CostField labels, Stops stops, StepBound bound) {
    this.stops = stops;
    this.bound = bound;
    this.labels = labels;
    this.costs = labels.costs();
    this.stencil = labels.stencil();
  }

  /**
   * Computes labels that hold that time (s), up to the shorter of time and life support.
   *
   * @param field field of the way home
   */
  static CostField spread(
      TraversalCost field, Stops stops, int base, Workers workers, Progress progress) {
    Costs costs = new Costs(field, Quantity.TIME_S, Direction.HOME);
    KeptFronts kept = KeptFronts.of(costs);
    double mostS = stops.limits().tripS();
    String bound = "above " + KeptFronts.digest(stops.homeS()) + " within " + mostS;
    KeptFronts.Key key = KeptFronts.key(costs, Quantity.TIME_S, bound, base);
    CostField before = kept.any(key);
    if (before != null) {
      return before;
    }
    Front front = Front.above(costs, stops.homeS(), mostS, base);
    workers.all(Collections.nCopies(workers.threads(), () -> front.work(progress)));
    CostField labels = front.labels();
    int cols = field.spec().cols();
    workers.overRows(
        field.spec().rows(),
        (from, to) -> {
          NeedFront steps = new NeedFront(labels, stops, new StepBound(labels.costs(), from, to));
          Line line = new Line(field.spec());
          for (int cell = from * cols; cell < to * cols; cell++) {
            if (labels.reached(cell) && cell != base) {
              steps.choose(cell, line, cols, base);
            }
          }
        });
    kept.keep(key, labels);
    return labels;
  }

  /**
   * Chooses the step of the least sum among those that lead to smaller labels, independently of the
   * order in which they were found.
   */
  private void choose(int cell, Line line, int cols, int base) {
    int dr = cell / cols - base / cols;
    int dc = cell % cols - base % cols;
    boolean straight = dr * dr + dc * dc <= SEED_CELLS * SEED_CELLS;
    if (straight
        && line.between(cell, base).cost(costs) < Double.POSITIVE_INFINITY
        && needOnLine(line) <= labels.value(cell)) {
      labels.tiles().set(cell, labels.value(cell), Stencil.STRAIGHT);
      return;
    }
    label = labels.value(cell);
    leastPerM = bound.perM(cell);
    leastAsked = Double.POSITIVE_INFINITY;
    best = Double.POSITIVE_INFINITY;
    code = -1;
    int found = labels.stepAt(cell);
    if (found < Stencil.CODES) {
      // Mostly the best or beside it, so that bounds leave out nearly all others.
      consider(cell, Stencil.toCell(found, 0));
      consider(cell, Stencil.toCell(found, 1));
    }
    for (int j = 0; j < Stencil.FAR; j++) {
      consider(cell, j * Stencil.EIGHTHS);
    }
    for (int j = 0; j < Stencil.NEAR; j++) {
      consider(cell, Stencil.NEAR_CODES + j * Stencil.QUARTERS);
    }
    if (code < 0) {
      return;
    }
    boolean far = code < Stencil.NEAR_CODES;
    int points = far ? Stencil.EIGHTHS : Stencil.QUARTERS;
    int edges = far ? Stencil.FAR : Stencil.NEAR;
    int first = far ? 0 : Stencil.NEAR_CODES;
    int edge = (code - first) / points;
    for (int i = 1; i < points; i++) {
      consider(cell, first + edge * points + i);
      consider(cell, first + (edge + edges - 1) % edges * points + i);
    }
    labels.tiles().set(cell, labels.value(cell), code);
  }

  private double needOnLine(Line line) {
    double before = 0;
    double most = 0;
    for (int i = 0; i < line.count(); i++) {
      most = Math.max(most, stops.homeS().get(line.cell(i)) + before);
      before += line.cost(costs, i);
    }
    return Math.max(most, before);
  }

  /**
   * False if a step is worse than the best one for certain.
   *
   * @param sum lower bound on its sum
   */
  private boolean mayBeBest(double sum) {
    return sum <= leastAsked && (sum <= best || label < leastAsked);
  }

  private void consider(int cell, int step) {
    if (!stencil.inside(cell, step)) {
      return;
    }
    int a = stencil.first(cell, step);
    double share = stencil.share(costs, cell, step);
    int b = share > 0 ? stencil.second(cell, step) : a;
    double high = Math.max(labels.value(a), labels.value(b));
    double before = (1 - share) * labels.value(a) + share * labels.value(b);
    if (high < label && mayBeBest(before + ALMOST * leastPerM * stencil.lengthM(step))) {
      double cost = stencil.cost(costs, cell, step);
      double sum = before + cost;
      if (share > 0 && costs.field().allowed(cell) != -1) {
        // As in the front: a step that ends between cells is backed by the path through one of
        // them.
        int end = stencil.throughEnd(costs, cell, step, labels.value(a), labels.value(b));
        double toEnd = stencil.cost(costs, cell, Stencil.toCell(step, end));
        sum = Math.max(sum, labels.value(end == 0 ? a : b) + stencil.gain(step) * toEnd);
      }
      // The requirement of a crossed cell exceeds the label where the step passes a place from
      // which getting home takes long; another step is better then.
      double between = stencil.largestBetween(stops.homeS(), cell, step) + LEFT_SHARE * cost;
      double asked = Math.max(label, Math.max(sum, between));
      if (asked < leastAsked
          || (asked == leastAsked && (sum < best || (sum == best && step < code)))) {
        leastAsked = asked;
        best = sum;
        code = step;
      }
    }
  }
}
