package org.scarpway.reach.front;

import java.util.Arrays;
import java.util.concurrent.atomic.AtomicIntegerArray;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;

/**
 * One tile of a {@link NeighbourSpread}: rows are swept downwards and upwards, each from the row
 * before it and then along itself in both directions, until nothing changes; a row is skipped if
 * the row before it has not changed since (fast sweeping: Zhao 2005, <i>A fast sweeping method for
 * Eikonal equations</i>, Math. Comp. 74:603-627).
 */
final class NeighbourSweeps implements TileRunner {
  private final Floats costPerM;
  private final CostTiles labels;
  private final AtomicIntegerArray fresh;
  private final Tiling tiling;
  private final int stride;
  private final double[] value;
  private final double[] half;
  private final double[] old;
  private final double[] row;
  private final float[] cost;
  private final boolean[] forDown;
  private final boolean[] forUp;
  private final boolean[] itself;
  private final double alongM;
  private final double acrossM;
  private final double diagonalM;
  private int tile;

  NeighbourSweeps(GridSpec spec, Floats costPerM, CostTiles labels, AtomicIntegerArray fresh) {
    this.fresh = fresh;
    this.costPerM = costPerM;
    this.labels = labels;
    this.tiling = labels.tiling();
    this.stride = tiling.side() + 2;
    this.value = new double[stride * stride];
    this.half = new double[stride * stride];
    this.old = new double[stride * stride];
    this.row = new double[stride];
    this.cost = new float[stride];
    this.forDown = new boolean[stride];
    this.forUp = new boolean[stride];
    this.itself = new boolean[stride];
    this.alongM = spec.cellXM();
    this.acrossM = spec.cellYM();
    this.diagonalM = Math.sqrt(alongM * alongM + acrossM * acrossM);
  }

  @Override
  public long run(int next, double from) {
    tile = next;
    Arrays.fill(value, Double.POSITIVE_INFINITY);
    labels.read(tile, 1, value, stride + 1, stride);
    readCosts();
    boolean first = fresh.getAndSet(tile, 0) != 0;
    if (first) {
      Arrays.fill(old, Double.POSITIVE_INFINITY);
    } else {
      System.arraycopy(value, 0, old, 0, value.length);
    }
    long swept = sweep(first);
    labels.write(tile, value, null, stride + 1, stride);
    return swept;
  }

  private void readCosts() {
    Arrays.fill(half, Double.POSITIVE_INFINITY);
    int cols = tiling.cols();
    int c0 = Math.max(0, tiling.firstCol(tile) - 1);
    int c1 = Math.min(cols, tiling.firstCol(tile) + tiling.side() + 1);
    int r0 = Math.max(0, tiling.firstRow(tile) - 1);
    int r1 = Math.min(tiling.rows(), tiling.firstRow(tile) + tiling.side() + 1);
    for (int r = r0; r < r1; r++) {
      int at = (r - tiling.firstRow(tile) + 1) * stride - tiling.firstCol(tile) + 1;
      costPerM.read(r * cols + c0, cost, 0, c1 - c0);
      for (int c = c0; c < c1; c++) {
        float whole = cost[c - c0];
        half[at + c] = whole >= 0 ? 0.5 * whole : Double.POSITIVE_INFINITY;
      }
    }
  }

  private long sweep(boolean everything) {
    int last = stride - 2;
    Arrays.fill(forDown, everything);
    Arrays.fill(forUp, everything);
    for (int r = 1; r <= last; r++) {
      boolean left = pull(r * stride + 1, -1);
      boolean right = pull(r * stride + last, 1);
      itself[r] = left || right;
    }
    forDown[0] = true;
    forUp[last + 1] = true;
    long swept = 0;
    boolean changed = true;
    while (changed) {
      changed = false;
      for (int r = 1; r <= last; r++) {
        if (forDown[r - 1] || itself[r]) {
          swept += tiling.side();
          changed |= settle(r, forDown[r - 1] ? r - 1 : r);
          forDown[r - 1] = false;
        }
      }
      for (int r = last; r >= 1; r--) {
        if (forUp[r + 1]) {
          swept += tiling.side();
          changed |= settle(r, r + 1);
          forUp[r + 1] = false;
        }
      }
    }
    return swept;
  }

  /** Updates a cell from the halo to its left or right. */
  private boolean pull(int at, int side) {
    double best = step(at, at + side, alongM);
    best = Math.min(best, step(at, at + side - stride, diagonalM));
    best = Math.min(best, step(at, at + side + stride, diagonalM));
    if (best < value[at]) {
      value[at] = best;
      return true;
    }
    return false;
  }

  private double step(int at, int from, double lengthM) {
    return value[from] + (half[from] + half[at]) * lengthM;
  }

  /** Updates a row from the row before it (if any), then along itself in both directions. */
  private boolean settle(int r, int before) {
    int at = r * stride;
    if (before == r) {
      System.arraycopy(value, at, row, 0, stride);
    } else {
      fromRow(value, half, at, before * stride, acrossM, diagonalM, row);
    }
    boolean changed = along(value, half, at, alongM, row) || itself[r];
    itself[r] = false;
    forDown[r] |= changed;
    forUp[r] |= changed;
    return changed;
  }

  private static void fromRow(
      double[] value,
      double[] half,
      int at,
      int before,
      double acrossM,
      double diagonalM,
      double[] row) {
    for (int c = 1; c < row.length - 1; c++) {
      double here = half[at + c];
      double straight = value[before + c] + (half[before + c] + here) * acrossM;
      double left = value[before + c - 1] + (half[before + c - 1] + here) * diagonalM;
      double right = value[before + c + 1] + (half[before + c + 1] + here) * diagonalM;
      row[c] = Math.min(Math.min(straight, left), Math.min(right, value[at + c]));
    }
  }

  private static boolean along(double[] value, double[] half, int at, double alongM, double[] row) {
    int last = row.length - 2;
    double best = value[at];
    double cost = half[at];
    for (int c = 1; c <= last; c++) {
      double here = half[at + c];
      double through = best + (cost + here) * alongM;
      best = through < row[c] ? through : row[c];
      row[c] = best;
      cost = here;
    }
    best = value[at + last + 1];
    cost = half[at + last + 1];
    for (int c = last; c >= 1; c--) {
      double here = half[at + c];
      double through = best + (cost + here) * alongM;
      best = through < row[c] ? through : row[c];
      row[c] = best;
      cost = here;
    }
    int lower = 0;
    for (int c = 1; c <= last; c++) {
      lower |= row[c] < value[at + c] ? 1 : 0;
      value[at + c] = row[c];
    }
    return lower != 0;
  }

  @Override
  public double changed(int dRow, int dCol) {
    int high = tiling.high(tile);
    int broad = tiling.broad(tile);
    double least = Double.POSITIVE_INFINITY;
    for (int r = dRow > 0 ? high : 1; r <= (dRow < 0 ? 1 : high); r++) {
      for (int c = dCol > 0 ? broad : 1; c <= (dCol < 0 ? 1 : broad); c++) {
        int at = r * stride + c;
        if (value[at] < old[at]) {
          least = Math.min(least, value[at]);
        }
      }
    }
    return least;
  }

  @Override
  public double left() {
    return Double.POSITIVE_INFINITY;
  }
}
