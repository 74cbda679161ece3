package org.scarpway.vehicle;

import java.util.Arrays;

/**
 * All wheels of a vehicle on one soil: motion resistance, thrust (N) and slip (dimensionless) as
 * functions of the angle of the ground along the heading (rad, uphill positive), with all wheels at
 * the same slip. With a soil the resistance is Bekker-Wong compaction per axle, increased by slip
 * sinkage ({@link SlipSinkage}), and the thrust is Janosi-Hanamoto shear over the rigid wheel's
 * contact arc at rest or the flexible wheel's contact patch. On soil with a cone index both follow
 * from the index ({@link ConeTraction}); if both models are given, the larger resistance and the
 * smaller thrust are used. Without either the resistance is the rolling coefficient times the
 * normal load, and thrust has no limit. Bulldozing and the multi-pass effect are not modelled.
 */
final class WheelsOnGround {
  /** Number of slips at which the pull is evaluated: it rises with slip and may fall again. */
  private static final int LOOKS = 60;

  private final Vehicle.Wheels wheels;
  private final double weightN;
  private final double rolling;
  private final double cgHeightM;
  private final Soil.Bekker bekker;
  private final Soil.Shear shear;
  private final ConeTraction cone;

  // Per axle, for the last requested shares of the weight normal to and along the ground.
  private double normal01 = Double.NaN;
  private double along01 = Double.NaN;
  private final double[] loadN;
  private final double[] sinkageM;
  private final double[] contactM;
  private final double[] lightness;

  /** Per wheel: resistance at rest, resistance by the cone index, thrust at full shear (N). */
  private final double[] rutN;

  private final double[] coneN;
  private final double[] fullN;

  WheelsOnGround(Vehicle vehicle, double gravityMs2) {
    wheels = vehicle.wheels();
    Soil soil = vehicle.soil();
    weightN = vehicle.massKg() == null ? 0 : vehicle.massKg() * gravityMs2;
    Double given = vehicle.drive().rolling();
    rolling = given == null ? 0 : given;
    bekker = soil == null ? null : soil.bekker();
    shear = soil == null ? null : soil.shear();
    Double height = vehicle.body() == null ? null : vehicle.body().cgHeightM();
    cgHeightM = height == null ? 0 : height;
    int axles = wheels == null ? 0 : wheels.axlesM().size();
    loadN = new double[axles];
    sinkageM = new double[axles];
    contactM = new double[axles];
    lightness = new double[axles];
    rutN = new double[axles];
    coneN = new double[axles];
    fullN = new double[axles];
    ConeBearing bearing = ConeBearing.of(vehicle);
    if (bearing == null) {
      cone = null;
    } else {
      AxleLoads.fill(wheels.axlesM(), cgHeightM, weightN, 0, loadN);
      cone = new ConeTraction(wheels, bearing, loadN);
    }
  }

  double weightN() {
    return weightN;
  }

  /** True if the ground limits the thrust. */
  boolean grips() {
    return shear != null || cone != null;
  }

  double resistanceN(double angle, double slip) {
    if (bekker == null && cone == null) {
      return rolling * weightN * Math.cos(angle);
    }
    stand(angle);
    return resistanceN(slip);
  }

  private double resistanceN(double slip) {
    double sum = 0;
    for (int i = 0; i < loadN.length; i++) {
      double rut = bekker == null ? rutN[i] : rutN[i] * Math.sqrt(deeper(i, slip));
      sum += 2 * Math.max(rut, coneN[i]);
    }
    return sum;
  }

  /**
   * Resistance plus thrust at one slip that is certain to be available for braking (N); infinite
   * without a limit. Load transfer may increase both, so the smallest value of three load
   * distributions is used: with load transfer, without it, and evenly shared. A higher centre of
   * gravity thus never helps to hold a vehicle.
   */
  double holdN(double angle, double slip) {
    if (!grips()) {
      return Double.POSITIVE_INFINITY;
    }
    double least = Double.POSITIVE_INFINITY;
    for (Shift shift : Shift.values()) {
      stand(Math.cos(angle), Math.sin(angle), shift);
      least = Math.min(least, restingN() + thrustN(slip));
    }
    return least;
  }

  /**
   * Resistance (N) at rest. The cone index contributes none, since its relations are chosen for the
   * highest resistance.
   */
  private double restingN() {
    if (bekker == null) {
      return rolling * weightN * normal01;
    }
    double sum = 0;
    for (double wheelN : rutN) {
      sum += 2 * wheelN;
    }
    return sum;
  }

  /** Thrust at one slip of all wheels; infinite without a limit. */
  double thrustN(double angle, double slip) {
    if (!grips()) {
      return Double.POSITIVE_INFINITY;
    }
    stand(angle);
    return thrustN(slip);
  }

  private double thrustN(double slip) {
    double sum = 0;
    for (int i = 0; i < loadN.length; i++) {
      double wheelN = loadN[i] / 2;
      double most = cone == null ? Double.POSITIVE_INFINITY : wheelN * cone.thrust(wheelN, slip);
      if (shear != null) {
        most = Math.min(most, fullN[i] * JanosiShear.share(slip, contactM[i], shear.kM()));
      }
      sum += 2 * most;
    }
    return sum;
  }

  private double deeper(int axle, double slip) {
    return SlipSinkage.factorOf(slip, lightness[axle]);
  }

