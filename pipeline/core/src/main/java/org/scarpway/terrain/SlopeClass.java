package org.scarpway.terrain;

/**
 * Slope classes by per cent slope: those of terrain analysis (FM 5-33), with the corresponding
 * three terrain classes for vehicles driving uphill (FM 34-130 and ATP 2-01.3: unrestricted below
 * 30 %, restricted 30 to 45 %, severely restricted above). A slope on a bound belongs to the
 * steeper class, but 45 % is still restricted.
 */
public enum SlopeClass {
  TO_3("0 to 3 %", 0, 3, "unrestricted"),
  TO_10("3 to 10 %", 3, 10, "unrestricted"),
  TO_20("10 to 20 %", 10, 20, "unrestricted"),
  TO_30("20 to 30 %", 20, 30, "unrestricted"),
  TO_45("30 to 45 %", 30, 45, "restricted"),
  OVER_45("over 45 %", 45, Double.POSITIVE_INFINITY, "severely restricted");

  /** Relative tolerance of a bound, for float storage of the slope. */
  private static final double ROUNDING = 1e-6;

  private static final SlopeClass[] ALL = values();
  private static final double[] FROM_DEG = new double[ALL.length];

  static {
    for (SlopeClass c : ALL) {
      double slack = c == OVER_45 ? 1 + ROUNDING : 1 - ROUNDING;
      FROM_DEG[c.ordinal()] = Math.toDegrees(Math.atan(c.fromPct / 100)) * slack;
    }
  }

  private final String label;
  private final double fromPct;
  private final double toPct;
  private final String terrain;

  SlopeClass(String label, double fromPct, double toPct, String terrain) {
    this.label = label;
    this.fromPct = fromPct;
    this.toPct = toPct;
    this.terrain = terrain;
  }

  public String label() {
    return label;
  }

  public double fromPct() {
    return fromPct;
  }

  /** Upper bound (%); infinite for the steepest class. */
  public double toPct() {
    return toPct;
  }

  /** Terrain class: unrestricted, restricted or severely restricted. */
  public String terrain() {
    return terrain;
  }

  /**
   * Adds the cells [from, to) of a slope raster to the count of their classes, in the order of the
   * constants; cells without a slope are skipped.
   */
  public static void count(float[] slopeDeg, int from, int to, long[] cells) {
    for (int i = from; i < to; i++) {
      double deg = slopeDeg[i];
      if (deg >= 0) {
        int c = ALL.length - 1;
        while (deg < FROM_DEG[c]) {
          c--;
        }
        cells[c]++;
      }
    }
  }
}
