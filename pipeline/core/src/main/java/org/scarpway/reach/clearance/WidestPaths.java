package org.scarpway.reach.clearance;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Computes the diameter of the widest disc that can be moved from the base so that it covers each
 * cell, whatever the headings: the bottleneck width of the maximum-bottleneck path (maximum
 * capacity paths: Hu 1961, <i>The maximum capacity route problem</i>, Operations Research
 * 9(6):898-900).
 *
 * <p>A cell close to a wall has the width of the open area around it, not its own distance to the
 * wall; its value is smaller only where the area itself narrows (a dead end).
 *
 * <p>The lattice is divided into blocks that are processed in parallel. Within a block the widest
 * paths between the points on its rim are a forest; the forests and the steps across the rims
 * together give the widest path to every rim, and from there to every point. Widths are unique,
 * whatever the blocks and the order of ties.
 */
final class WidestPaths {
  /** Lattice points on a side of a block. */
  private static final int SIDE = 512;

  private final Clearance clearance;
  private final int base;
  private final int side;
  private final int blockCols;
  private final float topM;
  private final Block[] blocks;

  /** A block, and what its widest paths contribute to those of the whole lattice. */
  private final class Block {
    private final int firstRow;
    private final int firstCol;
    private final int rows;
    private final int cols;

    /** Nodes of the points along the rim, from 1 on in each block; 0 for no ground. */
    private int[] top;

    private int[] bottom;
    private int[] left;
    private int[] right;

    private int nodes;
    private WidestForest forest;

    /** Number of nodes in the blocks before this one. */
    private int before;

    private Block(int index) {
      this.firstRow = index / blockCols * side;
      this.firstCol = index % blockCols * side;
      this.rows = Math.min(side, clearance.rows() - firstRow);
      this.cols = Math.min(side, clearance.cols() - firstCol);
    }

    private WidthBasins basins() {
      return WidthBasins.of(clearance, topM, base, firstRow, firstCol, rows, cols);
    }

    private void contract() {
      WidthBasins basins = basins();
      int[] number = new int[basins.nodes()];
      Arrays.fill(number, -1);
      number[0] = 0;
      top = new int[cols];
      bottom = new int[cols];
      left = new int[rows];
      right = new int[rows];
      for (int c = 0; c < cols; c++) {
        top[c] = onRim(basins.nodeOf(0, c), number);
        bottom[c] = onRim(basins.nodeOf(rows - 1, c), number);
      }
      for (int r = 0; r < rows; r++) {
        left[r] = onRim(basins.nodeOf(r, 0), number);
        right[r] = onRim(basins.nodeOf(r, cols - 1), number);
      }
      forest = basins.saddles().between(number);
    }

    private int onRim(int node, int[] number) {
      if (number[node] < 0) {
        number[node] = ++nodes;
      }
      return number[node];
    }

    /** Node in the whole graph of a point on the rim, 0 for no ground. */
    private int nodeOf(int row, int col) {
      int r = row - firstRow;
      int c = col - firstCol;
      int node;
      if (r == 0 || r == rows - 1) {
        node = r == 0 ? top[c] : bottom[c];
      } else {
        node = c == 0 ? left[r] : right[r];
      }
      return node == 0 ? 0 : before + node;
    }

    private void addTo(WidestForest whole) {
      for (int e = 0; e < forest.edges(); e++) {
        int a = forest.from(e);
        whole.add(a == 0 ? 0 : before + a, before + forest.to(e), forest.widthM(e));
      }
      forest = null;
      for (int c = firstCol; c < firstCol + cols; c++) {
        for (int to = c - 1; to <= c + 1; to++) {
          step(whole, firstRow + rows - 1, c, firstRow + rows, to);
        }
      }
      for (int r = firstRow; r < firstRow + rows; r++) {
        for (int to = r - 1; to <= r + 1; to++) {
          step(whole, r, firstCol + cols - 1, to, firstCol + cols);
        }
      }
    }