  double pullN(double angle, double slip) {
    return thrustN(angle, slip) - resistanceN(angle, slip);
  }

  /** Largest pull (N) at any usable slip. */
  double mostPullN(double angle) {
    double most = Double.NEGATIVE_INFINITY;
    for (int i = 0; i <= LOOKS; i++) {
      most = Math.max(most, pullN(angle, look(i)));
    }
    return most;
  }

  /**
   * True if the wheels drive at some usable slip while they also hold the load across the heading,
   * with both together within their grip: (W a + R)2 + W2 (1 - n2 - a2) within the square of the
   * thrust.
   *
   * @param normal share n of the weight normal to the ground
   * @param along share a of the weight against the heading
   */
  boolean driveAcross(double normal, double along) {
    stand(normal, along);
    for (int i = 0; i <= LOOKS; i++) {
      double thrustN = thrustN(look(i));
      if (askedN2(resistanceN(look(i)), normal, along) <= thrustN * thrustN) {
        return true;
      }
    }
    return false;
  }

  /**
   * Like {@link #driveAcross} for wheels that hold the vehicle back, with the forces of {@link
   * #holdN}.
   */
  boolean holdAcross(double normal, double along) {
    for (Shift shift : Shift.values()) {
      stand(normal, along, shift);
      double gripN = thrustN(Slip.USABLE);
      if (askedN2(restingN(), normal, along) > gripN * gripN) {
        return false;
      }
    }
    return true;
  }

  private double askedN2(double resistanceN, double normal, double along) {
    double weights = weightN * weightN * (1 - normal * normal);
    return weights + resistanceN * (resistanceN + 2 * along * weightN);
  }

  /** Smallest resistance as a share of the weight. */
  double resting01(double normal) {
    stand(normal, 0, Shift.EVEN);
    return restingN() / weightN;
  }

  /**
   * Least slip at which the wheels drive, 0 without a limit to thrust; infinite where no usable
   * slip suffices.
   */
  double drivingSlip(double angle) {
    if (!grips()) {
      return 0;
    }
    double needed = weightN * Math.sin(angle);
    for (int i = 0; i <= LOOKS; i++) {
      if (pullN(angle, look(i)) >= needed) {
        double low = look(Math.max(0, i - 1));
        double high = look(i);
        for (int halving = 0; halving < 35; halving++) {
          double mid = 0.5 * (low + high);
          if (pullN(angle, mid) < needed) {
            low = mid;
          } else {
            high = mid;
          }
        }
        return high;
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  private static double look(int i) {
    return Slip.USABLE * i / LOOKS;
  }

  /**
   * Slip at which the wheels hold a braking force, 0 without a limit; infinite if full slip does
   * not suffice.
   */
  double brakingSlip(double angle, double neededN) {
    if (!grips() || neededN <= 0) {
      return 0;
    }
    if (thrustN(angle, 1) < neededN) {
      return Double.POSITIVE_INFINITY;
    }
    double low = 0;
    double high = 1;
    for (int i = 0; i < 50; i++) {
      double mid = 0.5 * (low + high);
      if (thrustN(angle, mid) < neededN) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return high;
  }

  /** Sinkage (m) of the deepest wheel, 0 without a sinkage law. */
  double sinkageM(double angle, double slip) {
    if (bekker == null) {
      return 0;
    }
    stand(angle);
    double deepest = 0;
    for (int i = 0; i < loadN.length; i++) {
      deepest = Math.max(deepest, sinkageM[i] * deeper(i, slip));
    }
    return deepest;
  }

  /** Distribution of the load over the axles on a slope. */
  private enum Shift {
    AS_SHIFTED,
    WITHOUT,
    EVEN
  }

  private void stand(double angle) {
    stand(Math.cos(angle), Math.sin(angle));
  }

  private void stand(double normal, double along) {
    if (normal != normal01 || along != along01) {
      stand(normal, along, Shift.AS_SHIFTED);
      along01 = along;
    }
  }

  private void stand(double normal, double along, Shift shift) {
    normal01 = normal;
    // The cached loads are those with load transfer only.
    along01 = Double.NaN;
    double shiftingN = shift == Shift.AS_SHIFTED ? along * weightN : 0;
    if (shift == Shift.EVEN) {
      Arrays.fill(loadN, weightN * normal / loadN.length);
    } else {
      AxleLoads.share(wheels.axlesM(), cgHeightM, weightN * normal, shiftingN, loadN);
    }
    press();
  }

  /** Computes resistance, contact and full thrust from the loads. */
  private void press() {
    double widthM = wheels.widthM();
    for (int i = 0; i < loadN.length; i++) {
      double wheelN = loadN[i] / 2;
      sinkageM[i] =
          bekker == null ? 0 : BekkerSinkage.wheelM(bekker, widthM, 2 * wheels.radiusM(), wheelN);
      rutN[i] =
          bekker == null
              ? rolling * wheelN
              : CompactionResistance.newtons(bekker, widthM, sinkageM[i]);
      coneN[i] = cone == null ? 0 : wheelN * cone.resistance(wheelN);
      contactM[i] =
          wheels.contactM() == null
              ? BekkerSinkage.contactLengthM(wheels.radiusM(), sinkageM[i])
              : wheels.contactM();
      fullN[i] = shear == null ? 0 : JanosiShear.fullN(shear, widthM * contactM[i], wheelN);
      lightness[i] = SlipSinkage.lightness(wheelN);
    }
  }
}
