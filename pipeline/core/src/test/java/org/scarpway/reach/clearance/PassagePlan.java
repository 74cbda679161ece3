package org.scarpway.reach.clearance;

import java.util.Random;

/** Ground drawn for passages: open cells by row and column, and the base's cell. */
public final class PassagePlan {
  private final boolean[][] open;
  private final int baseRow;
  private final int baseCol;

  private PassagePlan(boolean[][] open, int baseRow, int baseCol) {
    this.open = open;
    this.baseRow = baseRow;
    this.baseCol = baseCol;
  }

  public boolean[][] open() {
    return open;
  }

  public int baseRow() {
    return baseRow;
  }

  public int baseCol() {
    return baseCol;
  }

  public int rows() {
    return open.length;
  }

  public int cols() {
    return open[0].length;
  }

  /** Mirrored where {@code turn} is odd, and turned so many times by a right angle. */
  public PassagePlan turned(int turn) {
    PassagePlan p = this;
    for (int k = 0; k < turn / 2; k++) {
      boolean[][] t = new boolean[p.cols()][p.rows()];
      for (int r = 0; r < p.rows(); r++) {
        for (int c = 0; c < p.cols(); c++) {
          t[c][p.rows() - 1 - r] = p.open[r][c];
        }
      }
      p = new PassagePlan(t, p.baseCol, p.rows() - 1 - p.baseRow);
    }
    if (turn % 2 == 1) {
      boolean[][] m = new boolean[p.rows()][p.cols()];
      for (int r = 0; r < p.rows(); r++) {
        for (int c = 0; c < p.cols(); c++) {
          m[r][p.cols() - 1 - c] = p.open[r][c];
        }
      }
      p = new PassagePlan(m, p.baseRow, p.cols() - 1 - p.baseCol);
    }
    return p;
  }

  /** Rooms of several sizes joined by a tree of gaps and some more. */
  public static PassagePlan maze(Random random) {
    int pitch = 3 + random.nextInt(4);
    int n = 4 + random.nextInt(3);
    int size = n * pitch + 1;
    boolean[][] open = new boolean[size][size + pitch];
    int across = n + 1;
    for (int r = 0; r < size; r++) {
      for (int c = 0; c < size + pitch; c++) {
        open[r][c] = r % pitch != 0 && c % pitch != 0 && r < size - 1;
      }
    }
    int[] group = new int[n * across];
    for (int i = 0; i < group.length; i++) {
      group[i] = i;
    }
    int more = random.nextInt(5);
    for (int tries = 0; tries < 2000; tries++) {
      int r = random.nextInt(n);
      int c = random.nextInt(across);
      boolean east = random.nextBoolean();
      if (east ? c + 1 >= across : r + 1 >= n) {
        continue;
      }
      int a = r * across + c;
      int b = east ? a + 1 : a + across;
      if (group[a] == group[b] && more-- <= 0) {
        continue;
      }
      int old = group[b];
      for (int i = 0; i < group.length; i++) {
        group[i] = group[i] == old ? group[a] : group[i];
      }
      int wide = 1 + random.nextInt(pitch - 1);
      int at = 1 + random.nextInt(pitch - wide);
      for (int k = 0; k < wide; k++) {
        if (east) {
          open[r * pitch + at + k][(c + 1) * pitch] = true;
        } else {
          open[(r + 1) * pitch][c * pitch + at + k] = true;
        }
      }
    }
    int row = random.nextInt(n) * pitch + 1;
    int col = random.nextInt(across) * pitch + 1;
    return new PassagePlan(open, row, col);
  }

  public static PassagePlan blots(Random random) {
    int rows = 26 + random.nextInt(8);
    int cols = 30;
    boolean[][] open = new boolean[rows][cols];
    double[][] noise = new double[rows + 2][cols + 2];
    for (double[] line : noise) {
      for (int c = 0; c < line.length; c++) {
        line[c] = random.nextGaussian();
      }
    }
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < cols; c++) {
        double sum = 0;
        for (int k = 0; k < 9; k++) {
          sum += noise[r + k / 3][c + k % 3];
        }
        open[r][c] = sum > -1;
      }
    }
    int row;
    int col;
    do {
      row = random.nextInt(rows);
      col = random.nextInt(cols);
    } while (!open[row][col]);
    return new PassagePlan(open, row, col);
  }

  /** Two open halves and a slanting channel between. */
  public static PassagePlan halves(Random random) {
    boolean[][] open = new boolean[24][34];
    double at = 6 + 12 * random.nextDouble();
    double slant = 1.6 * random.nextDouble() - 0.8;
    double wide = 2 + 5 * random.nextDouble();
    for (int r = 0; r < 24; r++) {
      for (int c = 0; c < 34; c++) {
        double off = Math.abs(r - at - slant * (c - 17));
        boolean channel = off < wide / 2 + 0.25 * Math.abs(c - 17);
        open[r][c] = c < 10 || c > 23 || channel;
      }
    }
    return new PassagePlan(open, 12, 4);
  }
}
