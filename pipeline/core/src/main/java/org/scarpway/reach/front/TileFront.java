package org.scarpway.reach.front;

import java.util.Arrays;
import org.scarpway.stage.Floats;

/**
 * The front inside one tile: expands queued cells in order of label and updates the cells that have
 * the expanded cell on their rings. One instance is the working memory of one thread, used for one
 * tile after another.
 */
final class TileFront implements TileRunner {
  private static final byte IDLE = 0;

  /** Queued, but the expansion bound does not allow its label yet. */
  private static final byte HELD = 1;

  private static final byte WAITING = 2;

  /** Expanded by an earlier run. */
  private static final byte DONE = 3;

  /** Expanded by the last run. */
  private static final byte JUST_DONE = 4;

  private static final double LEAST_ADVANCE = 1.0 / 64;
  private static final double UNKNOWN = -1;

  /** Factor that keeps bounds below the bounded values despite rounding. */
  private static final double ALMOST = 1 - 1e-6;

  private final Stencil stencil;
  private final boolean wide;
  private final CostTiles labels;
  private final TileGrounds grounds;
  private final long[][] waiting;
  private final double ahead;
  private final double budget;
  private final ExpansionBound allowance;
  private final double[] most;

  /** Lower bound on the label of each cell; null for none. */
  private final Floats floor;

  private final double[] least;
  private final Tiling tiling;
  private final int stride;
  private final int first;
  private final double[] value;
  private final byte[] step;
  private final byte[] state;
  private final BucketQueue queue;
  private final TileSteps steps;
  private TileGround ground;
  private int tile;
  private double limit;
  private double left;
  private boolean anyHeld;

  /** Lower bound on the label from the cells that the current step crosses. */
  private double held = Double.NEGATIVE_INFINITY;

  private double bestValue;
  private int bestStep;

  /**
   * @param wide true to use steps to the far ring as well
   * @param waiting queued cells of each tile as bits; null for none
   * @param bucketWidth width of a bucket; labels within one bucket are expanded in any order
   * @param ahead how far a tile may run ahead of the least queued label of the grid (cost)
   * @param budget largest label that is expanded
   * @param allowance largest label of each cell that is expanded; null for none
   * @param floor lower bound on the label of each cell, NaN for none; null for none anywhere
   */
  TileFront(
      Costs costs,
      Stencil stencil,
      boolean wide,
      CostTiles labels,
      TileGrounds grounds,
      long[][] waiting,
      double bucketWidth,
      double ahead,
      double budget,
      ExpansionBound allowance,
      Floats floor) {
    this.stencil = stencil;
    this.wide = wide;
    this.labels = labels;
    this.grounds = grounds;
    this.waiting = waiting;
    this.ahead = ahead;
    this.budget = budget;
    this.allowance = allowance;
    this.floor = floor;
    this.tiling = labels.tiling();
    this.stride = tiling.side() + 2 * TileGround.PAD;
    this.first = TileGround.PAD * (stride + 1);
    this.steps = new TileSteps(costs, stencil, stride);
    this.value = new double[stride * stride];
    this.most = new double[value.length];
    Arrays.fill(most, Double.POSITIVE_INFINITY);
    this.least = floor == null ? null : new double[value.length];
    this.step = new byte[value.length];
    this.state = new byte[value.length];
    this.queue = new BucketQueue(value, bucketWidth);
  }

