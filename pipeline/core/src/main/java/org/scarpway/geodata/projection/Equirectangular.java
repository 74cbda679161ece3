package org.scarpway.geodata.projection;

/**
 * Equirectangular, true to scale along a parallel: Snyder 1987, eqs. 12-1 and 12-2, on the sphere
 * whose radius is the semi-major axis, whatever the flattening. This is how the spherical form is
 * applied to ellipsoidal bodies in practice (checked against PROJ 9.1).
 */
final class Equirectangular implements Projection {
  private final double alongM;
  private final double radiusM;
  private final double lat0;

  Equirectangular(Ellipsoid body, double lat0Rad, double trueScaleLatRad) {
    this.radiusM = body.semiMajorM();
    this.alongM = radiusM * Math.cos(trueScaleLatRad);
    this.lat0 = lat0Rad;
  }

  @Override
  public void toPlane(double lam, double phi, double[] out) {
    out[0] = alongM * lam;
    out[1] = radiusM * (phi - lat0);
  }

  @Override
  public void toGround(double east, double north, double[] out) {
    out[0] = east / alongM;
    out[1] = north / radiusM + lat0;
  }
}
