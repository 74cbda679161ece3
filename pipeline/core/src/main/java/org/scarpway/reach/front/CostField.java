package org.scarpway.reach.front;

/**
 * What a front left behind: the least cost between each cell and the nearest source, and the step
 * that begins the best way there.
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
   * @param costs what was counted
   * @param sources cell indices where the cost is 0
   * @param tiles cost per cell, infinite where there is no way; code of {@link Stencil} per cell,
   *     or {@link Stencil#STRAIGHT} or {@link Stencil#NONE}
   * @param cellCost of crossing a typical cell
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

  /** An amount and so much more that labels which are not exact lose nothing of it. */
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

  /** The source to which the straight line costs least. */
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