  @Override
  public long run(int next, double from) {
    tile = next;
    ground = grounds.take(tile);
    steps.on(ground, tiling.firstRow(tile) * tiling.cols() + tiling.firstCol(tile));
    limit = Math.min(from + ahead, budget);
    left = Double.POSITIVE_INFINITY;
    anyHeld = false;
    Arrays.fill(value, Double.POSITIVE_INFINITY);
    labels.read(tile, TileGround.SEEN, value, first, stride);
    labels.readSteps(tile, step, first, stride);
    if (allowance != null) {
      allowance.read(tile, most, first, stride);
    }
    if (floor != null) {
      readFloor();
    }
    for (int at = 0; at < state.length; at++) {
      boolean labelled = value[at] < Double.POSITIVE_INFINITY && value[at] <= most[at];
      state[at] = labelled ? DONE : IDLE;
    }
    queue.restart(from);
    waitInMargin(from);
    long[] bits = waiting[tile];
    for (int w = 0; bits != null && w < bits.length; w++) {
      for (long b = bits[w]; b != 0; b &= b - 1) {
        int i = (w << 6) + Long.numberOfTrailingZeros(b);
        await(first + i / tiling.side() * stride + i % tiling.side());
      }
    }
    long taken = 0;
    for (int at = queue.poll(); at >= 0; at = queue.poll()) {
      if (state[at] == WAITING) {
        state[at] = JUST_DONE;
        if (wide) {
          offerFar(at);
        }
        offerNear(at);
        taken++;
      }
    }
    labels.write(tile, value, step, first, stride);
    waiting[tile] = stillWaiting();
    grounds.giveBack(tile);
    ground = null;
    return taken;
  }

  private void readFloor() {
    Arrays.fill(least, Double.NEGATIVE_INFINITY);
    int firstCell = tiling.firstRow(tile) * tiling.cols() + tiling.firstCol(tile);
    int row = tiling.firstRow(tile);
    int col = tiling.firstCol(tile);
    for (int r = Math.max(-1, -row); r <= tiling.high(tile) && row + r < tiling.rows(); r++) {
      for (int c = Math.max(-1, -col); c <= tiling.broad(tile) && col + c < tiling.cols(); c++) {
        float v = floor.get(firstCell + r * tiling.cols() + c);
        if (!Float.isNaN(v)) {
          least[first + r * stride + c] = v;
        }
      }
    }
  }

  private void waitInMargin(double from) {
    int high = tiling.high(tile);
    int broad = tiling.broad(tile);
    for (int r = -TileGround.SEEN; r < high + TileGround.SEEN; r++) {
      boolean inside = r >= 0 && r < high;
      for (int c = -TileGround.SEEN; c < broad + TileGround.SEEN; c++) {
        if (inside && c == 0) {
          c = broad;
        }
        int at = first + r * stride + c;
        if (value[at] >= from && value[at] < Double.POSITIVE_INFINITY) {
          await(at);
        }
      }
    }
  }

  private void await(int at) {
    if (value[at] > most[at]) {
      state[at] = HELD;
      anyHeld = true;
      return;
    }
    state[at] = WAITING;
    if (value[at] <= limit) {
      queue.add(at);
    } else {
      left = Math.min(left, value[at]);
    }
  }

  @Override
  public double left() {
    return left;
  }

  /** Cells of the tile that the last run left queued, as bits; null for none. */
  private long[] stillWaiting() {
    if (left == Double.POSITIVE_INFINITY && !anyHeld) {
      return null;
    }
    long[] bits = new long[(tiling.side() * tiling.side() + 63) / 64];
    for (int r = 0; r < tiling.high(tile); r++) {
      for (int c = 0; c < tiling.broad(tile); c++) {
        byte s = state[first + r * stride + c];
        if (s == WAITING || s == HELD) {
          int i = r * tiling.side() + c;
          bits[i >> 6] |= 1L << i;
        }
      }
    }
    return bits;
  }

  /** Least label that the last run expanded in the halo of a neighbouring tile. */
  @Override
  public double changed(int dRow, int dCol) {
    int high = tiling.high(tile);
    int broad = tiling.broad(tile);
    int r0 = dRow > 0 ? Math.max(0, high - TileGround.SEEN) : 0;
    int r1 = dRow < 0 ? Math.min(TileGround.SEEN, high) : high;
    int c0 = dCol > 0 ? Math.max(0, broad - TileGround.SEEN) : 0;
    int c1 = dCol < 0 ? Math.min(TileGround.SEEN, broad) : broad;
    double least = Double.POSITIVE_INFINITY;
    for (int r = r0; r < r1; r++) {
      for (int c = c0; c < c1; c++) {
        int at = first + r * stride + c;
        if (state[at] == JUST_DONE && value[at] < least) {
          least = value[at];
        }
      }
    }
    return least;
  }

