package org.scarpway.geodata.projection;

/** Mercator: Snyder 1987, eqs. 7-6 and 7-7. */
final class Mercator implements Projection {
  private final Ellipsoid body;
  private final double radiusM;

  Mercator(Ellipsoid body, double scaleAtEquator) {
    this.body = body;
    this.radiusM = body.semiMajorM() * scaleAtEquator;
  }

  @Override
  public void toPlane(double lam, double phi, double[] out) {
    out[0] = radiusM * lam;
    out[1] = radiusM * body.isometric(phi);
  }

  @Override
  public void toGround(double east, double north, double[] out) {
    out[0] = east / radiusM;
    out[1] = body.ofIsometric(north / radiusM);
  }
}
