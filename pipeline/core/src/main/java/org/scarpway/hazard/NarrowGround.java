package org.scarpway.hazard;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Workers;

/**
 * Free ground that is of no use because what cannot be entered leaves too little room.
 *
 * <p>Too narrow: no disc at least as wide as the vehicle's gap that lies clear of blocked cells
 * covers the centre of the cell (morphological opening of the free ground by a disc; common
 * practice, no source). Discs are looked at up to a radius of {@link #WIDEST_CELLS} cells, or half
 * the gap if that is more. No room to turn: what is left of a pocket that is closed all around
 * holds no disc as wide as the vehicle needs to turn. Blocked cells are squares and distances to
 * them are exact; discs may be centred on the middles, edges and corners of cells, so that a
 * straight passage of k cells is k cells wide. Ground beyond the grid is not known: it blocks
 * nothing, and a pocket that reaches the edge is not closed.
 */
public final class NarrowGround {
  /** Code of a cell that lies in a gap too narrow. */
  public static final byte NARROW = 1;

  /** Code of a cell in a pocket without room to turn. */
  public static final byte POCKET = 2;

  private static final byte BLOCKED = 3;
  private static final byte ROOMY = 4;
  private static final double ROUNDING = 1e-6;
  private static final int WIDEST_CELLS = 12;

  private final boolean[] blocked;
  private final GridSpec spec;
  private final double gapM;
  private final double turnM;
  private final double widestM;
  private final byte[] code;

  private NarrowGround(boolean[] blocked, GridSpec spec, double gapM, double turnM) {
    this.blocked = blocked;
    this.spec = spec;
    this.gapM = gapM;
    this.turnM = turnM;
    this.code = new byte[spec.cells()];
    this.widestM = Math.max(gapM / 2, WIDEST_CELLS * Math.max(spec.cellXM(), spec.cellYM()));
  }

  /**
   * @param blocked cells that cannot be entered
   * @param gapM ground narrower than this is not passable; 0 for any passage
   * @param turnM diameter that a closed pocket must hold; 0 for any pocket
   * @return one code for each cell, 0 where it is blocked or of use
   */
  public static byte[] find(
      boolean[] blocked, GridSpec spec, double gapM, double turnM, Workers workers) {
    NarrowGround ground = new NarrowGround(blocked, spec, gapM, turnM);
    workers.overRows(spec.rows(), ground::open);
    if (turnM > 0) {
      ground.closePockets();
    }
    for (int i = 0; i < ground.code.length; i++) {
      ground.code[i] = ground.code[i] == NARROW || ground.code[i] == POCKET ? ground.code[i] : 0;
    }
    return ground.code;
  }

  /** Rows beyond a strip that its answer depends on, pockets left aside. */
  private int haloRows() {
    return (int) Math.ceil(Math.max(2 * widestM, turnM / 2) / spec.cellYM()) + 2;
  }

  /** The opening, for rows whose surroundings are looked at in a lattice of half cells. */
  private void open(int fromRow, int toRow) {
    int halo = haloRows();
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
    DistanceTransform distance =
        new DistanceTransform(high, wide, spec.cellXM() / 2, spec.cellYM() / 2);
    distance.apply(squared);
    double turn = turnM / 2 * (1 - ROUNDING);
    for (int row = fromRow; row < toRow; row++) {
      for (int col = 0; col < cols; col++) {
        int i = row * cols + col;
        int corner = 2 * (row - first) * wide + 2 * col;
        code[i] = blocked[i] ? BLOCKED : holds(squared, corner, wide, turn * turn) ? ROOMY : 0;
      }
    }
    if (gapM <= Math.min(spec.cellXM(), spec.cellYM())) {
      return; // a disc inside the cell itself will do
    }
    double least = gapM / 2 * (1 - ROUNDING);
    double most = widestM * widestM;
    for (int i = 0; i < squared.length; i++) {
      squared[i] =
          squared[i] >= least * least
              ? (float) -Math.min(squared[i], most)
              : Float.POSITIVE_INFINITY;
    }
    // Below 0 inside the disc around some point that reaches as far as its own distance.
    distance.apply(squared);
    double edge = ROUNDING * most;
    for (int row = fromRow; row < toRow; row++) {
      for (int col = 0; col < cols; col++) {
        int i = row * cols + col;
        int centre = (2 * (row - first) + 1) * wide + 2 * col + 1;
        if (!blocked[i] && !(squared[centre] <= edge)) {
          code[i] = NARROW;
        }
      }
    }
  }

  /** Whether a disc of that radius fits somewhere around the cell's own points. */
  private static boolean holds(float[] squared, int corner, int wide, double radius2) {
    for (int k = 0; k < 9; k++) {
      if (squared[corner + k / 3 * wide + k % 3] >= radius2) {
        return true;
      }
    }
    return false;
  }

  /** Pockets are cells joined by their sides; corners between two blocked cells let nobody by. */
  private void closePockets() {
    int rows = spec.rows();
    int cols = spec.cols();
    boolean[] seen = new boolean[code.length];
    int[] pocket = new int[code.length];
    for (int start = 0; start < code.length; start++) {
      if (seen[start] || !free(start)) {
        continue;
      }
      int size = 1;
      pocket[0] = start;
      seen[start] = true;
      boolean useful = false;
      for (int k = 0; k < size; k++) {
        int i = pocket[k];
        int row = i / cols;
        int col = i % cols;
        useful |= code[i] == ROOMY;
        useful |= row == 0 || col == 0 || row == rows - 1 || col == cols - 1;
        size = join(row > 0, i - cols, seen, pocket, size);
        size = join(row < rows - 1, i + cols, seen, pocket, size);
        size = join(col > 0, i - 1, seen, pocket, size);
        size = join(col < cols - 1, i + 1, seen, pocket, size);
      }
      if (!useful) {
        for (int k = 0; k < size; k++) {
          code[pocket[k]] = POCKET;
        }
      }
    }
  }

  private boolean free(int i) {
    return code[i] == 0 || code[i] == ROOMY;
  }

  private int join(boolean inside, int i, boolean[] seen, int[] pocket, int size) {
    if (inside && !seen[i] && free(i)) {
      seen[i] = true;
      pocket[size] = i;
      return size + 1;
    }
    return size;
  }
}
