package org.scarpway.reach;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Progress;

/**
 * Spreads least cost from sources over the ground. See the package description for the scheme.
 *
 * <p>The label of a cell is the least, over all steps of the {@link Stencil}, of the cost of the
 * step plus the label where it ends, interpolated between the two cells of the edge, and never
 * below either of them plus a 64th of the step. The last part makes every label depend on smaller
 * ones only, and every operation is monotone in floating point, so there is one largest solution
 * and it is reached bit for bit in whatever order cells are taken.
 */
final class Front {
  private static final double SEED_CELLS = 10;
  private static final double LEAST_ADVANCE = 1.0 / 64;
  private static final double UNKNOWN = -1;
  private static final int SAMPLES = 4096;
  private static final int REPORT_EVERY = 1 << 16;
  private static final byte WAITING = 1;
  private static final byte DONE = 2;

  private final Costs costs;
  private final Stencil stencil;
  private final boolean far;
  private final int rows;
  private final int cols;
  private final double[] value;
  private final byte[] step;
  private final byte[] state;
  private final byte[] open;
  private final float[] least;
  private final BucketQueue queue;

  private double bestValue;
  private int bestStep;

  private Front(Costs costs, boolean far) {
    GridSpec spec = costs.field().spec();
    this.costs = costs;
    this.stencil = new Stencil(spec);
    this.far = far;
    this.rows = spec.rows();
    this.cols = spec.cols();
    int n = spec.cells();
    this.value = new double[n];
    Arrays.fill(value, Double.POSITIVE_INFINITY);
    this.step = new byte[n];
    Arrays.fill(step, (byte) Labels.NONE);
    this.state = new byte[n];
    this.open = openGround();
    this.least = costs.leastPerM();
    this.queue = new BucketQueue(value, 0.25 * typicalPerM() * spec.cellM());
  }

  /** Least cost between every cell and the nearest source. */
  static Labels spread(Costs costs, Progress progress, int... sources) {
    Front f = new Front(costs, true);
    for (int s : sources) {
      f.seed(s);
    }
    f.run(progress);
    return new Labels(costs, f.stencil, sources, f.value, f.step);
  }

  /**
   * Least cost over steps between the centres of neighbouring cells only: the plain graph answer,
   * with its well-known heading error (up to 8.24 %).
   */
  static Labels spreadOverNeighbours(Costs costs, int... sources) {
    Front f = new Front(costs, false);
    for (int s : sources) {
      f.enter(s, 0, Labels.STRAIGHT);
    }
    f.run(Progress.NONE);
    return new Labels(costs, f.stencil, sources, f.value, f.step);
  }

  /** Straight ways from a source to the cells around it, which leave no interpolation error. */
  private void seed(int source) {
    Line line = new Line(costs.field().spec());
    int reach = (int) SEED_CELLS;
    int row = source / cols;
    int col = source % cols;
    enter(source, 0, Labels.STRAIGHT);
    for (int r = Math.max(0, row - reach); r <= Math.min(rows - 1, row + reach); r++) {
      for (int c = Math.max(0, col - reach); c <= Math.min(cols - 1, col + reach); c++) {
        int dr = r - row;
        int dc = c - col;
        int cell = r * cols + c;
        if (cell != source && dr * dr + dc * dc <= SEED_CELLS * SEED_CELLS) {
          double cost = line.between(cell, source).cost(costs);
          if (cost < value[cell]) {
            enter(cell, cost, Labels.STRAIGHT);
          }
        }
      }
    }
  }

  private void enter(int cell, double cost, int how) {
    value[cell] = cost;
    step[cell] = (byte) how;
    state[cell] = WAITING;
    queue.add(cell);
  }

  private void run(Progress progress) {
    long done = 0;
    for (int cell = queue.poll(); cell >= 0; cell = queue.poll()) {
      if (state[cell] != WAITING) {
        continue;
      }
      state[cell] = DONE;
      if (far) {
        offerFar(cell);
      }
      offerNear(cell);
      if (++done % REPORT_EVERY == 0) {
        progress.advance(REPORT_EVERY);
      }
    }
  }