    private void fill(float[] widest, Floats carriedM) {
      WidthBasins basins = basins();
      for (int c = 0; c < cols; c++) {
        enter(basins, 0, c, top[c], widest);
        enter(basins, rows - 1, c, bottom[c], widest);
      }
      for (int r = 0; r < rows; r++) {
        enter(basins, r, 0, left[r], widest);
        enter(basins, r, cols - 1, right[r], widest);
      }
      float[] within = basins.saddles().widthsFromFirst(basins.nodes());
      float[] row = new float[cols];
      for (int r = 0; r < rows; r++) {
        basins.readWidest(r, within, row);
        carriedM.write((firstRow + r) * clearance.cols() + firstCol, row, 0, cols);
      }
    }

    private void enter(WidthBasins basins, int row, int col, int node, float[] widest) {
      if (node != 0 && widest[before + node] > 0) {
        basins.saddles().add(0, basins.nodeOf(row, col), widest[before + node]);
      }
    }
  }

  private WidestPaths(Clearance clearance, int base, int side) {
    GridSpec spec = clearance.spec();
    this.clearance = clearance;
    this.base = base;
    this.side = side;
    this.blockCols = (clearance.cols() + side - 1) / side;
    this.topM = (float) Math.hypot(spec.cols() * spec.cellXM(), spec.rows() * spec.cellYM());
    this.blocks = new Block[(clearance.rows() + side - 1) / side * blockCols];
    for (int k = 0; k < blocks.length; k++) {
      blocks[k] = new Block(k);
    }
  }

  /**
   * @param gapM receives the bottleneck width per cell (m), NaN where there is no path; without
   *     barriers the length of the grid's diagonal
   */
  static void spread(
      Clearance clearance, TraversalCost field, int base, Floats gapM, Workers workers) {
    spread(clearance, field, base, gapM, workers, SIDE);
  }

  /**
   * @param side lattice points on a side of a block
   */
  static void spread(
      Clearance clearance, TraversalCost field, int base, Floats gapM, Workers workers, int side) {
    int points = clearance.rows() * clearance.cols();
    Floats carriedM = Floats.of(points, field.scratch((long) Float.BYTES * points));
    new WidestPaths(clearance, base, side).carry(carriedM, workers);
    DiscCover.fill(clearance, field, carriedM, gapM, workers, side);
  }

  /**
   * @param carriedM receives the diameter of the widest disc that reaches a lattice point (m), 0
   *     where none does
   */
  private void carry(Floats carriedM, Workers workers) {
    each(workers, Block::contract);
    int nodes = 1;
    for (Block b : blocks) {
      b.before = nodes - 1;
      nodes += b.nodes;
    }
    WidestForest whole = new WidestForest();
    for (Block b : blocks) {
      b.addTo(whole);
    }
    float[] widest = whole.widthsFromFirst(nodes);
    each(workers, b -> b.fill(widest, carriedM));
  }

  private void each(Workers workers, Consumer<Block> work) {
    List<Runnable> all = new ArrayList<>();
    for (Block b : blocks) {
      all.add(() -> work.accept(b));
    }
    workers.all(all);
  }

  /** Adds the step between two points on the rims of different blocks. */
  private void step(WidestForest whole, int row, int col, int toRow, int toCol) {
    if (toRow < 0 || toRow >= clearance.rows() || toCol < 0 || toCol >= clearance.cols()) {
      return;
    }
    int a = blockOf(row, col).nodeOf(row, col);
    int b = blockOf(toRow, toCol).nodeOf(toRow, toCol);
    if (a != 0 && b != 0) {
      float widthM = Math.min(ownM(row, col), ownM(toRow, toCol));
      whole.add(a, b, Math.min(topM, widthM));
    }
  }

  private Block blockOf(int row, int col) {
    return blocks[row / side * blockCols + col / side];
  }

  private float ownM(int row, int col) {
    return clearance.widthAtM(row * clearance.cols() + col);
  }
}
