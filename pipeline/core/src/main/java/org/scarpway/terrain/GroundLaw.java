package org.scarpway.terrain;

import java.util.Arrays;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.GridSpec;

/**
 * How the ground varies at the length of its cells: the {@link SelfAffine} law of its second
 * differences, and how large a {@link Breaks break} may be and still be of that law.
 *
 * <p>Second differences z(x + l) - 2 z(x) + z(x - l) over l = 1, 2, 4, 8 cells east and south have
 * the spread deviation(l) sqrt(4 - 4^hurst) on self-affine ground, whatever its tilt, and differ
 * less from sample to sample than plain ones. Lags on one surface are not independent, so the
 * spread of the regression alone holds the exponent too seldom: the variance of leaving out one of
 * eight bands of rows at a time is added to it. Own derivation; on exact self-affine surfaces each
 * end of the interval holds in 96 to 100 % of draws.
 *
 * <p>99 of 100 cells of Gaussian self-affine ground have no break beyond the bounds, for any
 * exponent. They rest on the median of what breaks are told from, which walls move little as long
 * as most of the ground has none.
 *
 * <p>Both are fitted to the heights that there are, on all ground, and know nothing of those that
 * are missing: taking heights away can narrow the interval, raise its least exponent and lower the
 * bounds or raise them from 0, and so lower steps and roughness of the cells that are left. That is
 * the exception to what else holds, that less data never makes ground better.
 */
final class GroundLaw {
  /** Rows down and columns right from a cell to the next along each axis. */
  static final int[][] AXES = {{0, 1}, {1, 0}, {1, 1}, {1, -1}};

  /** Weights of four heights in a line: the middle difference less the mean of the outer two. */
  static final double[] PAIR = {0.5, -1.5, 1.5, -0.5};

  /** Of five: the difference over the middle two cells less the outer two. */
  static final double[] TWO = {1, -2, 0, 2, -1};

  private static final int SAMPLES_PER_LAG = 1 << 21;
  private static final int SAMPLES_PER_SPREAD = 1 << 17;
  private static final int LAGS = 4;
  private static final int BANDS = 8;

  /** Rows below a sampled one that it is compared with. */
  private static final int REACH = 16;

  /** Student's t, 99 %, for one less than the bands (standard table). */
  private static final double T99 = 2.998;

  /** The largest exponent for which second differences tell the plain ones. */
  private static final double STEEPEST = 0.999;

  /** Of a normal distribution: median of the absolute value over the standard deviation. */
  private static final double MEDIAN = 0.6744897501960817;

  /**
   * 99 % point, over cells, of their largest break over the spread of what it is told from: 3.05 to
   * 3.17 on exact self-affine surfaces of exponents from 0.05 to 0.95 and on white noise. Own
   * simulation.
   */
  private static final double CELL99 = 3.1;

  private final SelfAffine law;
  private final double[] pairBoundM;
  private final double[] twoBoundM;

  /**
   * @param law null where there is none to fit; the ends of its interval hold with 99 % each
   * @param pairBoundM for a break between neighbours along each of {@link #AXES}
   * @param twoBoundM for one over two cells
   */
  GroundLaw(SelfAffine law, double[] pairBoundM, double[] twoBoundM) {
    this.law = law;
    this.pairBoundM = pairBoundM.clone();
    this.twoBoundM = twoBoundM.clone();
  }

  /** Null where there is none to fit. */
  SelfAffine law() {
    return law;
  }

  /** For a break between neighbours along one of {@link #AXES} (m). */
  double pairBoundM(int axis) {
    return pairBoundM[axis];
  }

  /** For a break over two cells (m). */
  double twoBoundM(int axis) {
    return twoBoundM[axis];
  }

  /** Every how many rows are looked at, so that large grids cost no more than enough. */
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
    // Ground whose law may leave steps as they are explains none of its breaks.
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

  /** Absolute values of a weighted sum of heights in a line, evenly thinned out. */
  private static final class Spread {
    private final float[] values = new float[SAMPLES_PER_SPREAD];
    private final int every;
    private long met;
    private int n;

    Spread(long most) {
      every = (int) (1 + most / SAMPLES_PER_SPREAD);
    }

    /**
     * From the first of n rows, downwards.
     *
     * @param span steps of the axis from the first height to the last
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

    /** The lower one of two; 0 where nothing was added. */
    double medianM() {
      Arrays.sort(values, 0, n);
      return n == 0 ? 0 : values[(n - 1) / 2];
    }
  }
}
