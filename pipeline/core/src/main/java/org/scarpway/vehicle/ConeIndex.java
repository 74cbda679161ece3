package org.scarpway.vehicle;

/**
 * Cone index method for fine-grained soils on Earth (lbf/in2 of the standard cone, written without
 * unit). Compares the rating cone index (RCI) with the vehicle cone index (VCI) for 1 and 50
 * passes: ground bears the vehicle if RCI is at least VCI.
 *
 * <p>VCI1 of wheeled vehicles: Priddy &amp; Willoughby 2006, <i>Clarification of vehicle cone index
 * with reference to mean maximum pressure</i>, J. Terramechanics 43:85-96. VCI50 of wheeled
 * vehicles as two public codes give it (one names Ciobotaru 2009; the report behind it was not
 * found). VCI1 of tracks and the mobility index: field manual FM 5-430-00-1 (1994) in public codes,
 * secondary. VCI50 of tracks: vehicle cone index reports, not found.
 */
public final class ConeIndex {
  /** Tyre deflection over section height for which the formulas need no correction. */
  static final double USUAL_DEFLECTION = 0.15;

  /** Mobility index at which the formulas for wheels change branch. */
  static final double BRANCH = 115;

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
    double vci = mi <= BRANCH ? 11.48 + 0.2 * mi - 39.2 / (mi + 3.74) : 4.1 * Math.pow(mi, 0.446);
    return vci * deflectionFactor;
  }

  /** VCI for fifty passes of a wheeled vehicle. The two branches differ by 2.2 at MI = 115. */
  public static double wheeled50(double mobilityIndex) {
    double mi = mobilityIndex;
    return mi <= BRANCH ? 28.23 + 0.43 * mi - 92.67 / (mi + 3.67) : 9.0 * Math.pow(mi, 0.446);
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
   * Mobility index of one axle with two wheels of an all-wheel-drive vehicle on plain tyres with an
   * automatic or electric drive of at least 10 hp per ton: (contact pressure x weight / tyre +
   * wheel load - clearance) factors. That of a vehicle is the largest of its axles.
   *
   * @param axleKg mass that the axle bears
   */
  public static double mobilityIndex(
      double axleKg, double wheelWidthM, double wheelRadiusM, double clearanceM) {
    double axleLb = axleKg * LB_PER_KG;
    double widthIn = wheelWidthM * IN_PER_M;
    double pressure = axleLb / (widthIn * wheelRadiusM * IN_PER_M * 2);
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
