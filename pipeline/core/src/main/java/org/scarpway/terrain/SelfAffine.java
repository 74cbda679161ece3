package org.scarpway.terrain;

import java.util.Arrays;

/**
 * Self-affine law of rough ground: deviation(lag) = deviationAt1M * lag^hurst (m), fitted by least
 * squares of the logarithms over several lags.
 *
 * <p>Source: Shepard et al. 2001 (see {@link RmsDeviation}). Extrapolating the law to lags shorter
 * than the cells gives an estimate only: it assumes that the law continues below the cell size, and
 * Campbell et al. 2003 (abstract) call it a lower bound.
 *
 * @param hurst exponent in [0, 1]
 * @param hurstLow lower end of the interval of the exponent, a 95 % interval if it comes from a
 *     regression alone, in [0, 1]
 * @param hurstHigh upper end
 * @param deviationAt1M deviation at a lag of 1 m (m)
 * @param r2 share of the variance of log deviation that the law explains
 * @param points number of lags and directions fitted
 * @param hurstError standard error of the exponent in the regression
 */
public record SelfAffine(
    double hurst,
    double hurstLow,
    double hurstHigh,
    double deviationAt1M,
    double r2,
    int points,
    double hurstError) {
  /** Student's t, 97.5 %, for 1, 2, ... degrees of freedom (standard table). */
  private static final double[] T975 = {
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228
  };

  /** Limit of these for many degrees of freedom: 97.5 % quantile of the normal distribution. */
  private static final double Z975 = 1.959963984540054;

  /**
   * @return the fit, or null if fewer than three lags have a positive finite deviation
   */
  public static SelfAffine fit(double[] lagsM, double[] deviationsM) {
    double[] x = new double[lagsM.length];
    double[] y = new double[lagsM.length];
    int n = 0;
    for (int k = 0; k < lagsM.length; k++) {
      if (lagsM[k] > 0 && deviationsM[k] > 0 && Double.isFinite(deviationsM[k])) {
        x[n] = Math.log(lagsM[k]);
        y[n] = Math.log(deviationsM[k]);
        n++;
      }
    }
    if (n < 3) {
      return null;
    }
    double meanX = Arrays.stream(x, 0, n).sum() / n;
    double meanY = Arrays.stream(y, 0, n).sum() / n;
    double xx = 0;
    double xy = 0;
    double yy = 0;
    for (int k = 0; k < n; k++) {
      xx += (x[k] - meanX) * (x[k] - meanX);
      xy += (x[k] - meanX) * (y[k] - meanY);
      yy += (y[k] - meanY) * (y[k] - meanY);
    }
    if (xx == 0) {
      return null;
    }
    double slope = xy / xx;
    double residual = Math.max(0, yy - slope * xy);
    double error = Math.sqrt(residual / (n - 2) / xx);
    double half = t975(n - 2) * error;
    return new SelfAffine(
        clamp(slope),
        clamp(slope - half),
        clamp(slope + half),
        Math.exp(meanY - slope * meanX),
        yy == 0 ? 1 : 1 - residual / yy,
        n,
        error);
  }

  /** RMS deviation (m) at a lag, by the law. */
  public double deviationM(double lagM) {
    return deviationAt1M * Math.pow(lagM, hurst);
  }

  /** Beyond the table by the expansion of Abramowitz and Stegun 26.7.5. */
  private static double t975(int freedom) {
    if (freedom <= T975.length) {
      return T975[freedom - 1];
    }
    double z = Z975;
    double z2 = z * z;
    double first = (z2 + 1) / 4;
    double second = ((5 * z2 + 16) * z2 + 3) / 96;
    double third = (((3 * z2 + 19) * z2 + 17) * z2 - 15) / 384;
    double per = 1.0 / freedom;
    return z * (1 + per * (first + per * (second + per * third)));
  }

  private static double clamp(double exponent) {
    return Math.max(0, Math.min(1, exponent));
  }
}
