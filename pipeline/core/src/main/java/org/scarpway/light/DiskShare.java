package org.scarpway.light;

/**
 * Share of a disk that stands above a straight horizon: (acos(-u) + u sqrt(1 - u2)) / pi, with u
 * the height of the disk's centre over the horizon in radii.
 */
public final class DiskShare {
  private static final int STEPS = 256;
  private static final float[] TABLE = new float[STEPS + 2];

  static {
    for (int i = 0; i <= STEPS; i++) {
      TABLE[i] = (float) of(2.0 * i / STEPS - 1);
    }
    TABLE[STEPS + 1] = 1;
  }

  private DiskShare() {}

  /**
   * The share, 0 to 1.
   *
   * @param u height of the centre over the horizon in radii; NaN gives NaN
   */
  public static double of(double u) {
    if (u <= -1) {
      return 0;
    }
    if (u >= 1) {
      return 1;
    }
    return (StrictMath.acos(-u) + u * StrictMath.sqrt(1 - u * u)) / StrictMath.PI;
  }

  /**
   * The share by a table of 257 values between which it is straight: within 0.0002 of {@link #of}.
   *
   * @param u height of the centre over the horizon in radii, not NaN
   */
  public static float tabled(float u) {
    if (u <= -1) {
      return 0;
    }
    if (u >= 1) {
      return 1;
    }
    float at = (u + 1) * (0.5f * STEPS);
    int i = (int) at;
    return TABLE[i] + (TABLE[i + 1] - TABLE[i]) * (at - i);
  }

  /** The height in radii at which that share stands above the horizon. */
  static double radii(double share) {
    double low = -1;
    double high = 1;
    for (int i = 0; i < 60; i++) {
      double middle = 0.5 * (low + high);
      if (of(middle) < share) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return share <= 0 ? -1 : low;
  }

  /**
   * Share of a disk of radius {@code r} that one of radius {@code q} hides whose centre is {@code
   * d} away: the area common to two circles.
   */
  static double hidden(double r, double q, double d) {
    if (d >= r + q) {
      return 0;
    }
    if (d <= Math.abs(r - q)) {
      return q >= r ? 1 : q * q / (r * r);
    }
    double a = StrictMath.acos((d * d + r * r - q * q) / (2 * d * r));
    double b = StrictMath.acos((d * d + q * q - r * r) / (2 * d * q));
    double kite = r * d * StrictMath.sin(a);
    return (r * r * a + q * q * b - kite) / (StrictMath.PI * r * r);
  }
}
