package org.scarpway.reach.front;

import java.util.Arrays;
import java.util.BitSet;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;

/**
 * Spreads least cost from sources over the ground. See the package description for the scheme.
 *
 * <p>The label of a cell is the least, over all steps of the {@link Stencil}, of the cost of the
 * step plus the label where it ends, interpolated between the two cells of the edge, and never
 * below either of them plus a 64th of the step. The last part makes every label depend on smaller
 * ones only, and every operation is monotone in floating point, so there is one largest solution
 * and it is reached bit for bit in whatever order cells are taken.
 *
 * <p>The grid is cut into tiles. The tile with the least waiting label comes first; inside it a
 * {@link TileFront} takes cells up to a little above that label, and tells the tiles around which
 * of their margins have changed. Any number of threads may help.
 */
public final class Front {
  /** Sides of 32 to 128 cells take about the same time. */
  static final int SIDE = 64;

  private static final double SEED_CELLS = 10;

  /** How far a tile may run ahead of the least waiting label, in costs of a typical cell. */
  private static final double AHEAD_CELLS = 64;

  /** How much further a front goes that has not reached what it is asked for. */
  private static final double FURTHER = 1.25;

  private static final int SAMPLES = 4096;

  private final Costs costs;
  private final Stencil stencil;
  private final boolean wide;
  private double budget;
  private ExpansionBound allowance;
  private final int[] sources;
  private final Tiling tiling;
  private final CostTiles labels;
  private final double cellCost;
  private final TileQueue queue;
  private final TileGrounds grounds;

  /** No label of a cell is less; null where nothing holds them up. */
  private final Floats floor;

  /** Cells that wait, a bit each, by tile; null where none does. Each is its tile's thread's. */
  private final long[][] waiting;

  private final TileSpread spread;

  /**
   * @param wide whether steps to the far ring are taken; without, the answer is the plain one on
   *     the graph of neighbours, with its well-known heading error (up to 8.24 %)
   * @param budget cells that cost more are as if there were no way
   * @param side cells along a tile
   * @param scratch where labels are kept, null for the heap
   */
  Front(Costs costs, boolean wide, double budget, int side, ScratchFile scratch, int... sources) {
    this(costs, wide, budget, side, scratch, null, sources);
  }

  private Front(
      Costs costs,
      boolean wide,
      double budget,
      int side,
      ScratchFile scratch,
      Floats floor,
      int... sources) {
    this.floor = floor;
    GridSpec spec = costs.field().spec();
    this.costs = costs;
    this.stencil = new Stencil(spec);
    this.wide = wide;
    this.budget = budget;
    this.sources = sources;
    this.tiling = Tiling.of(spec, side);
    this.labels = new CostTiles(tiling, scratch);
    this.cellCost = typicalPerM() * spec.cellM();
    this.queue = new TileQueue(tiling.tiles(), cellCost, budget);
    this.grounds = new TileGrounds(costs, stencil, tiling);
    this.waiting = new long[tiling.tiles()][];
    this.spread = new TileSpread(tiling, queue);
    for (int s : sources) {
      seed(s);
    }
  }

  /** Least cost between every cell and the nearest source. */
  public static CostField spread(Costs costs, Progress progress, int... sources) {
    Front front = from(costs, Double.POSITIVE_INFINITY, sources);
    front.help(progress);
    return front.labels();
  }

  /** A front that waits to be helped. */
  public static Front from(Costs costs, double budget, int... sources) {
    long bytes = CostTiles.BYTES * (long) costs.field().spec().cells();
    return new Front(costs, true, budget, SIDE, costs.field().scratch(bytes), sources);
  }

  /**
   * A front whose labels are held up: the least over all ways of the most that any cell on the way
   * asks for after what is driven until there. Its steps depend on the order in which cells are
   * taken and are to be chosen anew.
   *
   * @param floor what each cell asks for by itself, NaN for nothing
   */
  public static Front above(Costs costs, Floats floor, double budget, int source) {
    long bytes = CostTiles.BYTES * (long) costs.field().spec().cells();
    ScratchFile scratch = costs.field().scratch(bytes);
    return new Front(costs, true, budget, SIDE, scratch, floor, source);
  }

  /** What has been found; complete when all who help have returned. The front ends with it. */
  public CostField labels() {
    grounds.clear();
    if (budget < Double.POSITIVE_INFINITY || allowance != null) {
      labels.cut(budget, allowance);
    }
    return soFar();
  }

  /** What has been found so far; labels beyond the budget are not final. */
  public CostField soFar() {
    return new CostField(costs, stencil, sources, labels, cellCost);
  }

  /** Whether a cell has its final label. */
  public boolean knows(int cell) {
    return labels.value(cell) <= budget || queue.least() == Double.POSITIVE_INFINITY;
  }

