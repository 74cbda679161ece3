package org.scarpway.reach.front;

import java.util.Arrays;
import java.util.BitSet;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Progress;
import org.scarpway.stage.ScratchFile;
import org.scarpway.vehicle.TraversalCost;

/**
 * The wavefront that computes the accumulated cost surface from its sources (an ordered upwind
 * scheme; see the package description).
 *
 * <p>The label of a cell is the least, over all steps of the {@link Stencil}, of the cost of the
 * step plus the label where it ends, interpolated between the two cells of the edge, and never
 * below either of them plus a 64th of the step. The last condition makes every label depend on
 * smaller ones only, and every operation is monotone in floating point. There is therefore one
 * largest solution, and it is reached bit for bit in any order of expansion.
 *
 * <p>The grid is divided into tiles. The tile with the least queued label is run first; inside it a
 * {@link TileFront} expands cells up to a little above that label and then notifies the
 * neighbouring tiles of changes in their halos. Any number of threads may help.
 */
public final class Front {
  /** Cells along a tile; sides of 32 to 128 cells take about the same time. */
  static final int SIDE = 64;

  private static final double SEED_CELLS = 10;

  /** How far a tile may run ahead of the least queued label, in costs of a typical cell. */
  private static final double AHEAD_CELLS = 64;

  /** Factor by which the budget is raised while a requested cell has not been reached. */
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

  /** Lower bound on the label of each cell; null for none. */
  private final Floats floor;

  /**
   * Queued cells of each tile as bits; null for none. Each array is used only by its tile's thread.
   */
  private final long[][] waiting;

  private final TileSpread spread;

  /**
   * @param wide true to use steps to the far ring; false gives the solution on the graph of 8
   *     neighbours, with its well-known heading error (up to 8.24 %)
   * @param budget largest cost; cells beyond it count as not reached
   * @param side side of a tile (cells)
   * @param scratch file in which labels are stored, null for the heap
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
    this.grounds = new TileGrounds(costs, tiling);
    this.waiting = new long[tiling.tiles()][];
    this.spread = new TileSpread(tiling, queue);
    for (int s : sources) {
      seed(s);
    }
  }

  /** Computes the least cost between every cell and the nearest source. */
  public static CostField spread(Costs costs, Progress progress, int... sources) {
    Front front = from(costs, Double.POSITIVE_INFINITY, sources);
    front.work(progress);
    return front.labels();
  }

  /** Creates a front; {@link #work} runs it. */
  public static Front from(Costs costs, double budget, int... sources) {
    return new Front(costs, true, budget, SIDE, CostTiles.scratch(costs.field()), sources);
  }

  /**
   * Creates a front that continues an ended one to a larger budget. Its labels are kept: they are
   * final, and only those beside ground without labels are expanded again. An expansion bound must
   * be set again.
   */
  public static Front continuing(CostField ended, double budget) {
    return repaired(ended, ended.costs(), new BitSet(), budget);
  }

  /**
   * Creates a front from the labels of an ended one on ground that differs in some cells: labels
   * there and around, whose steps look at that ground, fall with all that depend on them. An
   * expansion bound must be set again.
   *
   * @param changed cells in which the ground may differ
   * @return null if the ground about a source differs, where costs are those of straight lines
   */
  static Front onOtherGround(CostField ended, Costs costs, BitSet changed, double budget) {
    GridSpec spec = costs.field().spec();
    BitSet seeded = DependentLabels.around(spec, changed, (int) SEED_CELLS + TileGround.PAD);
    for (int s : ended.sources()) {
      if (seeded.get(s)) {
        return null;
      }
    }
    BitSet around = DependentLabels.around(spec, changed, TileGround.PAD);
    return repaired(ended, costs, around, budget);
  }

  private static Front repaired(CostField ended, Costs costs, BitSet lost, double budget) {
    Front front = from(costs, budget, ended.sources());
    front.take(ended.tiles(), lost.isEmpty() ? lost : DependentLabels.on(ended, lost));
    return front;
  }

  /**
   * Creates a front whose labels have lower bounds: the label is the minimum over all paths of the
   * maximum, over the cells of the path, of the cost driven up to the cell plus the cell's bound.
   * The step codes depend on the order of expansion and must be recomputed by the caller.
   *
   * @param floor bound of each cell by itself, NaN for none
   */
  public static Front above(Costs costs, Floats floor, double budget, int source) {
    ScratchFile scratch = CostTiles.scratch(costs.field());
    return new Front(costs, true, budget, SIDE, scratch, floor, source);
  }

  /**
   * Returns the labels, complete once all calls of {@link #work} have returned, and ends the front.
   */
  public CostField labels() {
    grounds.clear();
    if (budget < Double.POSITIVE_INFINITY || allowance != null) {
      labels.cut(budget, allowance);
    }
    double upTo = isDone() ? Double.POSITIVE_INFINITY : budget;
    return new CostField(costs, stencil, sources, labels, cellCost, upTo);
  }

