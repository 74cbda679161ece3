package org.scarpway.geodata.projection;

/** Lambert azimuthal equal-area: Snyder 1987, eqs. 24-13 to 24-20. */
final class LambertAzimuthal implements Projection {
  private final Ellipsoid body;
  private final double sin0;
  private final double cos0;
  private final double radiusM;
  private final double widen;

  LambertAzimuthal(Ellipsoid body, double lat0) {
    this.body = body;
    double beta0 = body.authalic(lat0);
    this.radiusM = body.semiMajorM() * Math.sqrt(body.qPole() / 2);
    boolean polar = Math.abs(lat0) > Math.PI / 2 - 1e-12;
    this.sin0 = polar ? Math.signum(lat0) : Math.sin(beta0);
    this.cos0 = polar ? 0 : Math.cos(beta0);
    this.widen = polar ? 1 : body.semiMajorM() * body.parallelRatio(lat0) / (radiusM * cos0);
  }

  @Override
  public void toPlane(double lam, double phi, double[] out) {
    double beta = body.authalic(phi);
    double sin = Math.sin(beta);
    double cos = Math.cos(beta);
    double cosL = cos * Math.cos(lam);
    double factor = radiusM * Math.sqrt(2 / (1 + sin0 * sin + cos0 * cosL));
    out[0] = factor * widen * cos * Math.sin(lam);
    out[1] = factor / widen * (cos0 * sin - sin0 * cosL);
  }

  @Override
  public void toGround(double east, double north, double[] out) {
    double x = east / widen;
    double y = north * widen;
    double rho = Math.sqrt(x * x + y * y);
    Sphere.fromCentre(sin0, cos0, x, y, rho, 2 * Math.asin(rho / (2 * radiusM)), out);
    out[1] = body.ofAuthalic(out[1]);
  }
}