  /** About what a straight way from a source costs. */
  public double straight(int cell) {
    int row = cell / tiling.cols() - sources[0] / tiling.cols();
    int col = cell % tiling.cols() - sources[0] % tiling.cols();
    return cellCost * Math.hypot(row, col);
  }

  /** Lets a front without allowance go on, at least to a cost and past what waits there. */
  public void further(double least) {
    allow(Math.max(least, FURTHER * queue.least()), null);
  }

  /** Straight ways from a source to the cells around it, which leave no interpolation error. */
  private void seed(int source) {
    enter(source, 0);
    if (!wide) {
      return;
    }
    Line line = new Line(costs.field().spec());
    int reach = (int) SEED_CELLS;
    int row = source / tiling.cols();
    int col = source % tiling.cols();
    int lastRow = Math.min(tiling.rows() - 1, row + reach);
    int lastCol = Math.min(tiling.cols() - 1, col + reach);
    for (int r = Math.max(0, row - reach); r <= lastRow; r++) {
      for (int c = Math.max(0, col - reach); c <= lastCol; c++) {
        int dr = r - row;
        int dc = c - col;
        int cell = r * tiling.cols() + c;
        if (cell != source && dr * dr + dc * dc <= SEED_CELLS * SEED_CELLS) {
          double cost = line.between(cell, source).cost(costs);
          cost = floor == null ? cost : heldUp(line, cost);
          if (cost < labels.value(cell)) {
            enter(cell, cost);
          }
        }
      }
    }
  }

  private double heldUp(Line line, double cost) {
    double most = cost;
    double before = 0;
    for (int i = 0; i < line.count() && cost < Double.POSITIVE_INFINITY; i++) {
      // A cell asks for its own from its middle on.
      double asked = floor.get(line.cell(i)) + before;
      most = asked > most ? asked : most;
      before += line.cost(costs, i);
    }
    return most;
  }

  private void enter(int cell, double cost) {
    labels.set(cell, cost, Stencil.STRAIGHT);
    int tile = tiling.tileOf(cell);
    int at = tiling.within(cell);
    if (waiting[tile] == null) {
      waiting[tile] = new long[(tiling.side() * tiling.side() + 63) / 64];
    }
    waiting[tile][at >> 6] |= 1L << at;
    queue.wake(tile, cost);
  }

  /**
   * Changes how far the front goes; before it is helped, or to go further when nothing is left to
   * do.
   *
   * @param from where it goes on from, null for everywhere
   */
  public void allow(double more, ExpansionBound from) {
    budget = more;
    allowance = from;
    queue.allow(more);
    for (int tile = 0; tile < tiling.tiles(); tile++) {
      if (waiting[tile] != null) {
        queue.wake(tile, labels.least(tile, waiting[tile]));
      }
    }
  }

  /** Lets the front go on from the cells of a set only. */
  public void keepTo(BitSet within) {
    allow(budget, new DomainMask(tiling, within));
  }

  /** Lets the front go on only where and while a stop leaves time to get home. */
  public void keepTo(Floats stopS, double timeS) {
    allow(budget, new StopInTime(tiling, stopS, timeS));
  }

  CostTiles tiles() {
    return labels;
  }

  /** Cost of crossing a typical cell. */
  double cellCost() {
    return cellCost;
  }

  /** As {@link CostField#withMargin}. */
  double withMargin(double amount) {
    return soFar().withMargin(amount);
  }

  /** Works on tiles until there is nothing left to do; any number of threads may. */
  public void help(Progress progress) {
    spread.help(() -> runner(), progress);
  }

  private TileFront runner() {
    return new TileFront(
        stencil,
        wide,
        labels,
        grounds,
        waiting,
        0.25 * cellCost,
        AHEAD_CELLS * cellCost,
        budget,
        allowance,
        floor);
  }

  /** What the front has cost so far: tiles run, cells taken, grounds made. */
  long[] efforts() {
    return new long[] {spread.runs(), spread.worked(), grounds.loads()};
  }

  /** Median of the least cost per metre over a sample of cells. */
  private double typicalPerM() {
    double[] sample = new double[SAMPLES];
    int found = 0;
    int cells = costs.field().spec().cells();
    int stride = Math.max(1, cells / SAMPLES);
    for (int i = 0; i < cells && found < SAMPLES; i += stride) {
      double least = Double.POSITIVE_INFINITY;
      for (int k = 0; k < Headings.COUNT; k += 4) {
        least = Math.min(least, costs.perM(i, k));
      }
      if (least < Double.POSITIVE_INFINITY) {
        sample[found++] = least;
      }
    }
    if (found == 0) {
      return 1;
    }
    Arrays.sort(sample, 0, found);
    return sample[found / 2];
  }
}
