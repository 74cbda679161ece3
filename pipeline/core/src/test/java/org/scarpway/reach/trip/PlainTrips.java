package org.scarpway.reach.trip;

import java.util.Arrays;
import java.util.PriorityQueue;

/**
 * Times over square cells of 10 m by a label-correcting search along straight steps that are driven
 * in small pieces: shares nothing with the fronts. Times per metre are the same in all directions.
 */
final class PlainTrips {
  static final int N = 41;

  /** Straight steps to cells up to so far away: headings are then as fine as the fronts'. */
  private static final int FAR = 4;

  private PlainTrips() {}

  /**
   * Earliest times from several cells, none later than allowed.
   *
   * @param latest by cell
   * @param besideCells room to barriers that a step needs
   */
  static double[] search(double[] perM, double[] latest, double besideCells, int... from) {
    double[] best = new double[N * N];
    Arrays.fill(best, Double.POSITIVE_INFINITY);
    PriorityQueue<double[]> queue = new PriorityQueue<>((a, b) -> Double.compare(a[0], b[0]));
    for (int f : from) {
      best[f] = 0;
      queue.add(new double[] {0, f});
    }
    while (!queue.isEmpty()) {
      double[] first = queue.poll();
      int cell = (int) first[1];
      if (first[0] > best[cell]) {
        continue;
      }
      for (int dr = -FAR; dr <= FAR; dr++) {
        for (int dc = -FAR; dc <= FAR; dc++) {
          int r = cell / N + dr;
          int c = cell % N + dc;
          if ((dr != 0 || dc != 0) && r >= 0 && r < N && c >= 0 && c < N) {
            double at = along(perM, latest, cell, dr, dc, first[0], besideCells);
            if (at < best[r * N + c]) {
              best[r * N + c] = at;
              queue.add(new double[] {at, r * N + c});
            }
          }
        }
      }
    }
    return best;
  }

  /** Drives a straight step in small pieces; infinite where it is barred or too late. */
  private static double along(
      double[] perM, double[] latest, int cell, int dr, int dc, double start, double besideCells) {
    int pieces = 24 * Math.max(Math.abs(dr), Math.abs(dc));
    double lengthM = 10 * Math.hypot(dr, dc) / pieces;
    double at = start;
    int fromRow = cell / N;
    int fromCol = cell % N;
    for (int k = 0; k < pieces; k++) {
      double row = fromRow + dr * (k + 0.5) / pieces;
      double col = fromCol + dc * (k + 0.5) / pieces;
      int here = (int) Math.rint(row) * N + (int) Math.rint(col);
      at += perM[here] * lengthM;
      for (int side = 0; side < 4 && besideCells > 0; side++) {
        int r = (int) Math.rint(row + (side < 2 ? -besideCells : besideCells));
        int c = (int) Math.rint(col + (side % 2 == 0 ? -besideCells : besideCells));
        boolean inside = r >= 0 && r < N && c >= 0 && c < N;
        if (inside && perM[r * N + c] == Double.POSITIVE_INFINITY) {
          return Double.POSITIVE_INFINITY;
        }
      }
      if (!(at <= latest[here])) {
        return Double.POSITIVE_INFINITY;
      }
    }
    return at;
  }

  /**
   * Least time after which everybody is home, wherever the vehicle stops on the way home: of a step
   * the most that any piece of it asks for, and what the place where it ends does.
   */
  static double[] needs(double[] perM, double[] walkS, double besideCells, int base) {
    double[] best = new double[N * N];
    Arrays.fill(best, Double.POSITIVE_INFINITY);
    PriorityQueue<double[]> queue = new PriorityQueue<>((a, b) -> Double.compare(a[0], b[0]));
    best[base] = 0;
    queue.add(new double[] {0, base});
    double[] free = new double[N * N];
    Arrays.fill(free, Double.POSITIVE_INFINITY);
    while (!queue.isEmpty()) {
      double[] first = queue.poll();
      int end = (int) first[1];
      if (first[0] > best[end]) {
        continue;
      }
      for (int dr = -FAR; dr <= FAR; dr++) {
        for (int dc = -FAR; dc <= FAR; dc++) {
          int r = end / N + dr;
          int c = end % N + dc;
          if ((dr == 0 && dc == 0) || r < 0 || r >= N || c < 0 || c >= N) {
            continue;
          }
          int from = r * N + c;
          double stepS = along(perM, free, from, -dr, -dc, 0, besideCells);
          if (stepS < Double.POSITIVE_INFINITY) {
            double need = Math.max(stepS + first[0], stopOn(perM, walkS, from, -dr, -dc));
            if (need < best[from]) {
              best[from] = need;
              queue.add(new double[] {need, from});
            }
          }
        }
      }
    }
    return best;
  }

  /** Most that a piece of a step asks for: the walk from it after the drive to it. */
  private static double stopOn(double[] perM, double[] walkS, int from, int dr, int dc) {
    int pieces = 24 * Math.max(Math.abs(dr), Math.abs(dc));
    double lengthM = 10 * Math.hypot(dr, dc) / pieces;
    double at = 0;
    double most = walkS[from];
    int fromRow = from / N;
    for (int k = 0; k < pieces; k++) {
      int row = (int) Math.rint(fromRow + dr * (k + 0.5) / pieces);
      int col = (int) Math.rint(from % N + dc * (k + 0.5) / pieces);
      at += perM[row * N + col] * lengthM;
      most = Math.max(most, at + walkS[row * N + col]);
    }
    return most;
  }
}