  /** Updates the cells that have an expanded cell on their far ring. */
  private void offerFar(int done) {
    TileGround g = ground;
    double[] value = this.value;
    double here = value[done];
    for (int j = 0; j < Stencil.FAR; j++) {
      int cell = done - steps.far(j);
      double best = value[cell];
      double least = g.least[cell];
      if (best <= here || least == Double.POSITIVE_INFINITY) {
        continue;
      }
      bestValue = best;
      bestStep = step[cell] & 0xFF;
      double perM = UNKNOWN;
      int code = j * Stencil.EIGHTHS;
      if (here + least * stencil.lengthM(code) <= best) {
        perM = steps.farPerM(cell, j);
        held = least(cell + steps.middle(j), cell + steps.middle2(j));
        considerCell(here, perM, code);
      }
      int next = (j + 1) & (Stencil.FAR - 1);
      int other = cell + steps.far(next);
      if (state[other] >= DONE && edgeMatters(j, here, value[other], least)) {
        farEdge(cell, j, here, value[other], perM, UNKNOWN);
      }
      int before = (j - 1) & (Stencil.FAR - 1);
      other = cell + steps.far(before);
      if (state[other] >= DONE && edgeMatters(before, here, value[other], least)) {
        farEdge(cell, before, value[other], here, UNKNOWN, perM);
      }
      settle(cell);
    }
  }

  private boolean edgeMatters(int edge, double here, double other, double least) {
    double low = here < other ? here : other;
    double high = here < other ? other : here;
    return high < bestValue && low + least * stencil.edgeLengthM(edge) <= bestValue;
  }

  /**
   * Evaluates the steps that end between the two cells of a far edge. Near barred headings the cost
   * of none is below the share that {@link Stencil#gain} leaves of the path through one of the two
   * cells, so that every label is backed by a path from cell to cell.
   */
  private void farEdge(
      int cell, int edge, double first, double second, double firstPerM, double secondPerM) {
    double middle = steps.farMiddlePerM(cell, edge);
    if (middle == Double.POSITIVE_INFINITY) {
      return;
    }
    int crossed = cell + steps.middle(Stencil.even(edge));
    held = least(crossed, crossed);
    double start = firstPerM == UNKNOWN ? steps.farPerM(cell, edge) : firstPerM;
    double end =
        secondPerM == UNKNOWN ? steps.farPerM(cell, (edge + 1) & (Stencil.FAR - 1)) : secondPerM;
    if (Stencil.bends(start, middle, end)
        && bentEdge(cell, edge, first, second, start, middle, end)) {
      return;
    }
    double lowStart = (start < middle ? start : middle) * ALMOST;
    double lowEnd = (end < middle ? end : middle) * ALMOST;
    double floor = first > second ? first : second;
    int code = edge * Stencil.EIGHTHS;
    double via = 0;
    int viaCode = code;
    if (ground.kind[cell] == TileGround.TIGHT) {
      int endCode = Stencil.toCell(code, 1);
      double via0 = first + stencil.gain(code) * (start * stencil.lengthM(code));
      double via1 = second + stencil.gain(code) * (end * stencil.lengthM(endCode));
      via = via0 <= via1 ? via0 : via1;
      viaCode = via0 <= via1 ? code : endCode;
      if (via > bestValue) {
        return;
      }
    }
    double best = bestValue;
    int step = bestStep;
    // One comparison for the half of an edge in which no step can be as good as the best.
    double half = 0.5 * first + 0.5 * second;
    double leastM = stencil.edgeLengthM(edge);
    int from = (first < half ? first : half) + lowStart * leastM > best ? 4 : 1;
    int to = (half < second ? half : second) + lowEnd * leastM > best ? 4 : Stencil.EIGHTHS;
    for (int i = from; i < to; i++) {
      double share = i * (1.0 / Stencil.EIGHTHS);
      double before = (1 - share) * first + share * second;
      double lengthM = stencil.lengthM(code + i);
      // Most steps of an edge can be skipped: the cost between two headings is not below both.
      if (before + (i < 4 ? lowStart : lowEnd) * lengthM > best) {
        continue;
      }
      double perM = i == 4 ? middle : Stencil.farBetween(i, start, middle, end);
      double cost = perM * lengthM;
      double v = before + cost;
      double lowest = floor + cost * LEAST_ADVANCE;
      v = v > lowest ? v : lowest;
      int how = v >= via ? code + i : viaCode;
      v = v >= via ? v : via;
      v = v >= held ? v : held;
      if (v < best || (v == best && how < step && v < Double.POSITIVE_INFINITY)) {
        best = v;
        step = how;
      }
    }
    bestValue = best;
    bestStep = step;
  }

