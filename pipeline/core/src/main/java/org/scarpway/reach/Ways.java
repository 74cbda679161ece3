package org.scarpway.reach;

import java.util.Arrays;
import org.scarpway.grid.Headings;
import org.scarpway.reach.Costs.Direction;
import org.scarpway.reach.ReachRequest.Quantity;
import org.scarpway.stage.Floats;
import org.scarpway.stage.ScratchFile;
import org.scarpway.vehicle.MoveField;

/**
 * Time, energy and distance that add up along the best ways of one front, per cell: what a budget
 * is held against, because one and the same way must meet all of them.
 *
 * <p>A step that ends between two cells takes the interpolated sums of both, which holds where
 * their ways run alongside. Where they part (around an obstacle, or where two fronts meet) there is
 * no way between, so the step is replaced by the one to the cell through which it costs less. So it
 * is where headings are barred, since labels there may promise what {@link Stencil#gain} leaves of
 * a way: sums are of ways that can be driven, never less.
 */
final class Ways {
  /** Ways whose first headings differ by more than this, of 32, do not run alongside. */
  private static final double PARTING = 6;

  private final Labels labels;
  private final Floats heightM;
  private final boolean hasEnergy;
  private final Floats stopS;
  private final Costs[] costs;
  private final Floats[] sums;
  private final Floats latestS;
  private final Line line;
  private int[] stack = new int[1024];

  private Ways(Labels labels, Floats heightM, boolean hasEnergy, Floats stopS, Costs... costs) {
    this.labels = labels;
    this.heightM = heightM;
    this.hasEnergy = hasEnergy;
    this.stopS = stopS;
    this.costs = costs;
    int n = labels.costs().field().spec().cells();
    int layers = (hasEnergy ? 3 : 2) + (stopS == null ? 0 : 1);
    ScratchFile file = labels.costs().field().scratch((long) Float.BYTES * layers * n);
    this.sums = new Floats[hasEnergy ? 3 : 2];
    for (int q = 0; q < sums.length; q++) {
      sums[q] = Floats.of(n, Float.NaN, file);
    }
    this.latestS = stopS == null ? null : Floats.of(n, Float.NaN, file);
    this.line = new Line(labels.costs().field().spec());
  }

  /**
   * @param stopS from a stop in each cell until everybody is home, or null; asks {@link #latestS}
   *     to be kept
   */
  static Ways along(Labels labels, Floats heightM, boolean hasEnergy, Floats stopS) {
    Costs c = labels.costs();
    return new Ways(
            labels,
            heightM,
            hasEnergy,
            stopS,
            c.counting(Quantity.TIME_S),
            c.counting(Quantity.DISTANCE_M),
            hasEnergy ? c.counting(Quantity.ENERGY_J) : null)
        .addUp();
  }

  /** The same for a front that was spread at other costs than those of the ground. */
  static Ways along(
      Labels labels,
      MoveField field,
      Direction direction,
      Floats heightM,
      boolean hasEnergy,
      Floats stopS) {
    return new Ways(
            labels,
            heightM,
            hasEnergy,
            stopS,
            new Costs(field, Quantity.TIME_S, direction),
            new Costs(field, Quantity.DISTANCE_M, direction),
            hasEnergy ? new Costs(field, Quantity.ENERGY_J, direction) : null)
        .addUp();
  }

  private Ways addUp() {
    int n = sums[0].size();
    for (int cell = 0; cell < n; cell++) {
      if (labels.reached(cell) && Float.isNaN(sums[0].get(cell))) {
        addUpTo(cell);
      }
    }
    return this;
  }

  Floats heightM() {
    return heightM;
  }

  boolean hasEnergy() {
    return hasEnergy;
  }

  float timeS(int cell) {
    return sums[0].get(cell);
  }

  float distanceM(int cell) {
    return sums[1].get(cell);
  }

  /** NaN without an energy model. */
  double energyJ(int cell) {
    return hasEnergy
        ? sums[2].get(cell)
            + costs[2].heightTermJ(heightM.get(labels.sources()[0]), heightM.get(cell))
        : Double.NaN;
  }