  /** Offers a finished cell to those that have it on their far ring. */
  private void offerFar(int done) {
    int row = done / cols;
    int col = done - row * cols;
    // Deep inside nothing that is looked at can lie off the grid.
    boolean inside = row > 3 && row < rows - 4 && col > 3 && col < cols - 4;
    double here = value[done];
    for (int j = 0; j < Stencil.FAR; j++) {
      int r = row - stencil.farRow(j);
      int c = col - stencil.farCol(j);
      if (!inside && offGrid(r, c)) {
        continue;
      }
      int cell = done - stencil.far(j);
      if (value[cell] <= here || least[cell] == Float.POSITIVE_INFINITY) {
        continue;
      }
      start(cell);
      double atLeast = stencil.farAtLeast(least, cell, j);
      double perM = UNKNOWN;
      if (here + atLeast * stencil.lengthM(j * Stencil.EIGHTHS) <= bestValue) {
        perM = stencil.far(costs, cell, j);
        consider(here, here, perM, j * Stencil.EIGHTHS);
      }
      int next = (j + 1) & (Stencil.FAR - 1);
      int other = cell + stencil.far(next);
      if ((inside || !offGrid(r + stencil.farRow(next), c + stencil.farCol(next)))
          && state[other] == DONE) {
        farEdge(cell, j, here, value[other], perM, UNKNOWN, atLeast, next);
      }
      int before = (j - 1) & (Stencil.FAR - 1);
      other = cell + stencil.far(before);
      if ((inside || !offGrid(r + stencil.farRow(before), c + stencil.farCol(before)))
          && state[other] == DONE) {
        farEdge(cell, before, value[other], here, UNKNOWN, perM, atLeast, before);
      }
      settle(cell);
    }
  }

  private boolean offGrid(int row, int col) {
    return row < 0 || row >= rows || col < 0 || col >= cols;
  }

  private boolean finished(int row, int col) {
    return !offGrid(row, col) && state[row * cols + col] == DONE;
  }

  /** Steps that end between the two cells of a far edge, unless they surely cost too much. */
  private void farEdge(
      int cell,
      int edge,
      double first,
      double second,
      double firstPerM,
      double secondPerM,
      double atLeast,
      int other) {
    double floor = first > second ? first : second;
    if (bestValue <= floor) {
      return;
    }
    double otherAtLeast = stencil.farAtLeast(least, cell, other);
    double low = atLeast < otherAtLeast ? atLeast : otherAtLeast;
    if (stencil.edgeAtLeast(edge, first, second, low, low) > bestValue) {
      return;
    }
    double middle = stencil.farMiddle(costs, cell, edge);
    double lowStart = firstPerM == UNKNOWN ? low : firstPerM;
    double lowEnd = secondPerM == UNKNOWN ? low : secondPerM;
    lowStart = lowStart < middle ? lowStart : middle;
    lowEnd = lowEnd < middle ? lowEnd : middle;
    if (middle == Double.POSITIVE_INFINITY
        || stencil.edgeAtLeast(edge, first, second, lowStart, lowEnd) > bestValue) {
      return;
    }
    double start = firstPerM == UNKNOWN ? stencil.far(costs, cell, edge) : firstPerM;
    double end =
        secondPerM == UNKNOWN
            ? stencil.far(costs, cell, (edge + 1) & (Stencil.FAR - 1))
            : secondPerM;
    int code = edge * Stencil.EIGHTHS;
    double best = bestValue;
    int step = bestStep;
    for (int i = 1; i < Stencil.EIGHTHS; i++) {
      double share = i * (1.0 / Stencil.EIGHTHS);
      double perM = i == 4 ? middle : Stencil.farBetween(i, start, middle, end);
      double cost = perM * stencil.lengthM(code + i);
      double v = (1 - share) * first + share * second + cost;
      double lowest = floor + cost * LEAST_ADVANCE;
      v = v > lowest ? v : lowest;
      if (v < best || (v == best && code + i < step && v < Double.POSITIVE_INFINITY)) {
        best = v;
        step = code + i;
      }
    }
    bestValue = best;
    bestStep = step;
  }

