package org.scarpway.reach.front;

/**
 * The costs of the steps on one tile. Formulas are those of {@link Stencil}, bit for bit. Cells are
 * indexed as in {@link TileGround}.
 */
final class TileSteps {
  private final Costs costs;
  private final Stencil stencil;
  private final int cols;
  private final int stride;
  private final int plane;

  /** Heading of travel, exclusive or with this, is heading. */
  private final int turn;

  private final int[] far = new int[Stencil.FAR];
  private final int[] middle = new int[Stencil.FAR];
  private final int[] middle2 = new int[Stencil.FAR];
  private final int[] beyond = new int[Stencil.FAR];
  private final int[] nearRow = new int[Stencil.NEAR];
  private final int[] nearCol = new int[Stencil.NEAR];
  private float[] perM;
  private byte[] kind;
  private boolean[] barrier;
  private int firstCell;

  TileSteps(Costs costs, Stencil stencil, int stride) {
    this.costs = costs;
    this.stencil = stencil;
    this.cols = costs.field().spec().cols();
    this.stride = stride;
    this.plane = stride * stride;
    this.turn = costs.turn();
    for (int j = 0; j < Stencil.FAR; j++) {
      int dr = stencil.farRow(j);
      int dc = stencil.farCol(j);
      far[j] = dr * stride + dc;
      middle[j] = dr / 2 * stride + dc / 2;
      middle2[j] = (dr - dr / 2) * stride + dc - dc / 2;
    }
    for (int s = 0; s < Stencil.FAR; s++) {
      int even = Stencil.even(s);
      int odd = Stencil.odd(s);
      beyond[s] = middle[odd] == middle[even] ? middle2[odd] : middle[odd];
    }
    for (int j = 0; j < Stencil.NEAR; j++) {
      nearRow[j] = stencil.nearRow(j) * stride;
      nearCol[j] = stencil.nearCol(j);
    }
  }

  /** Sets the tile by its ground and first cell. */
  void on(TileGround ground, int first) {
    perM = ground.perM;
    kind = ground.kind;
    barrier = ground.barrier;
    firstCell = first;
  }

  private double perM(int at, int heading) {
    return perM[(heading ^ turn) * plane + at];
  }

  private int cellAt(int at) {
    return firstCell + (at / stride - TileGround.PAD) * cols + at % stride - TileGround.PAD;
  }

  /** Index offset to far cell {@code j}. */
  int far(int j) {
    return far[j];
  }

  /** Index offset to the cells that the step to far cell {@code j} crosses. */
  int middle(int j) {
    return middle[j];
  }

  int middle2(int j) {
    return middle2[j];
  }

  /** Index offset to neighbour {@code j}. */
  int near(int j) {
    return nearRow[j] + nearCol[j];
  }

  /** See {@link Stencil#far(Costs, int, int)}. */
  double farPerM(int cell, int j) {
    if ((j & 3) == 2 && kind[cell] == TileGround.TIGHT && cornerBarred(cell, j)) {
      return Double.POSITIVE_INFINITY;
    }
    float[] perM = this.perM;
    int at = cell + ((2 * j) ^ turn) * plane;
    double first = perM[at];
    double last = perM[at + far[j]];
    return (j & 1) != 0
        ? 0.25 * (first + perM[at + middle[j]] + perM[at + middle2[j]] + last)
        : 0.25 * first + 0.5 * perM[at + middle[j]] + 0.25 * last;
  }

  private boolean cornerBarred(int cell, int j) {
    int row = nearRow[j / 2];
    int col = nearCol[j / 2];
    return barrier[cell + row]
        || barrier[cell + col]
        || barrier[cell + 2 * row + col]
        || barrier[cell + row + 2 * col];
  }

  /** See {@link Stencil#farMiddle(Costs, int, int)}. */
  double farMiddlePerM(int cell, int s) {
    float[] perM = this.perM;
    int at = cell + ((2 * s + 1) ^ turn) * plane;
    int even = Stencil.even(s);
    return 0.25 * perM[at]
        + 0.375 * perM[at + middle[even]]
        + 0.125 * perM[at + beyond[s]]
        + 0.125 * ((double) perM[at + far[even]] + perM[at + far[Stencil.odd(s)]]);
  }

  /** Position on far edge {@code s} of a corner of the cost, 0 to 1, NaN for none. */
  double corner(int cell, int s) {
    return costs.corner(cellAt(cell), 2 * s);
  }

  /** See {@link Stencil#chord}. */
  double chordPerM(int cell, int s, double share) {
    return stencil.chord(costs, cellAt(cell), s, share);
  }

  /** See {@link Stencil#near(Costs, int, int)}. */
  double nearPerM(int cell, int j) {
    int k = 4 * j;
    if ((j & 1) != 0
        && kind[cell] == TileGround.TIGHT
        && (barrier[cell + nearRow[j]] || barrier[cell + nearCol[j]])) {
      return Double.POSITIVE_INFINITY;
    }
    return 0.5 * (perM(cell, k) + perM(cell + near(j), k));
  }

  /** See {@link Stencil#nearBetween(Costs, int, int, int)}. */
  double nearBetweenPerM(int cell, int s, int quarter) {
    int k = 4 * s + quarter;
    double t = quarter / (double) Stencil.QUARTERS;
    return 0.5
        * (perM(cell, k)
            + (1 - t) * perM(cell + near(s), k)
            + t * perM(cell + near((s + 1) & (Stencil.NEAR - 1)), k));
  }
}
