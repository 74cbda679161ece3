package org.scarpway.vehicle;

/**
 * Whether ground bears a vehicle by its cone index ({@link ConeIndex}).
 *
 * @param rating rating cone index of the ground
 * @param once vehicle cone index for one pass
 * @param often the same for fifty
 * @param needed that of the two which the ground must have
 */
record ConeBearing(double rating, double once, double often, double needed) {

  /** Null on ground without a cone index. */
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
   * A larger mobility index never needs less: the published upper branches begin below the lower.
   */
  private static double wheeled1(double mi, double tyres) {
    double vci = ConeIndex.wheeled1(mi, tyres);
    return mi <= ConeIndex.BRANCH
        ? vci
        : Math.max(vci, ConeIndex.wheeled1(ConeIndex.BRANCH, tyres));
  }

  /** The same; stiff tyres count against it, while soft ones are not known to help. */
  private static double wheeled50(double mi, double tyres) {
    double vci = ConeIndex.wheeled50(mi);
    double held =
        mi <= ConeIndex.BRANCH ? vci : Math.max(vci, ConeIndex.wheeled50(ConeIndex.BRANCH));
    return held * Math.max(1, tyres);
  }

  /** Whether the ground bears the vehicle once, but not fifty times. */
  boolean wearsOut() {
    return rating < often;
  }

  /**
   * Share of the speed that the ground leaves, 0 where it just bears the vehicle once, 1 where it
   * does so fifty times: (RCI - VCI1) / (VCI50 - VCI1), the soil factor of the method for
   * cross-country movement (one public code; field manual FM 5-33).
   */
  double speedShare() {
    return Math.max(0, Math.min(1, (rating - once) / (often - once)));
  }
}
