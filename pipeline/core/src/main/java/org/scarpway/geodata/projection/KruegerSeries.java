package org.scarpway.geodata.projection;

/**
 * Coefficients of the series between the conformal and the rectifying sphere, to sixth order in the
 * third flattening: Karney 2011 (J. Geod. 85:475-485), eqs. 35 (forward) and 36 (inverse).
 */
final class KruegerSeries {
  private static final double[][] FORWARD = {
    {1 / 2.0, -2 / 3.0, 5 / 16.0, 41 / 180.0, -127 / 288.0, 7891 / 37800.0},
    {13 / 48.0, -3 / 5.0, 557 / 1440.0, 281 / 630.0, -1983433 / 1935360.0},
    {61 / 240.0, -103 / 140.0, 15061 / 26880.0, 167603 / 181440.0},
    {49561 / 161280.0, -179 / 168.0, 6601661 / 7257600.0},
    {34729 / 80640.0, -3418889 / 1995840.0},
    {212378941 / 319334400.0},
  };
  private static final double[][] INVERSE = {
    {1 / 2.0, -2 / 3.0, 37 / 96.0, -1 / 360.0, -81 / 512.0, 96199 / 604800.0},
    {1 / 48.0, 1 / 15.0, -437 / 1440.0, 46 / 105.0, -1118711 / 3870720.0},
    {17 / 480.0, -37 / 840.0, -209 / 4480.0, 5569 / 90720.0},
    {4397 / 161280.0, -11 / 504.0, -830251 / 7257600.0},
    {4583 / 161280.0, -108847 / 3991680.0},
    {20648693 / 638668800.0},
  };

  private KruegerSeries() {}

  static double[] forward(double n) {
    return sum(FORWARD, n);
  }

  static double[] inverse(double n) {
    return sum(INVERSE, n);
  }

  /** Row j starts with the power n^(j + 1). Empty for a sphere, where every term vanishes. */
  private static double[] sum(double[][] rows, double n) {
    if (n == 0) {
      return new double[0];
    }
    double[] out = new double[rows.length];
    double lead = 1;
    for (int j = 0; j < rows.length; j++) {
      lead *= n;
      double poly = 0;
      for (int p = rows[j].length - 1; p >= 0; p--) {
        poly = poly * n + rows[j][p];
      }
      out[j] = lead * poly;
    }
    return out;
  }
}
