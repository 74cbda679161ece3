package org.scarpway.reach.front;

import java.util.ArrayList;
import java.util.List;

/** Weights for sums of several quantities. */
public final class Weightings {
  /**
   * Smallest weight of every quantity, so that among ways equal in the others the better one is
   * found.
   */
  private static final double LEAST_WEIGHT = 0.01;

  private static boolean near(double[] a, double[] b) {
    return Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1]) + Math.abs(a[2] - b[2]) < 1e-9;
  }

  /** Weights are tried in this order: corners, middles of edges, centre, then between them. */
  private static final int[] DENOMINATORS = {1, 2, 3, 4, 6};

  /**
   * Points of the triangle of weights, coarse ones first; quantities that do not count have weight
   * 0.
   */
  public static List<double[]> of(boolean[] counts, int tries) {
    List<double[]> all = new ArrayList<>();
    for (int n : DENOMINATORS) {
      for (int time = n; time >= 0; time--) {
        for (int energy = n - time; energy >= 0; energy--) {
          int[] share = {time, energy, n - time - energy};
          double[] w = new double[3];
          boolean fit = true;
          int used = 0;
          for (int i = 0; i < 3; i++) {
            fit &= counts[i] || share[i] == 0;
            used += counts[i] ? 1 : 0;
          }
          for (int i = 0; i < 3; i++) {
            w[i] = counts[i] ? LEAST_WEIGHT + (1 - used * LEAST_WEIGHT) * share[i] / (double) n : 0;
          }
          if (fit && all.size() < tries && all.stream().noneMatch(o -> near(o, w))) {
            all.add(w);
          }
        }
      }
    }
    return all;
  }

  private Weightings() {}
}
