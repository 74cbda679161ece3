package org.scarpway.geodata.projection;

/** Sinusoidal: Snyder 1987, eqs. 30-8 to 30-10 with the meridian arc by the Krueger series. */
final class Sinusoidal implements Projection {
  private final Ellipsoid body;

  Sinusoidal(Ellipsoid body) {
    this.body = body;
  }

  @Override
  public void toPlane(double lam, double phi, double[] out) {
    out[0] = body.semiMajorM() * body.parallelRatio(phi) * lam;
    out[1] = body.meridianArcM(phi);
  }

  @Override
  public void toGround(double east, double north, double[] out) {
    double phi = body.ofMeridianArc(north);
    out[0] = east / (body.semiMajorM() * body.parallelRatio(phi));
    out[1] = phi;
  }
}