  /**
   * Evaluates the steps of a far edge over which the cost may have a corner.
   *
   * @return false if there is no corner, and nothing was evaluated
   */
  private boolean bentEdge(
      int cell, int edge, double first, double second, double start, double middle, double end) {
    if (!anyMatters(edge, first, second, start, middle, end)) {
      return true;
    }
    double at = steps.corner(cell, edge);
    if (Double.isNaN(at)) {
      return false;
    }
    double via = 0;
    int viaCode = 0;
    if (ground.kind[cell] == TileGround.TIGHT) {
      int code = edge * Stencil.EIGHTHS;
      int endCode = Stencil.toCell(code, 1);
      double via0 = first + stencil.gain(code) * (start * stencil.lengthM(code));
      double via1 = second + stencil.gain(code) * (end * stencil.lengthM(endCode));
      via = via0 <= via1 ? via0 : via1;
      viaCode = via0 <= via1 ? code : endCode;
    }
    double corner = Double.POSITIVE_INFINITY;
    if ((at < 0.5 ? start : end) < Double.POSITIVE_INFINITY) {
      double least = Stencil.leastAtCorner(start, middle, end, at);
      corner = Math.max(least, steps.chordPerM(cell, edge, at));
      if (Stencil.isStep(at)) {
        double before = (1 - at) * first + at * second;
        double cost = corner * stencil.farLengthM(edge, at);
        consider(before, first, second, cost, Stencil.CORNER_CODES + edge, via, viaCode);
      }
    }
    for (int i = 1; i < Stencil.EIGHTHS; i++) {
      if ((i < 4 ? start : end) < Double.POSITIVE_INFINITY || i == 4) {
        int code = edge * Stencil.EIGHTHS + i;
        double share = i * (1.0 / Stencil.EIGHTHS);
        double perM = i == 4 ? middle : Stencil.farBetween(i, start, middle, end, at, corner);
        double before = (1 - share) * first + share * second;
        consider(before, first, second, perM * stencil.lengthM(code), code, via, viaCode);
      }
    }
    return true;
  }

  private void consider(
      double before, double first, double second, double cost, int code, double via, int viaCode) {
    double v = before + cost;
    double lowest = (first > second ? first : second) + cost * LEAST_ADVANCE;
    v = v > lowest ? v : lowest;
    take(v >= via ? v : via, v >= via ? code : viaCode);
  }

  /** True if a step to an edge with a corner may be as good as the best. */
  private boolean anyMatters(
      int edge, double first, double second, double start, double middle, double end) {
    if (start + end == Double.POSITIVE_INFINITY) {
      return true;
    }
    double at = first;
    double perM = Stencil.leastAtCorner(start, middle, end, 0);
    double lengthM = stencil.edgeLengthM(edge, 0);
    for (int i = 1; i <= 4; i++) {
      double nextAt = first + i * 0.25 * (second - first);
      double nextPerM = Stencil.leastAtCorner(start, middle, end, i * 0.25);
      double nextM = stencil.edgeLengthM(edge, i);
      // Between the ends, none of the three factors is less than at both ends.
      double least = (perM < nextPerM ? perM : nextPerM) * (lengthM < nextM ? lengthM : nextM);
      if ((at < nextAt ? at : nextAt) + least * ALMOST <= bestValue) {
        return true;
      }
      at = nextAt;
      perM = nextPerM;
      lengthM = nextM;
    }
    return false;
  }

