package org.scarpway.geodata.projection;

/** Stereographic about a pole: Snyder 1987, USGS Prof. Paper 1395, eqs. 15-9, 21-33, 21-34. */
final class PolarStereographic implements Projection {
  private final Ellipsoid body;
  private final boolean south;
  private final double radiusM;

  PolarStereographic(Ellipsoid body, boolean south, double scale) {
    this.body = body;
    this.south = south;
    this.radiusM = 2 * body.semiMajorM() * scale / poleFactor(body);
  }

  /**
   * Scale factor at the pole of a map that is true to scale at a latitude (rad): Snyder 21-33 to
   * 34.
   */
  static double scaleAtPole(Ellipsoid body, double trueScaleLatRad) {
    double phi = Math.abs(trueScaleLatRad);
    if (phi >= Math.PI / 2 - 1e-12) {
      return 1;
    }
    return body.parallelRatio(phi) * Math.exp(body.isometric(phi)) * poleFactor(body) / 2;
  }

  private static double poleFactor(Ellipsoid body) {
    double e = body.eccentricity();
    return Math.sqrt(Math.pow(1 + e, 1 + e) * Math.pow(1 - e, 1 - e));
  }

  @Override
  public void toPlane(double lam, double phi, double[] out) {
    double rho = radiusM * Math.exp(-body.isometric(south ? -phi : phi));
    out[0] = rho * Math.sin(lam);
    out[1] = (south ? rho : -rho) * Math.cos(lam);
  }

  @Override
  public void toGround(double east, double north, double[] out) {
    double t = Math.sqrt(east * east + north * north) / radiusM;
    double phi = Math.atan(body.geodeticTan((1 / t - t) / 2));
    out[0] = t == 0 ? 0 : Math.atan2(east, south ? north : -north);
    out[1] = south ? -phi : phi;
  }
}
