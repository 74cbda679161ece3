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
    float at = (u + 1) * (STEPS / 2);
    int i = (int) at;
    return TABLE[i] + (TABLE[i + 1] - TABLE[i]) * (at - i);
  }
}