  /**
   * Updates the neighbours of an expanded cell. On open ground steps to cells suffice, since the
   * far ring provides the directions in between; next to barriers, where far steps are often
   * barred, near steps also end between cells.
   */
  private void offerNear(int done) {
    TileGround g = ground;
    double[] value = this.value;
    double here = value[done];
    for (int j = 0; j < Stencil.NEAR; j++) {
      int cell = done - steps.near(j);
      double best = value[cell];
      double least = g.least[cell];
      if (best <= here || least == Double.POSITIVE_INFINITY) {
        continue;
      }
      int code = Stencil.NEAR_CODES + j * Stencil.QUARTERS;
      boolean tight = wide && g.kind[cell] == TileGround.TIGHT;
      boolean matters = here + least * stencil.lengthM(code) <= best;
      if (!matters && !tight) {
        continue;
      }
      bestValue = best;
      bestStep = step[cell] & 0xFF;
      held = Double.NEGATIVE_INFINITY;
      if (matters) {
        considerCell(here, steps.nearPerM(cell, j), code);
      }
      if (tight) {
        int other = cell + steps.near((j + 1) & (Stencil.NEAR - 1));
        if (state[other] >= DONE) {
          nearEdge(cell, j, here, value[other], least);
        }
        int before = (j - 1) & (Stencil.NEAR - 1);
        other = cell + steps.near(before);
        if (state[other] >= DONE) {
          nearEdge(cell, before, value[other], here, least);
        }
      }
      settle(cell);
    }
  }

  private void nearEdge(int cell, int edge, double first, double second, double least) {
    double floor = first > second ? first : second;
    double low = first < second ? first : second;
    int code = Stencil.NEAR_CODES + edge * Stencil.QUARTERS;
    if (bestValue <= floor || low + least * stencil.nearestM() > bestValue) {
      return;
    }
    int next = (edge + 1) & (Stencil.NEAR - 1);
    int endCode = Stencil.toCell(code, 1);
    double gain = stencil.gain(code);
    double via0 = first + gain * (steps.nearPerM(cell, edge) * stencil.lengthM(code));
    double via1 = second + gain * (steps.nearPerM(cell, next) * stencil.lengthM(endCode));
    double via = via0 <= via1 ? via0 : via1;
    int viaCode = via0 <= via1 ? code : endCode;
    if (via > bestValue) {
      return;
    }
    for (int i = 1; i < Stencil.QUARTERS; i++) {
      double share = i * (1.0 / Stencil.QUARTERS);
      double cost = steps.nearBetweenPerM(cell, edge, i) * stencil.lengthM(code + i);
      double v = (1 - share) * first + share * second + cost;
      double lowest = floor + cost * LEAST_ADVANCE;
      v = v > lowest ? v : lowest;
      take(v >= via ? v : via, v >= via ? code + i : viaCode);
    }
  }

  private void considerCell(double first, double perM, int code) {
    take(first + perM * stencil.lengthM(code), code);
  }

  private double least(int one, int other) {
    return least == null ? Double.NEGATIVE_INFINITY : Math.max(least[one], least[other]);
  }

  /** Ties go to the lowest step code, so that the order of evaluation does not matter. */
  private void take(double sum, int code) {
    double v = sum >= held ? sum : held;
    if (v < bestValue || (v == bestValue && code < bestStep && v < Double.POSITIVE_INFINITY)) {
      bestValue = v;
      bestStep = code;
    }
  }

  private void settle(int cell) {
    step[cell] = (byte) bestStep;
    double before = value[cell];
    double v = least == null || bestValue > least[cell] ? bestValue : least[cell];
    if (v < before) {
      boolean queued = state[cell] == WAITING && before <= limit && queue.sameBucket(v, before);
      value[cell] = v;
      if (!queued) {
        await(cell);
      }
    }
  }
}
