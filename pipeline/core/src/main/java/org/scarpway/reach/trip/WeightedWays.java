package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Front;
import org.scarpway.reach.front.KeptFronts;
import org.scarpway.reach.front.Line;
import org.scarpway.reach.front.Stencil;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * The ways out or home of the least weighted sum of time, energy and distance, for the cells that
 * were asked for. The front goes no further than to these cells. A label depends on smaller ones
 * only, so those found are the labels of the whole front, to the last bit.
 */
final class WeightedWays {
  /** Share by which sums along known ways are exceeded, so that rounding leaves no cell out. */
  private static final double MARGIN = 1e-3;

  /** Factor by which a front goes on whose cells turn out to lie further away. */
  private static final double FURTHER = 1.1;

  private final Costs costs;
  private final double[] per;
  private final double most;
  private final int base;
  private final BitSet within;

  /** Cells that must have their final label, or have none up to the largest cost. */
  private final BitSet wanted = new BitSet();

  private double likely;
  private final KeptFronts kept;
  private final KeptFronts.Key key;
  private CostField labels;
  private Front front;
  private PathSums sums;

  /**
   * @param weighted field whose energy is the weighted sum
   * @param per weight of a second, of a joule and of a metre
   * @param base cell where the ways out begin or the ways home end
   * @param most largest weighted sum of the way by itself
   * @param within cells within the time budget, null for all
   */
  WeightedWays(
      TraversalCost weighted,
      Direction direction,
      double[] per,
      double most,
      int base,
      BitSet within) {
    this.costs = new Costs(weighted, Quantity.ENERGY_J, direction);
    this.per = per;
    this.most = most;
    this.base = base;
    this.within = within;
    this.kept = KeptFronts.of(costs);
    String bound = within == null ? "" : "within " + KeptFronts.digest(within);
    this.key = KeptFronts.key(costs, Quantity.ENERGY_J, bound, base);
  }

  /** The field with the weighted sum in place of the energy. */
  static TraversalCost weighted(TraversalCost field, double[] per) {
    GradeTable[] tables = new GradeTable[field.soils()];
    for (int g = 0; g < tables.length; g++) {
      tables[g] = field.table(g).weighted(per[1], per[2], per[0]);
    }
    return field.withTables(tables);
  }

  /**
   * Adds cells that the next front must reach, and estimates how far away they are.
   *
   * @param known ways in the same direction; the least of their weighted sums is no less than the
   *     label, but for rounding
   */
  void ask(BitSet cells, List<PathSums> known, Floats heightM) {
    ask(cells);
    float baseM = heightM.get(base);
    for (int cell = cells.nextSetBit(0); cell >= 0; cell = cells.nextSetBit(cell + 1)) {
      double least = Double.POSITIVE_INFINITY;
      for (PathSums way : known) {
        double sum = per[0] * way.timeS(cell) + per[2] * way.distanceM(cell);
        sum += per[1] > 0 ? per[1] * way.energyJ(cell) : 0;
        least = sum < least ? sum : least;
      }
      if (least < Double.POSITIVE_INFINITY) {
        double label = least - costs.heightTermJ(baseM, heightM.get(cell));
        likely = Math.max(likely, (1 + MARGIN) * label);
      }
    }
  }

  /** Adds cells that the next front must reach. */
  void ask(BitSet cells) {
    wanted.or(cells);
  }

  /**
   * The cells on the ways of some cells, and those that their steps cross; barriers and cells
   * beyond the time budget are left out.
   */
  BitSet beside(BitSet cells) {
    BitSet on = new BitSet();
    BitSet beside = new BitSet();
    Line line = new Line(costs.field().spec());
    int[] stack = new int[1024];
    for (int start = cells.nextSetBit(0); start >= 0; start = cells.nextSetBit(start + 1)) {
      int depth = 0;
      stack[depth++] = start;
      while (depth > 0) {
        int cell = stack[--depth];
        if (on.get(cell) || !labels.reached(cell)) {
          continue;
        }
        on.set(cell);
        int code = labels.stepAt(cell);
        if (code >= Stencil.CODES) {
          line.between(cell, labels.straightSource(cell, line));
          for (int i = 0; i < line.count(); i++) {
            beside.set(line.cell(i));
          }
          continue;
        }
        for (int which = 0; which < 2; which++) {
          int m = labels.stencil().between(cell, code, which);
          if (m >= 0) {
            beside.set(m);
          }
        }
        if (depth + 2 > stack.length) {
          stack = Arrays.copyOf(stack, 2 * stack.length);
        }
        stack[depth++] = labels.stencil().first(cell, code);
        if (labels.stencil().share(costs, cell, code) > 0) {
          stack[depth++] = labels.stencil().second(cell, code);
        }
      }
    }
    if (within != null) {
      beside.and(within);
    }
    for (int cell = beside.nextSetBit(0); cell >= 0; cell = beside.nextSetBit(cell + 1)) {
      beside.set(cell, costs.field().allowed(cell) != 0);
    }
    beside.or(on);
    return beside;
  }

  /** Spreads the fronts of several ways until the cells asked for are known. */
  static void spread(List<WeightedWays> all, Workers workers, Progress progress) {
    List<WeightedWays> open = new ArrayList<>(all);
    for (open.removeIf(WeightedWays::done); !open.isEmpty(); ) {
      open.forEach(WeightedWays::begin);
      List<WeightedWays> running = new ArrayList<>(open);
      while (!running.isEmpty()) {
        List<Runnable> work = new ArrayList<>();
        for (int i = 0; i < workers.threads(); i++) {
          running.forEach(w -> work.add(() -> w.front.work(progress)));
        }
        workers.all(work);
        running.removeIf(WeightedWays::known);
        running.forEach(w -> w.front.raiseBudget(0, w.most));
      }
      open.forEach(WeightedWays::end);
      open.removeIf(WeightedWays::done);
    }
  }

  private boolean done() {
    if (labels == null) {
      labels = kept.any(key);
    }
    return labels != null && (labels.upTo() >= most || wanted.stream().allMatch(labels::reached));
  }

  private void begin() {
    if (labels == null) {
      front = Front.from(costs, Math.min(most, likely), base);
    } else {
      double further = FURTHER * labels.upTo();
      front = Front.continuing(labels, Math.min(most, Math.max(likely, further)));
    }
    if (within != null) {
      front.keepTo(within);
    }
  }

  /** True if every cell asked for has its final label, or can have none. */
  private boolean known() {
    return front.budget() >= most || wanted.stream().allMatch(front::isFinal);
  }

  private void end() {
    labels = front.labels();
    front = null;
    kept.keepBetweenRuns(key, labels);
  }

  /**
   * Sums the quantities along the ways of some cells.
   *
   * @param cells null for all that have a way
   * @param startJ energy already used from the battery where ways out begin (J)
   */
  void sum(
      TraversalCost field,
      Floats heightM,
      boolean hasEnergy,
      Stops stops,
      BitSet cells,
      double startJ) {
    if (cells == null && sums != null && sums.labels() == labels) {
      return;
    }
    sums = PathSums.of(cells, labels, field, costs.direction(), heightM, hasEnergy, stops, startJ);
  }

  PathSums sums() {
    return sums;
  }

  /** Least weighted sum of the way of a cell that was asked for, heights included. */
  double least(int cell, float baseM, float cellM) {
    return labels.value(cell) + costs.heightTermJ(baseM, cellM);
  }
}
