package org.scarpway.geodata.projection;

/** Albers equal-area conic: Snyder 1987, eqs. 14-12 to 14-21. */
final class Albers implements Projection {
  private final Ellipsoid body;
  private final double n;
  private final double c;
  private final double originM;

  Albers(Ellipsoid body, double lat0, double lat1, double lat2) {
    this.body = body;
    double m1 = body.parallelRatio(lat1);
    double m2 = body.parallelRatio(lat2);
    double q1 = body.q(lat1);
    this.n =
        Math.abs(lat1 - lat2) < 1e-12 ? Math.sin(lat1) : (m1 * m1 - m2 * m2) / (body.q(lat2) - q1);
    this.c = m1 * m1 + n * q1;
    this.originM = radiusM(lat0);
  }

  private double radiusM(double phi) {
    return body.semiMajorM() * Math.sqrt(Math.max(0, c - n * body.q(phi))) / n;
  }

  @Override
  public void toPlane(double lam, double phi, double[] out) {
    double rho = radiusM(phi);
    out[0] = rho * Math.sin(n * lam);
    out[1] = originM - rho * Math.cos(n * lam);
  }

  @Override
  public void toGround(double east, double north, double[] out) {
    double sign = Math.signum(n);
    double down = originM - north;
    double r = Math.sqrt(east * east + down * down) * n / body.semiMajorM();
    out[0] = Math.atan2(sign * east, sign * down) / n;
    out[1] = body.ofAuthalic(Math.asin((c - r * r) / (n * body.qPole())));
  }
}
