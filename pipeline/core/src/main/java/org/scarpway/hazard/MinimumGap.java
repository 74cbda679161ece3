package org.scarpway.hazard;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.LowerEnvelope;
import org.scarpway.stage.Workers;

/**
 * Finds free ground that is unusable because blocked ground leaves too little room.
 *
 * <p>Too narrow: the centre of the cell is not covered by any disc of at least the gap width that
 * is clear of blocked cells (morphological opening of the free ground by a disc; common practice,
 * no source). Discs are tested up to a radius of {@link #WIDEST_CELLS} cells, or half the gap if
 * that is more. No room to turn: the remainder of a pocket that is closed on all sides is shorter,
 * along both axes, than the length that the vehicle needs to turn. Blocked cells are squares and
 * distances to them are exact; discs may be centred on cell centres, edges and corners, so that a
 * straight passage of k cells is k cells wide. Ground beyond the grid is unknown: it does not
 * block, and a pocket that reaches the grid edge is not closed.
 */
public final class MinimumGap {
  /** Code of a cell in a gap that is too narrow. */
  public static final byte NARROW = 1;

  /** Code of a cell in a pocket without room to turn. */
  public static final byte POCKET = 2;

  private static final byte BLOCKED = 3;
  private static final double ROUNDING = 1e-6;
  private static final int WIDEST_CELLS = 12;

  private final boolean[] blocked;
  private final GridSpec spec;
  private final double gapM;
  private final double turnM;
  private final byte[] code;

  private MinimumGap(boolean[] blocked, GridSpec spec, double gapM, double turnM) {
    this.blocked = blocked;
    this.spec = spec;
    this.gapM = gapM;
    this.turnM = turnM;
    this.code = new byte[spec.cells()];
  }

  /**
   * @param blocked cells that cannot be entered
   * @param gapM minimum passable width (m); 0 if any passage will do
   * @param turnM minimum length (m) of a closed pocket along at least one axis; 0 if any pocket
   *     will do
   * @return one code per cell, 0 where the cell is blocked or usable
   */
  public static byte[] find(
      boolean[] blocked, GridSpec spec, double gapM, double turnM, Workers workers) {
    MinimumGap ground = new MinimumGap(blocked, spec, gapM, turnM);
    if (gapM > leastM(spec)) {
      workers.overRows(spec.rows(), ground::open);
    }
    for (int i = 0; i < blocked.length; i++) {
      ground.code[i] = blocked[i] ? BLOCKED : ground.code[i];
    }
    if (turnM > leastM(spec)) {
      ground.closePockets();
    }
    for (int i = 0; i < blocked.length; i++) {
      ground.code[i] = blocked[i] ? 0 : ground.code[i];
    }
    return ground.code;
  }

  /** A passage or pocket is never smaller than a cell. */
  private static double leastM(GridSpec spec) {
    return Math.min(spec.cellXM(), spec.cellYM());
  }

  private static double widestM(double gapM, GridSpec spec) {
    return Math.max(gapM / 2, WIDEST_CELLS * Math.max(spec.cellXM(), spec.cellYM()));
  }

  /** Number of halo rows on either side that the codes of a row depend on; 0 if all codes are 0. */
  static int haloRows(double gapM, double turnM, GridSpec spec) {
    int gap = gapM > leastM(spec) ? openingRows(gapM, spec) : 0;
    int turn = turnM > leastM(spec) ? (int) Math.ceil(turnM / spec.cellYM()) + 2 : 0;
    return gap + turn;
  }

  private static int openingRows(double gapM, GridSpec spec) {
    return (int) Math.ceil(2 * widestM(gapM, spec) / spec.cellYM()) + 2;
  }

  /** Computes the opening for some rows, on a lattice of half cells. */
  private void open(int fromRow, int toRow) {
    int halo = openingRows(gapM, spec);
    int first = Math.max(0, fromRow - halo);
    int end = Math.min(spec.rows(), toRow + halo);
    int cols = spec.cols();
    int wide = 2 * cols + 1;
    int high = 2 * (end - first) + 1;
    float[] squared = new float[wide * high];
    Arrays.fill(squared, Float.POSITIVE_INFINITY);
    for (int row = first; row < end; row++) {
      for (int col = 0; col < cols; col++) {
        if (blocked[row * cols + col]) {
          int corner = 2 * (row - first) * wide + 2 * col;
          for (int k = 0; k < 3; k++) {
            Arrays.fill(squared, corner + k * wide, corner + k * wide + 3, 0);
          }
        }
      }
    }
    LowerEnvelope envelope = new LowerEnvelope(Math.max(high, wide));
    toNearest(squared, high, wide, envelope);
    double least = gapM / 2 * (1 - ROUNDING);
    double most = widestM(gapM, spec) * widestM(gapM, spec);
    for (int i = 0; i < squared.length; i++) {
      squared[i] =
          squared[i] >= least * least
              ? (float) -Math.min(squared[i], most)
              : Float.POSITIVE_INFINITY;
    }
    // Negative inside a disc around some point with the point's own distance as radius.
    toNearest(squared, high, wide, envelope);
    double edge = ROUNDING * most;
    for (int row = fromRow; row < toRow; row++) {
      for (int col = 0; col < cols; col++) {
        int centre = (2 * (row - first) + 1) * wide + 2 * col + 1;
        code[row * cols + col] = squared[centre] <= edge ? 0 : NARROW;
      }
    }
  }

  private void toNearest(float[] squared, int high, int wide, LowerEnvelope envelope) {
    for (int col = 0; col < wide; col++) {
      envelope.along(squared, col, wide, high, spec.cellYM() / 2);
    }
    for (int row = 0; row < high; row++) {
      envelope.along(squared, row * wide, 1, wide, spec.cellXM() / 2);
    }
  }

  /**
   * Closes pockets: connected components of cells joined by their sides; a corner between two
   * blocked cells is impassable.
   */
  private void closePockets() {
    int rows = spec.rows();
    int cols = spec.cols();
    double least = turnM * (1 - ROUNDING);
    boolean[] seen = new boolean[code.length];
    int[] pocket = new int[code.length];
    for (int start = 0; start < code.length; start++) {
      if (seen[start] || code[start] != 0) {
        continue;
      }
      int size = 1;
      pocket[0] = start;
      seen[start] = true;
      boolean open = false;
      int west = cols;
      int east = -1;
      int south = -1;
      for (int k = 0; k < size; k++) {
        int i = pocket[k];
        int row = i / cols;
        int col = i % cols;
        west = Math.min(west, col);
        east = Math.max(east, col);
        south = Math.max(south, row);
        open |= row == 0 || col == 0 || row == rows - 1 || col == cols - 1;
        size = join(row > 0, i - cols, seen, pocket, size);
        size = join(row < rows - 1, i + cols, seen, pocket, size);
        size = join(col > 0, i - 1, seen, pocket, size);
        size = join(col < cols - 1, i + 1, seen, pocket, size);
      }
      // The first cell found is in the northernmost row.
      boolean longEnough =
          (east - west + 1) * spec.cellXM() >= least
              || (south - start / cols + 1) * spec.cellYM() >= least;
      if (!open && !longEnough) {
        for (int k = 0; k < size; k++) {
          code[pocket[k]] = POCKET;
        }
      }
    }
  }

  private int join(boolean inside, int i, boolean[] seen, int[] pocket, int size) {
    if (inside && !seen[i] && code[i] == 0) {
      seen[i] = true;
      pocket[size] = i;
      return size + 1;
    }
    return size;
  }
}
