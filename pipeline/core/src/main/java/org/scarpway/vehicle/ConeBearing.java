package org.scarpway.vehicle;

/**
 * Bearing check of ground for a vehicle by cone index ({@link ConeIndex}).
 *
 * @param rating rating cone index of the ground
 * @param once vehicle cone index for one pass, VCI1
 * @param often vehicle cone index for fifty passes, VCI50
 * @param needed the one of the two that the ground must reach
 */
record ConeBearing(double rating, double once, double often, double needed) {

  /** Returns the check of a vehicle on its soil; null if the soil has no cone index. */
  static ConeBearing of(Vehicle vehicle) {
    Soil soil = vehicle.soil();
    if (soil == null || soil.ratingConeIndex() == null) {
      return null;
    }
    Vehicle.Drive drive = vehicle.drive();
    double mi = drive.mobilityIndex() != null ? drive.mobilityIndex() : worstAxle(vehicle);
    double tyres = ConeIndex.deflectionFactor(vehicle.wheels().deflectionShare());
    double once = drive.tracked() ? ConeIndex.tracked1(mi) : wheeled1(mi, tyres);
    double often = drive.tracked() ? ConeIndex.tracked50(mi) : wheeled50(mi, tyres);
    return new ConeBearing(soil.ratingConeIndex(), once, often, drive.passes() > 1 ? often : once);
  }

  /** Largest mobility index of the axles, by their loads on the level. */
  private static double worstAxle(Vehicle v) {
    Vehicle.Wheels w = v.wheels();
    double[] axleKg = new double[w.axlesM().size()];
    AxleLoads.fill(w.axlesM(), 0, v.massKg(), 0, axleKg);
    double worst = Double.NEGATIVE_INFINITY;
    for (double kg : axleKg) {
      double mi = ConeIndex.mobilityIndex(kg, w.widthM(), w.radiusM(), v.body().clearanceM());
      worst = Math.max(worst, mi);
    }
    return worst;
  }

  /**
   * VCI1 made monotone: a larger mobility index never gives a smaller value, although the published
   * upper branches begin below the end of the lower ones.
   */
  private static double wheeled1(double mi, double tyres) {
    double vci = ConeIndex.wheeled1(mi, tyres);
    return mi <= ConeIndex.BRANCH
        ? vci
        : Math.max(vci, ConeIndex.wheeled1(ConeIndex.BRANCH, tyres));
  }

  /**
   * VCI50 made monotone likewise; stiff tyres raise it, but no source shows that soft tyres lower
   * it.
   */
  private static double wheeled50(double mi, double tyres) {
    double vci = ConeIndex.wheeled50(mi);
    double held =
        mi <= ConeIndex.BRANCH ? vci : Math.max(vci, ConeIndex.wheeled50(ConeIndex.BRANCH));
    return held * Math.max(1, tyres);
  }

  /** True if the ground bears one pass of the vehicle, but not fifty. */
  boolean wearsOut() {
    return rating < often;
  }

  /**
   * Soil factor on the speed: 0 where the ground just bears one pass, 1 where it bears fifty: (RCI
   * - VCI1) / (VCI50 - VCI1), the soil factor of the method for cross-country movement (one public
   * code; field manual FM 5-33).
   */
  double speedShare() {
    return Math.max(0, Math.min(1, (rating - once) / (often - once)));
  }
}