  /** Returns the labels found so far; labels beyond the budget are not final. */
  public CostField soFar() {
    return new CostField(costs, stencil, sources, labels, cellCost, budget);
  }

  /** True if a cell has its final label. */
  public boolean isFinal(int cell) {
    return labels.value(cell) <= budget || isDone();
  }

  /** Estimated cost of the straight line from a source. */
  public double straight(int cell) {
    int row = cell / tiling.cols() - sources[0] / tiling.cols();
    int col = cell % tiling.cols() - sources[0] % tiling.cols();
    return cellCost * Math.hypot(row, col);
  }

  /** Raises the budget to at least the given cost and above the least queued label. */
  public void raiseBudget(double least) {
    raiseBudget(least, Double.POSITIVE_INFINITY);
  }

  /**
   * Like {@link #raiseBudget(double)}.
   *
   * @param most largest budget
   */
  public void raiseBudget(double least, double most) {
    allow(Math.min(most, Math.max(least, FURTHER * queue.least())), allowance);
  }

  /** True if no larger budget would find further labels. */
  public boolean isDone() {
    return queue.least() == Double.POSITIVE_INFINITY;
  }

  /** Largest label that is expanded. */
  public double budget() {
    return budget;
  }

  /**
   * Initialises the cells around a source with exact costs of straight lines, which have no
   * interpolation error.
   */
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
      // The bound of a cell applies from its centre.
      double asked = floor.get(line.cell(i)) + before;
      most = asked > most ? asked : most;
      before += line.cost(costs, i);
    }
    return most;
  }

  private void take(CostTiles kept, BitSet lost) {
    labels.take(kept, lost);
    TraversalCost field = costs.field();
    for (int tile = 0; tile < tiling.tiles(); tile++) {
      if (!kept.nearLabels(tile)) {
        continue;
      }
      int endRow = tiling.firstRow(tile) + tiling.high(tile);
      int endCol = tiling.firstCol(tile) + tiling.broad(tile);
      for (int row = tiling.firstRow(tile); row < endRow; row++) {
        for (int col = tiling.firstCol(tile); col < endCol; col++) {
          int cell = row * tiling.cols() + col;
          boolean bare = kept.value(cell) == Double.POSITIVE_INFINITY || lost.get(cell);
          if (bare && field.allowed(cell) != 0) {
            wakeAround(kept, lost, row, col);
          }
        }
      }
    }
    allow(budget, allowance);
  }

  private void wakeAround(CostTiles kept, BitSet lost, int row, int col) {
    int lastRow = Math.min(tiling.rows() - 1, row + TileGround.SEEN);
    int lastCol = Math.min(tiling.cols() - 1, col + TileGround.SEEN);
    for (int r = Math.max(0, row - TileGround.SEEN); r <= lastRow; r++) {
      for (int c = Math.max(0, col - TileGround.SEEN); c <= lastCol; c++) {
        int cell = r * tiling.cols() + c;
        if (kept.value(cell) < Double.POSITIVE_INFINITY && !lost.get(cell)) {
          await(cell);
        }
      }
    }
  }

  private void enter(int cell, double cost) {
    labels.set(cell, cost, Stencil.STRAIGHT);
    await(cell);
    queue.wake(tiling.tileOf(cell), cost);
  }

  private void await(int cell) {
    int tile = tiling.tileOf(cell);
    int at = tiling.within(cell);
    if (waiting[tile] == null) {
      waiting[tile] = new long[(tiling.side() * tiling.side() + 63) / 64];
    }
    waiting[tile][at >> 6] |= 1L << at;
  }

  /**
   * Sets the budget and expansion bound; allowed before the front runs, or to continue it when no
   * work is left.
   *
   * @param from expansion bound, null for none
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

  /** Limits expansion to the cells of a set. */
  public void keepTo(BitSet within) {
    allow(budget, new DomainMask(tiling, within));
  }

  /** Limits expansion to cells where a stop at the time of arrival leaves time to get home. */
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

  /** Same as {@link CostField#withMargin}. */
  double withMargin(double amount) {
    return soFar().withMargin(amount);
  }

  /** Runs tiles until no work is left; any number of threads may call it. */
  public void work(Progress progress) {
    spread.work(() -> runner(), progress);
  }

  private TileFront runner() {
    return new TileFront(
        costs,
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

  /** Counters of work so far: tile runs, cells expanded, tile grounds computed. */
  long[] efforts() {
    return new long[] {spread.runs(), spread.worked(), grounds.loads()};
  }

  /** Median of the least cost per metre over a sample of the cells. */
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
