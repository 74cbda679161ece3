package org.scarpway.vehicle;

/**
 * All wheels of a vehicle on one ground: motion resistance, thrust and slip (N, 1) against the
 * angle of the ground along the heading (rad, uphill positive). With a soil the resistance is
 * Bekker-Wong compaction per axle, the thrust Janosi-Hanamoto shear over the rigid wheel's contact
 * arc or the flexible wheel's contact patch, all wheels at one slip. Without one it is the rolling
 * coefficient times the normal load and thrust has no limit. Bulldozing, slip sinkage and the
 * multi-pass effect are not modelled.
 */
final class WheelsOnGround {
  private final Vehicle vehicle;
  private final double weightN;
  private final double rolling;
  private final double cgHeightM;
  private final Soil.Bekker bekker;
  private final Soil.Shear shear;
  private final double[] loadN;

  WheelsOnGround(Vehicle vehicle, double gravityMs2) {
    this.vehicle = vehicle;
    Soil soil = vehicle.soil();
    weightN = vehicle.massKg() == null ? 0 : vehicle.massKg() * gravityMs2;
    Double given = vehicle.drive().rolling();
    rolling = given == null ? 0 : given;
    bekker = soil == null ? null : soil.bekker();
    shear = soil == null ? null : soil.shear();
    Double height = vehicle.body() == null ? null : vehicle.body().cgHeightM();
    cgHeightM = height == null ? 0 : height;
    loadN = new double[vehicle.wheels() == null ? 0 : vehicle.wheels().axlesM().size()];
  }

  double weightN() {
    return weightN;
  }

  double resistanceN(double angleRad) {
    if (bekker == null) {
      return rolling * weightN * Math.cos(angleRad);
    }
    share(angleRad);
    double sum = 0;
    for (double axleN : loadN) {
      sum +=
          2 * CompactionResistance.newtons(bekker, vehicle.wheels().widthM(), sinkageM(axleN / 2));
    }
    return sum;
  }

  /** Thrust at one slip of all wheels; infinite without a shear law. */
  double thrustN(double angleRad, double slip) {
    if (shear == null) {
      return Double.POSITIVE_INFINITY;
    }
    share(angleRad);
    return thrust(slip);
  }

  /** Slip that gives a thrust, 0 without a shear law; infinite where full slip does not. */
  double slipFor(double angleRad, double neededN) {
    if (shear == null || neededN <= 0) {
      return 0;
    }
    share(angleRad);
    if (thrust(1) < neededN) {
      return Double.POSITIVE_INFINITY;
    }
    double low = 0;
    double high = 1;
    for (int i = 0; i < 50; i++) {
      double mid = 0.5 * (low + high);
      if (thrust(mid) < neededN) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return high;
  }

  /** Deepest wheel (m) on the level, 0 without a soil. */
  double levelSinkageM() {
    if (bekker == null) {
      return 0;
    }
    share(0);
    double deepest = 0;
    for (double axleN : loadN) {
      deepest = Math.max(deepest, sinkageM(axleN / 2));
    }
    return deepest;
  }

  private void share(double angleRad) {
    AxleLoads.fill(vehicle.wheels().axlesM(), cgHeightM, weightN, angleRad, loadN);
  }

  private double sinkageM(double wheelN) {
    Vehicle.Wheels w = vehicle.wheels();
    return BekkerSinkage.wheelM(bekker, w.widthM(), 2 * w.radiusM(), wheelN);
  }

  private double thrust(double slip) {
    Vehicle.Wheels w = vehicle.wheels();
    double sum = 0;
    for (double axleN : loadN) {
      double wheelN = axleN / 2;
      double lengthM =
          w.contactM() == null
              ? BekkerSinkage.contactLengthM(w.radiusM(), sinkageM(wheelN))
              : w.contactM();
      sum += 2 * JanosiShear.thrustN(shear, w.widthM() * lengthM, lengthM, wheelN, slip);
    }
    return sum;
  }
}
