package org.scarpway.geodata.projection;

/**
 * Transverse Mercator by the Krueger series (Karney 2011, J. Geod. 85:475-485, eqs. 7-15, 35, 36);
 * exact on a sphere.
 */
final class TransverseMercator implements Projection {
  private final Ellipsoid body;
  private final double scaleM;
  private final double originM;

  TransverseMercator(Ellipsoid body, double lat0Rad, double scale) {
    this.body = body;
    this.scaleM = scale * body.rectifyingM();
    this.originM = scale * body.meridianArcM(lat0Rad);
  }

  @Override
  public void toPlane(double lam, double phi, double[] out) {
    double t = body.conformalTan(Math.tan(phi));
    double c = Math.cos(lam);
    double xi = Math.atan2(t, c);
    double eta = Ellipsoid.asinh(Math.sin(lam) / Math.sqrt(t * t + c * c));
    addSeries(xi, eta, body.alpha(), 1, out);
    double north = out[0];
    out[0] = scaleM * out[1];
    out[1] = scaleM * north - originM;
  }

  @Override
  public void toGround(double east, double north, double[] out) {
    addSeries((north + originM) / scaleM, east / scaleM, body.beta(), -1, out);
    double xi = out[0];
    double sinhEta = Math.sinh(out[1]);
    double c = Math.cos(xi);
    out[0] = Math.atan2(sinhEta, c);
    out[1] = Math.atan(body.geodeticTan(Math.sin(xi) / Math.sqrt(sinhEta * sinhEta + c * c)));
  }

  /** (xi, eta) plus sign times the sum of c_j sin(2j(xi + i eta)). */
  private static void addSeries(double xi, double eta, double[] c, int sign, double[] out) {
    double sumXi = 0;
    double sumEta = 0;
    if (c.length > 0) {
      double s1 = Math.sin(2 * xi);
      double c1 = Math.cos(2 * xi);
      double sh1 = Math.sinh(2 * eta);
      double ch1 = Math.cosh(2 * eta);
      double s = s1;
      double k = c1;
      double sh = sh1;
      double ch = ch1;
      for (double cj : c) {
        sumXi += cj * s * ch;
        sumEta += cj * k * sh;
        double s2 = s * c1 + k * s1;
        k = k * c1 - s * s1;
        s = s2;
        double sh2 = sh * ch1 + ch * sh1;
        ch = ch * ch1 + sh * sh1;
        sh = sh2;
      }
    }
    out[0] = xi + sign * sumXi;
    out[1] = eta + sign * sumEta;
  }
}
