package org.scarpway.reach.front;

/**
 * Accumulated cost surface, the result of a front: the least cost between each cell and the nearest
 * source, and the first step of the least-cost path to it.
 */
public final class CostField {
  private static final double MARGIN_SHARE = 0.02;
  private static final double MARGIN_CELLS = 16;

  private final Costs costs;
  private final Stencil stencil;
  private final int[] sources;
  private final CostTiles tiles;
  private final double cellCost;

  /**
   * @param costs costs that were accumulated
   * @param sources cell indices where the cost is 0
   * @param tiles cost per cell, infinite where there is no path; step code of {@link Stencil} per
   *     cell, or {@link Stencil#STRAIGHT} or {@link Stencil#NONE}
   * @param cellCost cost of crossing a typical cell
   */
  CostField(Costs costs, Stencil stencil, int[] sources, CostTiles tiles, double cellCost) {
    this.costs = costs;
    this.stencil = stencil;
    this.sources = sources;
    this.tiles = tiles;
    this.cellCost = cellCost;
  }

  public Costs costs() {
    return costs;
  }

  public Stencil stencil() {
    return stencil;
  }

  /** Cells where the cost is 0. */
  public int[] sources() {
    return sources;
  }

  public CostTiles tiles() {
    return tiles;
  }

  /**
   * The amount plus a safety margin (MARGIN_SHARE of it and MARGIN_CELLS cells' cost) that covers
   * the discretisation error of labels.
   */
  public double withMargin(double amount) {
    return (1 + MARGIN_SHARE) * amount + MARGIN_CELLS * cellCost;
  }

  public double value(int cell) {
    return tiles.value(cell);
  }

  public int stepAt(int cell) {
    return tiles.step(cell);
  }

  public boolean reached(int cell) {
    return tiles.value(cell) < Double.POSITIVE_INFINITY;
  }

  /** The source with the cheapest straight line. */
  public int straightSource(int cell, Line line) {
    int best = sources[0];
    double least = Double.POSITIVE_INFINITY;
    for (int s : sources) {
      if (sources.length == 1 || s == cell) {
        return s;
      }
      double cost = line.between(cell, s).cost(costs);
      if (cost < least) {
        least = cost;
        best = s;
      }
    }
    return best;
  }
}