  /** Latest time at which everybody is home if the vehicle stops, anywhere along the way. */
  float latestS(int cell) {
    return latestS.get(cell);
  }

  /** Adds up along the way from a cell, after the cells that its way depends on. */
  private void addUpTo(int start) {
    int depth = 0;
    stack[depth++] = start;
    while (depth > 0) {
      int cell = stack[depth - 1];
      int code = labels.stepAt(cell);
      int before = depth;
      if (Float.isNaN(sums[0].get(cell)) && code < Stencil.CODES) {
        depth = need(labels.stencil().first(cell, code), depth);
        if (labels.stencil().share(labels.costs(), cell, code) > 0) {
          depth = need(labels.stencil().second(cell, code), depth);
        }
      }
      if (depth == before) {
        add(cell, code);
        depth--;
      }
    }
  }

  private int need(int cell, int depth) {
    if (!Float.isNaN(sums[0].get(cell))) {
      return depth;
    }
    if (depth == stack.length) {
      stack = Arrays.copyOf(stack, 2 * depth);
    }
    stack[depth] = cell;
    return depth + 1;
  }

  private void add(int cell, int code) {
    if (code == Labels.STRAIGHT) {
      int source = labels.straightSource(cell, line);
      line.between(cell, source);
      for (int q = 0; q < sums.length; q++) {
        sums[q].set(cell, source == cell ? 0 : (float) line.cost(costs[q]));
      }
      latest(cell, 0, crossed());
      return;
    }
    Stencil stencil = labels.stencil();
    int a = stencil.first(cell, code);
    double share = stencil.share(labels.costs(), cell, code);
    double shareOfStep = share;
    int b = share > 0 ? stencil.second(cell, code) : a;
    int used = code;
    if (share > 0 && (parts(a, b) || windowed(cell) || windowed(a) || windowed(b))) {
      int end = stencil.throughEnd(labels.costs(), cell, code, labels.value(a), labels.value(b));
      used = Stencil.toCell(code, end);
      a = end == 0 ? a : b;
      b = a;
      share = 0;
    }
    for (int q = 0; q < sums.length; q++) {
      float atA = sums[q].get(a);
      float atB = sums[q].get(b);
      double before = (1 - share) * atA + share * atB;
      sums[q].set(cell, (float) (before + stencil.cost(costs[q], cell, used, shareOfStep)));
    }
    if (latestS != null) {
      // The last quarter of a step to the far ring lies in the cell itself.
      int heading = (int) Stencil.heading(used);
      double here =
          Math.min(
              costs[0].perM(cell, heading),
              costs[0].perM(cell, (heading + 1) & (Headings.COUNT - 1)));
      double hereS = 0.25 * stencil.lengthM(used) * (here < Double.POSITIVE_INFINITY ? here : 0);
      double between = stencil.largestBetween(stopS, cell, used) - hereS;
      latest(cell, Math.max(latestS.get(a), latestS.get(b)), between);
    }
  }

  /** Longest from a stop in a cell of the line until everybody is home (s). */
  private double crossed() {
    double most = 0;
    for (int i = 0; latestS != null && i < line.count(); i++) {
      most = Math.max(most, stopS.get(line.cell(i)));
    }
    return most;
  }

  /**
   * Getting home may take long from a cell between, so these count too.
   *
   * @param betweenS the longest from a stop in those, less what is left to drive there
   */
  private void latest(int cell, float before, double betweenS) {
    if (latestS != null) {
      double home = Math.max(betweenS, stopS.get(cell));
      latestS.set(cell, Math.max(before, (float) (sums[0].get(cell) + home)));
    }
  }

  /** Whether some headings are barred: a way between two others may then not be driven. */
  private boolean windowed(int cell) {
    int allowed = labels.costs().field().allowed(cell);
    return allowed != 0 && allowed != -1;
  }

  private boolean parts(int a, int b) {
    int codeA = labels.stepAt(a);
    int codeB = labels.stepAt(b);
    if (codeA >= Stencil.CODES || codeB >= Stencil.CODES) {
      return false;
    }
    double d = Math.abs(Stencil.heading(codeA) - Stencil.heading(codeB));
    return Math.min(d, 32 - d) > PARTING;
  }
}
