package org.scarpway.vehicle;

/**
 * Fine-grained soils on Earth by cone index (lbf/in2 of the standard cone, written without unit):
 * rating cone index against the vehicle cone index for 1 and 50 passes. Ground bears the vehicle
 * where RCI is at least VCI.
 *
 * <p>VCI1 of wheeled vehicles: Priddy &amp; Willoughby, <i>Clarification of vehicle cone index with
 * reference to mean maximum pressure</i>, J. Terramechanics 43. VCI50, the forms for tracks and the
 * mobility index: from memory of the same family of reports, not re-read; VCI50 is taken without
 * the correction for the tyre's deflection.
 */
public final class ConeIndex {
  /** Tyre deflection over section height for which the formulas need no correction. */
  static final double USUAL_DEFLECTION = 0.15;

  private static final double LB_PER_KG = 1 / 0.45359237;
  private static final double IN_PER_M = 1 / 0.0254;

  private ConeIndex() {}

  /** Rating cone index: cone index times remoulding index. */
  public static double rating(double coneIndex, double remouldingIndex) {
    return coneIndex * remouldingIndex;
  }

  /** Correction for the deflection of the tyre over its section height. */
  public static double deflectionFactor(double deflectionShare) {
    return Math.pow(USUAL_DEFLECTION / deflectionShare, 0.25);
  }

  /** VCI for one pass of a wheeled vehicle. The two branches differ by 0.12 at MI = 115. */
  public static double wheeled1(double mobilityIndex, double deflectionFactor) {
    double mi = mobilityIndex;
    double vci = mi <= 115 ? 11.48 + 0.2 * mi - 39.2 / (mi + 3.74) : 4.1 * Math.pow(mi, 0.446);
    return vci * deflectionFactor;
  }

  /** VCI for fifty passes of a wheeled vehicle. */
  public static double wheeled50(double mobilityIndex) {
    return 28 + 0.43 * mobilityIndex - 92.67 / (mobilityIndex + 3.67);
  }

  /** VCI for one pass of a tracked vehicle. */
  public static double tracked1(double mobilityIndex) {
    return 7 + 0.2 * mobilityIndex - 39.2 / (mobilityIndex + 5.6);
  }

  /** VCI for fifty passes of a tracked vehicle. */
  public static double tracked50(double mobilityIndex) {
    return 19.27 + 0.43 * mobilityIndex - 125.79 / (mobilityIndex + 7.08);
  }

  /**
   * Mobility index of an all-wheel-drive vehicle on plain tyres with an automatic or electric drive
   * of at least 10 hp per ton: (contact pressure x weight / tyre + wheel load - clearance) factors.
   *
   * @param axles number of axles, two wheels each
   */
  public static double mobilityIndex(
      double massKg, int axles, double wheelWidthM, double wheelRadiusM, double clearanceM) {
    double weightLb = massKg * LB_PER_KG;
    double widthIn = wheelWidthM * IN_PER_M;
    double pressure = weightLb / (widthIn * wheelRadiusM * IN_PER_M * 2 * axles);
    double axleLb = weightLb / axles;
    double axleKip = axleLb / 1000;
    double weight;
    if (axleLb < 2000) {
      weight = 0.553 * axleKip;
    } else if (axleLb < 13500) {
      weight = 0.033 * axleKip + 1.05;
    } else if (axleLb < 20000) {
      weight = 0.142 * axleKip - 0.42;
    } else {
      weight = 0.278 * axleKip - 3.115;
    }
    double tyre = (10 + widthIn) / 100;
    return pressure * weight / tyre + axleKip / 2 - clearanceM * IN_PER_M / 10;
  }
}
