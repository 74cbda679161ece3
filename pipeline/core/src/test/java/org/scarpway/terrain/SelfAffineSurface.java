package org.scarpway.terrain;

import java.util.Random;

/**
 * Exact Gaussian self-affine surfaces: heights at the points of a small grid are drawn from their
 * covariance |x|^2h + |y|^2h - |x - y|^2h about one corner, by its Cholesky factor. The spread of
 * the height difference over one cell is 1.
 */
public final class SelfAffineSurface {
  private final int size;
  private final double[][] factor;

  public SelfAffineSurface(int size, double hurst) {
    this.size = size;
    int n = size * size - 1;
    factor = new double[n][];
    for (int i = 0; i < n; i++) {
      factor[i] = new double[i + 1];
      for (int j = 0; j <= i; j++) {
        double sum =
            (power(i + 1, 0, hurst) + power(j + 1, 0, hurst) - power(i + 1, j + 1, hurst)) / 2;
        double[] a = factor[i];
        double[] b = factor[j];
        for (int k = 0; k < j; k++) {
          sum -= a[k] * b[k];
        }
        factor[i][j] = i == j ? Math.sqrt(sum) : sum / b[j];
      }
    }
  }

  private double power(int i, int j, double hurst) {
    int rows = i / size - j / size;
    return Math.pow(Math.hypot(rows, i % size - j % size), 2 * hurst);
  }

  public float[] draw(Random random) {
    double[] g = new double[factor.length];
    for (int i = 0; i < g.length; i++) {
      g[i] = random.nextGaussian();
    }
    float[] z = new float[size * size];
    for (int i = 0; i < g.length; i++) {
      double sum = 0;
      for (int k = 0; k <= i; k++) {
        sum += factor[i][k] * g[k];
      }
      z[i + 1] = (float) sum;
    }
    return z;
  }
}
