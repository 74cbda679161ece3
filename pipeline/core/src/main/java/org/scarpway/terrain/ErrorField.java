package org.scarpway.terrain;

import java.util.Locale;
import java.util.Random;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;

/**
 * Realisations of the height error (m): Gaussian, of one standard deviation everywhere, and with
 * covariance sigma2 exp(-distance / length) between cells.
 *
 * <p>Drawn on a torus, where the covariance matrix is diagonal in Fourier space, so nothing is
 * approximated but the distance to the torus' other side: a torus is {@link #APART} lengths larger
 * than the ground, which leaves the covariance of any two cells within 5e-5 sigma2 of the formula.
 * Source: Dietrich C.R. and Newsam G.N. 1997, <i>Fast and exact simulation of stationary Gaussian
 * processes through circulant embedding of the covariance matrix</i>, SIAM J. Sci. Comput.
 * 18(4):1088-1107. Real and imaginary part of one transform are two independent realisations. Every
 * row of random numbers has a seed of its own, so a realisation does not depend on threads or on
 * the others.
 */
public final class ErrorField {
  /** Lengths between the ground and its own image around the torus. */
  private static final double APART = 12;

  private static final int MOST_CELLS = 1 << 25;

  private final int rows;
  private final int cols;
  private final double sigmaM;
  private final long seed;
  private final int torusRows;
  private final int torusCols;

  /** Square root of the eigenvalues over the number of cells; null for independent errors. */
  private final float[] amplitude;

  private final Fourier fourier;
  private final double[] re;
  private final double[] im;

  /**
   * @param asked the setting of a job that asks for realisations
   * @param lengthM correlation length, null for independent errors
   * @throws UserError where the torus would be too large
   */
  public ErrorField(
      String asked, GridSpec spec, double sigmaM, Double lengthM, long seed, Workers workers) {
    this.rows = spec.rows();
    this.cols = spec.cols();
    this.sigmaM = sigmaM;
    this.seed = seed;
    if (lengthM == null) {
      torusRows = rows;
      torusCols = cols;
      amplitude = null;
      fourier = null;
      re = null;
      im = null;
      return;
    }
    torusRows = side(rows + APART * lengthM / spec.cellYM());
    torusCols = side(cols + APART * lengthM / spec.cellXM());
    if ((long) torusRows * torusCols > MOST_CELLS) {
      throw UserError.of(
          asked,
          String.format(
              Locale.ROOT,
              "error fields for %d x %d cells and a correlation over %.4g m need %d x %d points",
              rows,
              cols,
              lengthM,
              torusRows,
              torusCols),
          "at most " + MOST_CELLS + " points",
          "analyse a window, use coarser cells, or leave out "
              + asked
              + ": slope_sigma_deg holds the closed form of the slope's error");
    }
    int points = torusRows * torusCols;
    fourier = new Fourier(torusRows, torusCols);
    re = new double[points];
    im = new double[points];
    amplitude = amplitude(spec, lengthM, workers);
  }

  private static int side(double atLeast) {
    int side = 1;
    while (side < atLeast && side < 1 << 30) {
      side *= 2;
    }
    return side;
  }

  private float[] amplitude(GridSpec spec, double lengthM, Workers workers) {
    double aroundXM = torusCols * spec.cellXM();
    double aroundYM = torusRows * spec.cellYM();
    workers.overRows(
        torusRows,
        (from, to) -> {
          for (int row = from; row < to; row++) {
            for (int col = 0; col < torusCols; col++) {
              double covariance = 0;
              // The error and its images around the torus: their sum has no negative eigenvalue.
              for (int ny = -1; ny <= 0; ny++) {
                for (int nx = -1; nx <= 0; nx++) {
                  double x = col * spec.cellXM() + nx * aroundXM;
                  double y = row * spec.cellYM() + ny * aroundYM;
                  covariance += StrictMath.exp(-Math.sqrt(x * x + y * y) / lengthM);
                }
              }
              re[row * torusCols + col] = sigmaM * sigmaM * covariance;
            }
          }
        });
    fourier.inverse(re, im, workers);
    float[] amplitude = new float[re.length];
    for (int i = 0; i < re.length; i++) {
      amplitude[i] = (float) Math.sqrt(Math.max(0, re[i]) / re.length);
    }
    return amplitude;
  }

  /** Adds realisations 2 k and 2 k + 1 to the heights, each into an array of its own. */
  public void addPair(int k, float[] heightM, float[] first, float[] second, Workers workers) {
    if (amplitude == null) {
      workers.overRows(
          rows,
          (from, to) -> {
            for (int row = from; row < to; row++) {
              Random random = new Random(seedOf(k, row));
              for (int i = row * cols; i < (row + 1) * cols; i++) {
                first[i] = (float) (heightM[i] + sigmaM * random.nextGaussian());
                second[i] = (float) (heightM[i] + sigmaM * random.nextGaussian());
              }
            }
          });
      return;
    }
    workers.overRows(
        torusRows,
        (from, to) -> {
          for (int row = from; row < to; row++) {
            Random random = new Random(seedOf(k, row));
            for (int i = row * torusCols; i < (row + 1) * torusCols; i++) {
              re[i] = amplitude[i] * random.nextGaussian();
              im[i] = amplitude[i] * random.nextGaussian();
            }
          }
        });
    fourier.inverse(re, im, workers);
    workers.overRows(
        rows,
        (from, to) -> {
          for (int row = from; row < to; row++) {
            for (int col = 0; col < cols; col++) {
              int i = row * cols + col;
              first[i] = (float) (heightM[i] + re[row * torusCols + col]);
              second[i] = (float) (heightM[i] + im[row * torusCols + col]);
            }
          }
        });
  }

  /** The covariance (m2) that the generator has at a lag, from its own amplitudes. */
  double covarianceM2(int dRow, int dCol) {
    double sum = 0;
    for (int row = 0; row < torusRows; row++) {
      for (int col = 0; col < torusCols; col++) {
        double turns = (double) row * dRow / torusRows + (double) col * dCol / torusCols;
        double a = amplitude[row * torusCols + col];
        sum += a * a * Math.cos(2 * Math.PI * turns);
      }
    }
    return sum;
  }

  /** One seed per pair and row, scattered by the finaliser of Steele, Lea and Flood 2014. */
  private long seedOf(int k, int row) {
    long z = seed + 0x9E3779B97F4A7C15L * (((long) k << 32) + row + 1);
    z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    return z ^ (z >>> 31);
  }
}
