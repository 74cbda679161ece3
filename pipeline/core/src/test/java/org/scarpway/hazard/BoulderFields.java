package org.scarpway.hazard;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.PriorityQueue;
import java.util.Random;

/**
 * Shortest ways of a point among discs at random: a body that keeps its width among rocks is a
 * point among rocks grown by half of it. Plain search over a fine lattice with steps in 80
 * directions (at most 0.3 % too long), nothing shared with the model. {@code main} prints the table
 * that the model was fitted to.
 */
final class BoulderFields {
  private static final int REACH = 5;

  /** From the start to a goal as far away as this, in the middle of a field 1.2 times as wide. */
  private final double lengthM;

  private final double cellM;
  private final double marginM;
  private final int cols;
  private final int rows;
  private final List<int[]> steps = new ArrayList<>();

  BoulderFields(double lengthM, double cellM) {
    this.lengthM = lengthM;
    this.cellM = cellM;
    marginM = lengthM / 6;
    cols = (int) Math.round((lengthM + 2 * marginM) / cellM) + 1;
    rows = (int) Math.round(1.2 * lengthM / cellM) + 1;
    for (int a = -REACH; a <= REACH; a++) {
      for (int b = -REACH; b <= REACH; b++) {
        if (divisor(Math.abs(a), Math.abs(b)) == 1) {
          steps.add(new int[] {a, b});
        }
      }
    }
  }

  private static int divisor(int a, int b) {
    return b == 0 ? a : divisor(b, a % b);
  }

  /** One rock: puts the discs that it is to the body, as x, y and radius. */
  interface Rock {
    void put(double xM, double yM, Random random, List<double[]> discs);
  }

  /** What many fields gave. */
  record Result(double meanDetour, double standardError, int closed, int fields) {}

  Result run(int fields, double rocksPerM2, Rock rock, Random random) {
    double sum = 0;
    double squares = 0;
    int open = 0;
    int closed = 0;
    while (open + closed < fields) {
      double way = way(field(rocksPerM2, rock, random)) / lengthM;
      if (Double.isNaN(way)) {
        continue; // a rock on the start or the goal
      }
      if (Double.isInfinite(way)) {
        closed++;
      } else {
        open++;
        sum += way;
        squares += way * way;
      }
    }
    double mean = sum / open;
    double variance = Math.max(0, squares / open - mean * mean);
    return new Result(mean, Math.sqrt(variance / open), closed, fields);
  }

  private List<double[]> field(double rocksPerM2, Rock rock, Random random) {
    List<double[]> discs = new ArrayList<>();
    double border = marginM / 2;
    double widthM = cols * cellM + 2 * border;
    double heightM = rows * cellM + 2 * border;
    // As many as a Poisson law gives: waiting times on the area.
    double at = -Math.log(1 - random.nextDouble()) / rocksPerM2;
    for (; at < widthM * heightM; at -= Math.log(1 - random.nextDouble()) / rocksPerM2) {
      double x = random.nextDouble() * widthM - border;
      double y = random.nextDouble() * heightM - border;
      rock.put(x, y, random, discs);
    }
    return discs;
  }

  /** Length of the shortest way, infinite without one, NaN where an end is covered. */
  private double way(List<double[]> discs) {
    boolean[] shut = shut(discs);
    int middle = rows / 2 * cols;
    int start = middle + (int) Math.round(marginM / cellM);
    int goal = start + (int) Math.round(lengthM / cellM);
    if (shut[start] || shut[goal]) {
      return Double.NaN;
    }
    double[] length = new double[shut.length];
    Arrays.fill(length, Double.POSITIVE_INFINITY);
    boolean[] done = new boolean[shut.length];
    PriorityQueue<double[]> queue = new PriorityQueue<>(Comparator.comparingDouble(e -> e[0]));
    length[start] = 0;
    queue.add(new double[] {0, start});
    while (!queue.isEmpty()) {
      int i = (int) queue.poll()[1];
      if (i == goal) {
        return length[goal];
      }
      if (done[i]) {
        continue;
      }
      done[i] = true;
      for (int[] s : steps) {
        int row = i / cols + s[0];
        int col = i % cols + s[1];
        if (row < 0 || col < 0 || row >= rows || col >= cols) {
          continue;
        }
        int j = row * cols + col;
        double further = length[i] + Math.hypot(s[0], s[1]) * cellM;
        if (!done[j] && further < length[j] && clear(shut, i, s)) {
          length[j] = further;
          double left = Math.hypot(row - goal / cols, col - goal % cols) * cellM;
          queue.add(new double[] {further + left, j});
        }
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  /** Whether no cell that the step passes over, or ends in, is shut. */
  private boolean clear(boolean[] shut, int from, int[] step) {
    int parts = 2 * Math.max(Math.abs(step[0]), Math.abs(step[1]));
    for (int k = 1; k <= parts; k++) {
      double row = step[0] * k / (double) parts;
      double col = step[1] * k / (double) parts;
      if (shut[from + (int) Math.floor(row + 0.5) * cols + (int) Math.floor(col + 0.5)]
          || shut[from + (int) Math.ceil(row - 0.5) * cols + (int) Math.ceil(col - 0.5)]) {
        return false;
      }
    }
    return true;
  }

  private boolean[] shut(List<double[]> discs) {
    boolean[] shut = new boolean[rows * cols];
    for (double[] d : discs) {
      int top = (int) Math.max(0, Math.ceil((d[1] - d[2]) / cellM));
      int bottom = (int) Math.min(rows - 1, Math.floor((d[1] + d[2]) / cellM));
      int left = (int) Math.max(0, Math.ceil((d[0] - d[2]) / cellM));
      int right = (int) Math.min(cols - 1, Math.floor((d[0] + d[2]) / cellM));
      for (int row = top; row <= bottom; row++) {
        for (int col = left; col <= right; col++) {
          if (Math.hypot(col * cellM - d[0], row * cellM - d[1]) < d[2]) {
            shut[row * cols + col] = true;
          }
        }
      }
    }
    return shut;
  }

  /** Discs of one size and of the density. */
  static Result equal(double density, int fields, double lengthInRadii, Random random) {
    return new BoulderFields(lengthInRadii, 0.125)
        .run(
            fields,
            density / Math.PI,
            (x, y, r, discs) -> discs.add(new double[] {x, y, 1}),
            random);
  }

  /** The table: density, mean detour, its standard error, closed fields. */
  public static void main(String[] args) {
    for (double density : new double[] {0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1}) {
      Result r = equal(density, 150, 60, new Random(42));
      System.out.printf(
          Locale.ROOT,
          "%.2f %.4f %.4f %d/%d%n",
          density,
          r.meanDetour,
          r.standardError,
          r.closed,
          r.fields);
    }
  }
}
