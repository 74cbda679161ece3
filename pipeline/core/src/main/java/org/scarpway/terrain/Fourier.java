package org.scarpway.terrain;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.stage.Workers;

/**
 * Inverse discrete Fourier transform of a complex field whose sides are powers of two (Cooley and
 * Tukey 1965), without the factor 1 / (rows * cols). Sines come from StrictMath and lines are
 * independent, so the result is bit-identical on every machine and for any number of threads.
 */
public final class Fourier {
  /**
   * Columns that are copied to scratch and back together, so that all of each cache line read is
   * used.
   */
  private static final int BLOCK = 16;

  private final int rows;
  private final int cols;
  private final double[][] alongRow;
  private final double[][] alongCol;

  public Fourier(int rows, int cols) {
    if (Integer.bitCount(rows) != 1 || Integer.bitCount(cols) != 1) {
      throw new IllegalArgumentException("sides must be powers of two, got " + rows + " x " + cols);
    }
    this.rows = rows;
    this.cols = cols;
    alongRow = twiddleFactors(cols);
    alongCol = rows == cols ? alongRow : twiddleFactors(rows);
  }

  private static double[][] twiddleFactors(int n) {
    double[][] twiddleFactors = new double[2][n];
    for (int i = 0; i < n; i++) {
      twiddleFactors[0][i] = StrictMath.cos(2 * Math.PI * i / n);
      twiddleFactors[1][i] = StrictMath.sin(2 * Math.PI * i / n);
    }
    return twiddleFactors;
  }

  /** Transforms in place; row-major. */
  public void inverse(double[] re, double[] im, Workers workers) {
    workers.overRows(
        rows,
        (from, to) -> {
          double[][] line = new double[2][cols];
          for (int row = from; row < to; row++) {
            gather(re, im, row * cols, cols, line);
            transform(line[0], line[1], alongRow);
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
    int shift = Integer.numberOfLeadingZeros(rows) + 1;
    double[][][] lines = new double[to - from][2][rows];
    for (int row = 0; row < rows; row++) {
      int at = (rows == 1 ? 0 : Integer.reverse(row) >>> shift) * cols + from;
      for (int k = 0; k < lines.length; k++) {
        lines[k][0][row] = re[at + k];
        lines[k][1][row] = im[at + k];
      }
    }
    for (double[][] line : lines) {
      transform(line[0], line[1], alongCol);
    }
    for (int row = 0; row < rows; row++) {
      for (int k = 0; k < lines.length; k++) {
        re[row * cols + from + k] = lines[k][0][row];
        im[row * cols + from + k] = lines[k][1][row];
      }
    }
  }

  /** Copies a line in bit-reversed order, as the transform requires. */
  private static void gather(double[] re, double[] im, int first, int n, double[][] line) {
    int shift = Integer.numberOfLeadingZeros(n) + 1;
    for (int i = 0; i < n; i++) {
      int from = first + (n == 1 ? 0 : Integer.reverse(i) >>> shift);
      line[0][i] = re[from];
      line[1][i] = im[from];
    }
  }

  private static void transform(double[] a, double[] b, double[][] twiddleFactors) {
    int n = a.length;
    double[] cos = twiddleFactors[0];
    double[] sin = twiddleFactors[1];
    for (int half = 1; half < n; half *= 2) {
      int turn = n / (2 * half);
      for (int block = 0; block < n; block += 2 * half) {
        for (int j = 0; j < half; j++) {
          int p = block + j;
          int q = p + half;
          double c = cos[j * turn];
          double s = sin[j * turn];
          double tRe = a[q] * c - b[q] * s;
          double tIm = a[q] * s + b[q] * c;
          a[q] = a[p] - tRe;
          b[q] = b[p] - tIm;
          a[p] += tRe;
          b[p] += tIm;
        }
      }
    }
  }
}
