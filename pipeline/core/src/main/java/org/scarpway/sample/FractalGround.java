package org.scarpway.sample;

import java.util.Random;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Fourier;

/**
 * Two independent self-affine surfaces by spectral synthesis: Gaussian waves of amplitude
 * proportional to k^-(H+1), H the Hurst exponent (Saupe in <i>The Science of Fractal Images</i>,
 * 1988). Above a given wavelength the amplitude no longer increases.
 */
final class FractalGround {
  private final int side;
  private final double[] first;
  private final double[] second;

  /**
   * @param side cells along each edge, a power of two
   * @param hurst in (0, 1); 0.95 is the median of the lunar highlands, 0.76 of the maria (Rosenburg
   *     et al. 2011, JGR 116 E02001)
   */
  FractalGround(int side, double cellM, double hurst, double longestM, Random random) {
    this.side = side;
    first = new double[side * side];
    second = new double[side * side];
    double smallestK = side * cellM / longestM;
    for (int row = 0; row < side; row++) {
      double ky = row <= side / 2 ? row : row - side;
      for (int col = 0; col < side; col++) {
        double kx = col <= side / 2 ? col : col - side;
        double k = Math.max(smallestK, Math.sqrt(kx * kx + ky * ky));
        double amplitude = StrictMath.pow(k, -(hurst + 1));
        int i = row * side + col;
        first[i] = amplitude * random.nextGaussian();
        second[i] = amplitude * random.nextGaussian();
      }
    }
    first[0] = 0;
    second[0] = 0;
    try (Workers workers = new Workers(Runtime.getRuntime().availableProcessors())) {
      new Fourier(side, side).inverse(first, second, workers);
    }
  }

  /**
   * Returns a window of the first surface in metres, scaled to a given root-mean-square slope
   * between cells.
   */
  double[] heightsM(int rows, int cols, double cellM, double rmsSlopeDeg) {
    double[] h = window(first, rows, cols);
    double sum = 0;
    for (int row = 0; row < rows; row++) {
      for (int col = 1; col < cols; col++) {
        double d = h[row * cols + col] - h[row * cols + col - 1];
        sum += d * d;
      }
    }
    double rms = Math.sqrt(sum / ((double) rows * (cols - 1)));
    return scaled(h, cellM * StrictMath.tan(StrictMath.toRadians(rmsSlopeDeg)) / rms);
  }

  /** Returns a window of the second surface, scaled to unit variance about zero. */
  double[] pattern(int rows, int cols) {
    double[] p = window(second, rows, cols);
    double sum = 0;
    for (double v : p) {
      sum += v;
    }
    double mean = sum / p.length;
    double squares = 0;
    for (int i = 0; i < p.length; i++) {
      p[i] -= mean;
      squares += p[i] * p[i];
    }
    return scaled(p, 1 / Math.sqrt(squares / p.length));
  }

  private double[] window(double[] surface, int rows, int cols) {
    double[] out = new double[rows * cols];
    for (int row = 0; row < rows; row++) {
      System.arraycopy(surface, row * side, out, row * cols, cols);
    }
    return out;
  }

  private static double[] scaled(double[] values, double factor) {
    for (int i = 0; i < values.length; i++) {
      values[i] *= factor;
    }
    return values;
  }
}
