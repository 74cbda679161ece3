package org.scarpway.terrain;

import java.util.Arrays;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.GridSpec;

/**
 * Statistics of the natural relief at the scale of the cells: the {@link SelfAffine} law of the
 * second differences, and the bounds up to which a {@link Breaks break} is consistent with that
 * law.
 *
 * <p>Second differences z(x + l) - 2 z(x) + z(x - l) over l = 1, 2, 4, 8 cells east and south have
 * the standard deviation deviation(l) sqrt(4 - 4^hurst) on self-affine ground, whatever its tilt,
 * and vary less from sample to sample than first differences. Lags on one surface are not
 * independent, so the interval of the regression alone covers the exponent too rarely: the
 * jackknife variance over eight bands of rows is added to it. Own derivation; on exact self-affine
 * surfaces each end of the interval holds in 96 to 100 % of draws.
 *
 * <p>On Gaussian self-affine ground of any exponent, 99 of 100 cells have no break beyond the
 * bounds. The bounds are derived from the median of the differences that breaks are computed from,
 * which walls change little as long as most of the ground has none.
 *
 * <p>Law and bounds are fitted to the available heights of all ground and take no account of
 * missing ones. Removing heights can narrow the interval, raise its lowest exponent, and lower the
 * bounds or raise them from 0, and so reduce steps and roughness of the remaining cells. This is
 * the exception to the rule that less data never makes ground better; by one law, it never does.
 */
final class GroundLaw {
  /** Row and column offset from a cell to the next along each axis. */
  static final int[][] AXES = {{0, 1}, {1, 0}, {1, 1}, {1, -1}};

  /** Weights of four heights in a line: the middle difference less the mean of the outer two. */
  static final double[] PAIR = {0.5, -1.5, 1.5, -0.5};

  /**
   * Weights of five heights in a line: the difference over the middle two cells less the outer two.
   */
  static final double[] TWO = {1, -2, 0, 2, -1};

  private static final int SAMPLES_PER_LAG = 1 << 21;
  private static final int SAMPLES_PER_SPREAD = 1 << 17;
  private static final int LAGS = 4;
  private static final int BANDS = 8;

  /** Number of rows below a sampled row that it is compared with. */
  private static final int REACH = 16;

  /** Student's t, 99 %, for one less than the bands (standard table). */
  private static final double T99 = 2.998;

  /** Largest exponent for which second differences determine the first differences. */
  private static final double STEEPEST = 0.999;

  /** Normal distribution: median absolute value divided by the standard deviation. */
  private static final double MEDIAN = 0.6744897501960817;

  /**
   * 99 % quantile, over cells, of the largest break divided by the standard deviation of the
   * differences that it is computed from: 3.05 to 3.17 on exact self-affine surfaces of exponents
   * from 0.05 to 0.95 and on white noise. Own simulation.
   */
  private static final double CELL99 = 3.1;

  private final SelfAffine law;
  private final double[] pairBoundM;
  private final double[] twoBoundM;

  /**
   * @param law fitted law, null if none can be fitted; each end of its interval holds with 99 %
   *     probability
   * @param pairBoundM bound (m) of a break between neighbours along each of {@link #AXES}
   * @param twoBoundM bound (m) of a break over two cells, likewise
   */
  GroundLaw(SelfAffine law, double[] pairBoundM, double[] twoBoundM) {
    this.law = law;
    this.pairBoundM = pairBoundM.clone();
    this.twoBoundM = twoBoundM.clone();
  }

  /** Returns the fitted law, null if none can be fitted. */
  SelfAffine law() {
    return law;
  }

  /** Bound of a break between neighbours along one of {@link #AXES} (m). */
  double pairBoundM(int axis) {
    return pairBoundM[axis];
  }

  /** Bound of a break over two cells along one of {@link #AXES} (m). */
  double twoBoundM(int axis) {
    return twoBoundM[axis];
  }

  /** Row sampling interval, which limits the cost on large grids. */
  static int rowStep(int rows, int cols) {
    return (int) Math.max(1, (long) rows * cols / SAMPLES_PER_LAG);
  }

