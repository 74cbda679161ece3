package org.scarpway.vehicle;

import java.util.Arrays;
import java.util.List;

/**
 * Load (N) on each axle of a climbing vehicle. The model is a rigid frame on equal springs: the
 * loads are linear in the axle's position and satisfy the force balance normal to the slope and the
 * moment balance about the centre of gravity (plane statics). Loads shift to the rear uphill.
 */
public final class AxleLoads {
  private AxleLoads() {}

  /**
   * @param axlesM positions ahead of the centre of gravity, at least one
   * @param cgHeightM height of the centre of gravity above ground (m); 0 gives no load transfer
   * @param angleRad angle of the ground along the heading, uphill positive
   * @param outN receives one load per axle, none negative, sum W cos(angle)
   */
  public static void fill(
      List<Double> axlesM, double cgHeightM, double weightN, double angleRad, double[] outN) {
    share(axlesM, cgHeightM, weightN * Math.cos(angleRad), weightN * Math.sin(angleRad), outN);
  }

  /**
   * Like fill, for a weight given by its components normal to the ground and against the heading.
   */
  static void share(
      List<Double> axlesM, double cgHeightM, double normalN, double alongN, double[] outN) {
    int n = axlesM.size();
    double momentNm = -alongN * cgHeightM;
    double mean = 0;
    double sumSquares = 0;
    for (double a : axlesM) {
      mean += a / n;
    }
    for (double a : axlesM) {
      sumSquares += (a - mean) * (a - mean);
    }
    // Moment about the middle of the axles instead of the centre of gravity.
    double tilt = sumSquares > 0 ? (momentNm - normalN * mean) / sumSquares : 0;
    double kept = 0;
    for (int i = 0; i < n; i++) {
      outN[i] = Math.max(0, normalN / n + tilt * (axlesM.get(i) - mean));
      kept += outN[i];
    }
    if (!(kept > 0)) {
      Arrays.fill(outN, 0, n, normalN / n);
      return;
    }
    // An axle that lifts carries nothing; the others take its share.
    for (int i = 0; i < n; i++) {
      outN[i] *= normalN / kept;
    }
  }
}
