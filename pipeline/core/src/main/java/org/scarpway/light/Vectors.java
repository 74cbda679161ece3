package org.scarpway.light;

/** Vectors of three components, turned from one set of axes to another. Angles in radians. */
final class Vectors {
  private Vectors() {}

  /** From the length and the two angles about the z axis. */
  static double[] polar(double lon, double lat, double length) {
    double inPlane = length * StrictMath.cos(lat);
    return new double[] {
      inPlane * StrictMath.cos(lon), inPlane * StrictMath.sin(lon), length * StrictMath.sin(lat)
    };
  }

  /** Components of v in axes that are turned about x by an angle. */
  static double[] aboutX(double angle, double[] v) {
    double c = StrictMath.cos(angle);
    double s = StrictMath.sin(angle);
    return new double[] {v[0], c * v[1] + s * v[2], c * v[2] - s * v[1]};
  }

  /** Components of v in axes that are turned about y by an angle. */
  static double[] aboutY(double angle, double[] v) {
    double c = StrictMath.cos(angle);
    double s = StrictMath.sin(angle);
    return new double[] {c * v[0] - s * v[2], v[1], s * v[0] + c * v[2]};
  }

  /** Components of v in axes that are turned about z by an angle. */
  static double[] aboutZ(double angle, double[] v) {
    double c = StrictMath.cos(angle);
    double s = StrictMath.sin(angle);
    return new double[] {c * v[0] + s * v[1], c * v[1] - s * v[0], v[2]};
  }

  static double length(double[] v) {
    return StrictMath.sqrt(dot(v, v));
  }

  static double dot(double[] a, double[] b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  }

  static double[] minus(double[] a, double[] b) {
    return new double[] {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
  }

  /** a + k b. */
  static double[] plus(double[] a, double k, double[] b) {
    return new double[] {a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]};
  }

  /** The polynomial with these coefficients, the constant one first. */
  static double polynomial(double t, double... coefficients) {
    double sum = 0;
    for (int i = coefficients.length - 1; i >= 0; i--) {
      sum = sum * t + coefficients[i];
    }
    return sum;
  }
}
