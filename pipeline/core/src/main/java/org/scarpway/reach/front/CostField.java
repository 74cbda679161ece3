package org.scarpway.reach.front;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.util.BitSet;

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

  /** Cost up to which labels are known; cells of larger cost have none. */
  private final double upTo;

  /**
   * @param costs costs that were accumulated
   * @param sources cell indices where the cost is 0
   * @param tiles cost per cell, infinite where there is no path; step code of {@link Stencil} per
   *     cell, or {@link Stencil#STRAIGHT} or {@link Stencil#NONE}
   * @param cellCost cost of crossing a typical cell
   * @param upTo cost up to which labels are known
   */
  CostField(
      Costs costs, Stencil stencil, int[] sources, CostTiles tiles, double cellCost, double upTo) {
    this.costs = costs;
    this.stencil = stencil;
    this.sources = sources;
    this.tiles = tiles;
    this.cellCost = cellCost;
    this.upTo = upTo;
  }

  /** The same labels up to a cost; this one if it knows no others. */
  CostField upTo(double cost) {
    if (upTo <= cost) {
      return this;
    }
    CostTiles less = CostTiles.of(tiles.tiling(), costs.field());
    less.take(tiles, new BitSet());
    less.cut(cost, null);
    return new CostField(costs, stencil, sources, less, cellCost, cost);
  }

  /** The same labels by costs of equal value, such as those of another copy of the ground. */
  CostField by(Costs equal) {
    return equal.field() == costs.field()
        ? this
        : new CostField(equal, stencil, sources, tiles, cellCost, upTo);
  }

  /** Cost up to which labels are known; infinite if all are. */
  public double upTo() {
    return upTo;
  }

  void writeTo(OutputStream out) throws IOException {
    ByteBuffer head = ByteBuffer.allocate(2 * Double.BYTES);
    out.write(head.putDouble(cellCost).putDouble(upTo).array());
    tiles.writeTo(out);
  }

  /**
   * Reads labels that were computed with equal costs from the same sources.
   *
   * @throws IOException if they are not of this grid
   */
  static CostField readFrom(InputStream in, Costs costs, int[] sources) throws IOException {
    ByteBuffer head = ByteBuffer.wrap(in.readNBytes(2 * Double.BYTES));
    if (head.remaining() < 2 * Double.BYTES) {
      throw new EOFException("no labels");
    }
    double cellCost = head.getDouble();
    double upTo = head.getDouble();
    CostTiles tiles = CostTiles.readFrom(in, costs.field());
    return new CostField(costs, new Stencil(costs.field().spec()), sources, tiles, cellCost, upTo);
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

  /**
   * Step codes by cell, {@link Stencil#NONE} where no way leads; null if there are too many for the
   * heap.
   */
  public byte[] stepsByCell() {
    return tiles.stepsByCell();
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
