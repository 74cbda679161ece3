package org.scarpway.terrain;

import java.nio.DoubleBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;

/**
 * One or two values for every point of a grid, on the heap or in a scratch file, for work along
 * rows and along columns in turn. Points are stored in blocks of {@link #WIDTH} columns, so that
 * the columns of a block lie together, and so do the pieces of neighbouring rows.
 */
final class ColumnBlocks {
  private static final int WIDTH = 16;

  private final int rows;
  private final int cols;
  private final int parts;
  private final DoubleBuffer[] blocks;

  /**
   * @param parts values of a point
   * @param file where the values are stored; null for the heap
   */
  ColumnBlocks(int rows, int cols, int parts, ScratchFile file) {
    this.rows = rows;
    this.cols = cols;
    this.parts = parts;
    this.blocks = new DoubleBuffer[(cols + WIDTH - 1) / WIDTH];
    for (int b = 0; b < blocks.length; b++) {
      int values = Math.multiplyExact(rows, parts * width(b));
      blocks[b] =
          file == null
              ? DoubleBuffer.wrap(new double[values])
              : file.take(Math.multiplyExact(values, Double.BYTES)).asDoubleBuffer();
    }
  }

  private int width(int block) {
    return Math.min(WIDTH, cols - block * WIDTH);
  }

  int rows() {
    return rows;
  }

  /** Stores a row; several threads may store different rows. */
  void put(int row, double[][] values) {
    for (int b = 0; b < blocks.length; b++) {
      int width = width(b);
      for (int part = 0; part < parts; part++) {
        blocks[b].put((row * parts + part) * width, values[part], b * WIDTH, width);
      }
    }
  }

  /** Reads a row. */
  void get(int row, double[][] into) {
    for (int b = 0; b < blocks.length; b++) {
      int width = width(b);
      for (int part = 0; part < parts; part++) {
        blocks[b].get((row * parts + part) * width, into[part], b * WIDTH, width);
      }
    }
  }

  /**
   * Changes every column.
   *
   * @param length of the two arrays that the task gets; the first hold the column, the rest is
   *     undefined, and so is the second if a point has one value
   */
  void eachColumn(int length, Workers workers, Consumer<double[][]> task) {
    List<Runnable> tasks = new ArrayList<>();
    for (int b = 0; b < blocks.length; b++) {
      int block = b;
      tasks.add(() -> change(block, length, task));
    }
    workers.all(tasks);
  }

  private void change(int b, int length, Consumer<double[][]> task) {
    int width = width(b);
    double[] all = new double[rows * parts * width];
    double[][][] columns = new double[width][2][length];
    blocks[b].get(0, all);
    for (int row = 0; row < rows; row++) {
      for (int part = 0; part < parts; part++) {
        for (int k = 0; k < width; k++) {
          columns[k][part][row] = all[(row * parts + part) * width + k];
        }
      }
    }
    for (double[][] column : columns) {
      task.accept(column);
    }
    for (int row = 0; row < rows; row++) {
      for (int part = 0; part < parts; part++) {
        for (int k = 0; k < width; k++) {
          all[(row * parts + part) * width + k] = columns[k][part][row];
        }
      }
    }
    blocks[b].put(0, all);
  }
}