  /**
   * Offers a finished cell to its neighbours. On open ground the cells themselves suffice, the far
   * ring holds the directions between; next to barriers, where far steps are often barred, near
   * steps end between cells as well.
   */
  private void offerNear(int done) {
    int row = done / cols;
    int col = done % cols;
    double here = value[done];
    for (int j = 0; j < Stencil.NEAR; j++) {
      int r = row - stencil.nearRow(j);
      int c = col - stencil.nearCol(j);
      if (r < 0 || r >= rows || c < 0 || c >= cols) {
        continue;
      }
      int cell = r * cols + c;
      if (value[cell] <= here || least[cell] == Float.POSITIVE_INFINITY) {
        continue;
      }
      start(cell);
      int code = Stencil.NEAR_CODES + j * Stencil.QUARTERS;
      if (here + 0.5 * (least[cell] + least[done]) * stencil.lengthM(code) <= bestValue) {
        consider(here, here, stencil.near(costs, cell, j), code);
      }
      if (far && open[cell] == 0) {
        int next = (j + 1) & (Stencil.NEAR - 1);
        int other = r + stencil.nearRow(next);
        int otherCol = c + stencil.nearCol(next);
        if (finished(other, otherCol)) {
          nearEdge(cell, j, here, value[other * cols + otherCol]);
        }
        int before = (j - 1) & (Stencil.NEAR - 1);
        other = r + stencil.nearRow(before);
        otherCol = c + stencil.nearCol(before);
        if (finished(other, otherCol)) {
          nearEdge(cell, before, value[other * cols + otherCol], here);
        }
      }
      settle(cell);
    }
  }

  private void nearEdge(int cell, int edge, double first, double second) {
    if (bestValue <= first || bestValue <= second) {
      return;
    }
    for (int i = 1; i < Stencil.QUARTERS; i++) {
      consider(
          first,
          second,
          stencil.nearBetween(costs, cell, edge, i),
          Stencil.NEAR_CODES + edge * Stencil.QUARTERS + i);
    }
  }

  private void start(int cell) {
    bestValue = value[cell];
    bestStep = step[cell] & 0xFF;
  }

  /** Ties go to the lowest code, so that the order of offers does not matter. */
  private void consider(double first, double second, double perM, int code) {
    double share = Stencil.share(code);
    double cost = perM * stencil.lengthM(code);
    double v = share == 0 ? first + cost : (1 - share) * first + share * second + cost;
    double lowest = (first > second ? first : second) + cost * LEAST_ADVANCE;
    v = v > lowest ? v : lowest;
    if (v < bestValue || (v == bestValue && code < bestStep && v < Double.POSITIVE_INFINITY)) {
      bestValue = v;
      bestStep = code;
    }
  }

  private void settle(int cell) {
    step[cell] = (byte) bestStep;
    if (bestValue < value[cell]) {
      boolean queued = state[cell] == WAITING && queue.sameBucket(bestValue, value[cell]);
      value[cell] = bestValue;
      state[cell] = WAITING;
      if (!queued) {
        queue.add(cell);
      }
    }
  }

  /** 1 where every heading is allowed on all cells that far steps from the cell can cross. */
  private byte[] openGround() {
    byte[] across = new byte[value.length];
    for (int r = 0; r < rows; r++) {
      int run = 0;
      for (int c = 0; c < cols; c++) {
        run = costs.field().allowed(r * cols + c) == -1 ? run + 1 : 0;
        if (run >= 5) {
          across[r * cols + c - 2] = 1;
        }
      }
    }
    byte[] all = new byte[value.length];
    int[] runs = new int[cols];
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < cols; c++) {
        runs[c] = across[r * cols + c] == 1 ? runs[c] + 1 : 0;
        if (runs[c] >= 5) {
          all[(r - 2) * cols + c] = 1;
        }
      }
    }
    return all;
  }

  /** Median of the least cost per metre over a sample of cells. */
  private double typicalPerM() {
    double[] sample = new double[SAMPLES];
    int found = 0;
    int stride = Math.max(1, value.length / SAMPLES);
    for (int i = 0; i < value.length && found < SAMPLES; i += stride) {
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
