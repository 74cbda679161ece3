package org.scarpway.vehicle;

/**
 * Pull and resistance of driven tyres in fields at about 20 % slip as functions of the mobility
 * number M = (CI b d / W) sqrt(delta / h) / (1 + b / 2d) (Gee-Clough, McAllister, Pearson &amp;
 * Evernden 1978, J. Terramechanics 15(2):81-94; the pull formula is from a secondary text; the
 * three formulas reproduce the table in that text). Forces are divided by the wheel's load.
 */
public final class GeeClough {
  private GeeClough() {}

  /**
   * @param conePa cone index in pascals with the load in newtons, or both in thousands of them
   * @param deflectionShare deflection of the tyre over its section height
   */
  public static double mobilityNumber(
      double conePa, double widthM, double diameterM, double loadN, double deflectionShare) {
    return WismerLuth.numeric(conePa, widthM, diameterM, loadN)
        * Math.sqrt(deflectionShare)
        / (1 + widthM / (2 * diameterM));
  }

  /** Net pull after resistance; negative if the tyre cannot drive. */
  public static double pull(double mobilityNumber) {
    return 0.796 - 0.92 / mobilityNumber;
  }

  public static double resistance(double mobilityNumber) {
    return 0.049 + 0.287 / mobilityNumber;
  }
}