  static GroundLaw of(HeightRows ground) {
    GridSpec spec = ground.spec();
    int rows = spec.rows();
    int cols = spec.cols();
    int rowStep = rowStep(rows, cols);
    double[][] squares = new double[BANDS][2 * LAGS];
    long[][] counts = new long[BANDS][2 * LAGS];
    int axes = AXES.length;
    Spread[] pairs = new Spread[axes];
    Spread[] twos = new Spread[axes];
    for (int a = 0; a < axes; a++) {
      pairs[a] = new Spread((long) (rows / rowStep + 1) * cols);
      twos[a] = new Spread((long) (rows / rowStep + 1) * cols);
    }
    float[] z = new float[Math.min(rows, REACH + 1) * cols];
    for (int row = 0; row < rows; row += rowStep) {
      int n = Math.min(REACH + 1, rows - row);
      ground.read(row, n, z);
      int band = (int) ((long) row * BANDS / rows);
      for (int k = 0, lag = 1; k < LAGS; k++, lag *= 2) {
        if (2 * lag <= cols / 3) {
          add(z, lag, cols - 2 * lag, squares[band], counts[band], 2 * k);
        }
        if (2 * lag <= rows / 3 && 2 * lag < n) {
          add(z, lag * cols, cols, squares[band], counts[band], 2 * k + 1);
        }
      }
      for (int a = 0; a < axes; a++) {
        int down = AXES[a][0];
        int right = AXES[a][1];
        pairs[a].add(z, n, cols, down, right, 3, PAIR);
        twos[a].add(z, n, cols, down, right, 4, TWO);
      }
    }
    double[] pairBoundM = new double[axes];
    double[] twoBoundM = new double[axes];
    SelfAffine law = law(spec, squares, counts);
    // A law that may not reduce steps (lowest exponent 0) explains none of the breaks.
    boolean explains = law != null && law.hurstLow() > 0;
    for (int a = 0; explains && a < axes; a++) {
      pairBoundM[a] = CELL99 / MEDIAN * pairs[a].medianM();
      twoBoundM[a] = CELL99 / MEDIAN * twos[a].medianM();
    }
    return new GroundLaw(law, pairBoundM, twoBoundM);
  }

  private static void add(
      float[] z, int apart, int count, double[] squares, long[] counts, int at) {
    double sum = 0;
    int n = 0;
    for (int i = 0; i < count; i++) {
      double d = ((double) z[i + 2 * apart] - z[i + apart]) - ((double) z[i + apart] - z[i]);
      if (!Double.isNaN(d)) {
        sum += d * d;
        n++;
      }
    }
    squares[at] += sum;
    counts[at] += n;
  }

  private static SelfAffine law(GridSpec spec, double[][] squares, long[][] counts) {
    SelfAffine all = fit(spec, squares, counts, -1);
    if (all == null) {
      return null;
    }
    double mean = 0;
    double[] without = new double[BANDS];
    int used = 0;
    for (int band = 0; band < BANDS; band++) {
      SelfAffine rest = fit(spec, squares, counts, band);
      without[band] = rest == null ? Double.NaN : rest.hurst();
      used += counts[band][0] > 0 ? 1 : 0;
      mean += without[band] / BANDS;
    }
    double spread = 0;
    for (double h : without) {
      spread += (h - mean) * (h - mean) * (BANDS - 1) / BANDS;
    }
    double half = T99 * Math.sqrt(spread + all.hurstError() * all.hurstError());
    boolean known = used == BANDS && Double.isFinite(half);
    double hurst = Math.max(0, Math.min(1, all.hurst()));
    double plain = 1 / Math.sqrt(4 - Math.pow(4, Math.min(STEEPEST, hurst)));
    return new SelfAffine(
        hurst,
        known ? Math.max(0, hurst - half) : 0,
        known ? Math.min(1, hurst + half) : 1,
        all.deviationAt1M() * plain,
        all.r2(),
        all.points(),
        all.hurstError());
  }

  private static SelfAffine fit(GridSpec spec, double[][] squares, long[][] counts, int without) {
    double[] lagsM = new double[2 * LAGS];
    double[] deviationsM = new double[2 * LAGS];
    for (int k = 0; k < 2 * LAGS; k++) {
      double sum = 0;
      long n = 0;
      for (int band = 0; band < BANDS; band++) {
        if (band != without) {
          sum += squares[band][k];
          n += counts[band][k];
        }
      }
      lagsM[k] = (1 << (k / 2)) * (k % 2 == 0 ? spec.cellXM() : spec.cellYM());
      deviationsM[k] = n == 0 ? Double.NaN : Math.sqrt(sum / n);
    }
    return SelfAffine.fit(lagsM, deviationsM);
  }

  /** Sample of absolute values of a weighted sum of heights in a line, evenly thinned. */
  private static final class Spread {
    private final float[] values = new float[SAMPLES_PER_SPREAD];
    private final int every;
    private long met;
    private int n;

    Spread(long most) {
      every = (int) (1 + most / SAMPLES_PER_SPREAD);
    }

    /**
     * Adds samples from rows downwards.
     *
     * @param span number of axis steps from the first height to the last
     */
    void add(float[] z, int rows, int cols, int down, int right, int span, double[] weights) {
      if (span * down >= rows) {
        return;
      }
      int apart = down * cols + right;
      int from = Math.max(0, -right * span);
      int end = cols - Math.max(0, right * span);
      for (int i = from; i < end; i++) {
        if (met++ % every != 0) {
          continue;
        }
        double sum = 0;
        for (int k = 0; k <= span; k++) {
          sum += weights[k] * z[i + k * apart];
        }
        if (!Double.isNaN(sum)) {
          values[n++] = (float) Math.abs(sum);
        }
      }
    }

    /** Lower median (m); 0 if nothing was added. */
    double medianM() {
      Arrays.sort(values, 0, n);
      return n == 0 ? 0 : values[(n - 1) / 2];
    }
  }
}
