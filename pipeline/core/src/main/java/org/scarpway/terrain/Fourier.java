package org.scarpway.terrain;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.stage.Workers;

/**
 * Inverse discrete Fourier transform of a complex field whose sides are powers of two, without the
 * factor 1 / (rows * cols). Lines are independent, so the result is bit-identical on every machine
 * and for any number of threads.
 */
public final class Fourier {
  /**
   * Columns that are copied to scratch and back together, so that all of each cache line read is
   * used.
   */
  private static final int BLOCK = 16;

  private final int rows;
  private final int cols;
  private final FourierLine alongRow;
  private final FourierLine alongCol;

  public Fourier(int rows, int cols) {
    this.rows = rows;
    this.cols = cols;
    alongRow = new FourierLine(cols);
    alongCol = rows == cols ? alongRow : new FourierLine(rows);
  }

  /** Transforms in place; row-major. */
  public void inverse(double[] re, double[] im, Workers workers) {
    workers.overRows(
        rows,
        (from, to) -> {
          double[][] line = new double[2][cols];
          for (int row = from; row < to; row++) {
            System.arraycopy(re, row * cols, line[0], 0, cols);
            System.arraycopy(im, row * cols, line[1], 0, cols);
            alongRow.inverse(line[0], line[1]);
            System.arraycopy(line[0], 0, re, row * cols, cols);
            System.arraycopy(line[1], 0, im, row * cols, cols);
          }
        });
    List<Runnable> blocks = new ArrayList<>();
    for (int col = 0; col < cols; col += BLOCK) {
      int first = col;
      blocks.add(() -> columns(re, im, first, Math.min(cols, first + BLOCK)));
    }
    workers.all(blocks);
  }

  private void columns(double[] re, double[] im, int from, int to) {
    double[][][] lines = new double[to - from][2][rows];
    for (int row = 0; row < rows; row++) {
      for (int k = 0; k < lines.length; k++) {
        lines[k][0][row] = re[row * cols + from + k];
        lines[k][1][row] = im[row * cols + from + k];
      }
    }
    for (double[][] line : lines) {
      alongCol.inverse(line[0], line[1]);
    }
    for (int row = 0; row < rows; row++) {
      for (int k = 0; k < lines.length; k++) {
        re[row * cols + from + k] = lines[k][0][row];
        im[row * cols + from + k] = lines[k][1][row];
      }
    }
  }
}
