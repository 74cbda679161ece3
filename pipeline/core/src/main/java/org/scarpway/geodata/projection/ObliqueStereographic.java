package org.scarpway.geodata.projection;

/**
 * Stereographic about any point but a pole, on a conformal sphere. Two members of the family, equal
 * on a sphere and different on an ellipsoid: the one of Snyder 1987 (eqs. 21-24 to 21-27, 21-38),
 * and the double projection of IOGP Guidance Note 7-2 (method 9809).
 */
final class ObliqueStereographic implements Projection {
  private final Ellipsoid body;
  private final double sin0;
  private final double cos0;
  private final double diameterM;
  private final double stretch;
  private final double shift;

  private ObliqueStereographic(
      Ellipsoid body, double psi0, double diameterM, double stretch, double shift) {
    this.body = body;
    this.sin0 = Math.tanh(psi0);
    this.cos0 = 1 / Math.cosh(psi0);
    this.diameterM = diameterM;
    this.stretch = stretch;
    this.shift = shift;
  }

  static ObliqueStereographic single(Ellipsoid body, double lat0, double scale) {
    double psi0 = body.isometric(lat0);
    double diameterM = 2 * body.semiMajorM() * scale * body.parallelRatio(lat0) * Math.cosh(psi0);
    return new ObliqueStereographic(body, psi0, diameterM, 1, 0);
  }

  static ObliqueStereographic twofold(Ellipsoid body, double lat0, double scale) {
    double s = Math.sin(lat0);
    double c = Math.cos(lat0);
    double e2 = body.eccentricity() * body.eccentricity();
    double primeM = body.semiMajorM() / Math.sqrt(1 - e2 * s * s);
    double radiusM = Math.sqrt(body.meridianRadiusM(lat0) * primeM);
    double stretch = Math.sqrt(1 + e2 * c * c * c * c / (1 - e2));
    // The sphere's isometric latitude is stretch * psi + shift, and its sine at the origin is
    // sin(lat0) / stretch.
    double shift = Ellipsoid.atanh(s / stretch) - stretch * body.isometric(lat0);
    double psi0 = Ellipsoid.atanh(s / stretch);
    return new ObliqueStereographic(body, psi0, 2 * radiusM * scale, stretch, shift);
  }

  @Override
  public void toPlane(double lam, double phi, double[] out) {
    double psi = stretch * body.isometric(phi) + shift;
    double sin = Math.tanh(psi);
    double cos = 1 / Math.cosh(psi);
    double l = stretch * lam;
    double cosL = cos * Math.cos(l);
    double factor = diameterM / (1 + sin0 * sin + cos0 * cosL);
    out[0] = factor * cos * Math.sin(l);
    out[1] = factor * (cos0 * sin - sin0 * cosL);
  }

  @Override
  public void toGround(double east, double north, double[] out) {
    double rho = Math.sqrt(east * east + north * north);
    Sphere.fromCentre(sin0, cos0, east, north, rho, 2 * Math.atan(rho / diameterM), out);
    double tan = Math.tan(out[1]);
    out[0] /= stretch;
    out[1] =
        stretch == 1 && shift == 0
            ? Math.atan(body.geodeticTan(tan))
            : body.ofIsometric((Ellipsoid.asinh(tan) - shift) / stretch);
  }
}
