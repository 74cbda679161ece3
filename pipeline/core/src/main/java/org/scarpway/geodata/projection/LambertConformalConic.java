package org.scarpway.geodata.projection;

/** Lambert conformal conic with one or two standard parallels: Snyder 1987, eqs. 15-1 to 15-11. */
final class LambertConformalConic implements Projection {
  private final Ellipsoid body;
  private final double n;
  private final double radius1M;
  private final double psi1;
  private final double originM;

  LambertConformalConic(Ellipsoid body, double lat0, double lat1, double lat2, double scale) {
    this.body = body;
    this.psi1 = body.isometric(lat1);
    double m1 = body.parallelRatio(lat1);
    this.n =
        Math.abs(lat1 - lat2) < 1e-12
            ? Math.sin(lat1)
            : Math.log(m1 / body.parallelRatio(lat2)) / (body.isometric(lat2) - psi1);
    this.radius1M = body.semiMajorM() * scale * m1 / n;
    this.originM = radiusM(lat0);
  }

  private double radiusM(double phi) {
    return radius1M * Math.exp(-n * (body.isometric(phi) - psi1));
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
    double rho = sign * Math.sqrt(east * east + down * down);
    out[0] = Math.atan2(sign * east, sign * down) / n;
    out[1] = body.ofIsometric(psi1 - Math.log(rho / radius1M) / n);
  }
}
