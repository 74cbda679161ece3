package org.scarpway.vehicle;

import java.util.Arrays;

/**
 * All wheels of a vehicle on one ground: motion resistance, thrust and slip (N, 1) against the
 * angle of the ground along the heading (rad, uphill positive), all wheels at one slip. With a soil
 * the resistance is Bekker-Wong compaction per axle, more with the slip ({@link SlipSinkage}), the
 * thrust Janosi-Hanamoto shear over the rigid wheel's contact arc at rest or the flexible wheel's
 * contact patch. On ground with a cone index both follow from that ({@link ConeTraction}); where
 * both are given, the larger resistance and the smaller thrust. Without either the resistance is
 * the rolling coefficient times the normal load, and thrust has no limit. Bulldozing and the
 * multi-pass effect are not modelled.
 */
final class WheelsOnGround {
  /** Slips at which the pull is looked at: with slip it rises, and may fall again. */
  private static final int LOOKS = 60;

  private final Vehicle.Wheels wheels;
  private final double weightN;
  private final double rolling;
  private final double cgHeightM;
  private final Soil.Bekker bekker;
  private final Soil.Shear shear;
  private final ConeTraction cone;

  // Per axle, for the shares of the weight across and along the ground that were asked for last.
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

  /** Whether there is a limit to what the ground takes up. */
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
   * Resistance and thrust at one slip that are sure to help braking; infinite without a limit.
   * Shifting load may add to both, so the least counts of loads as they shift, as they lie without
   * shift and evenly shared: a higher centre of gravity never holds a vehicle.
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

  /** At rest, and none by the cone index, whose relations are taken where they resist most. */
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

  /** Most pull at any usable slip. */
  double mostPullN(double angle) {
    double most = Double.NEGATIVE_INFINITY;
    for (int i = 0; i <= LOOKS; i++) {
      most = Math.max(most, pullN(angle, look(i)));
    }
    return most;
  }

  /**
   * Whether the wheels drive at some usable slip while they bear the load across the heading, the
   * two together within their grip: (W a + R)2 + W2 (1 - n2 - a2) within the square of the thrust.
   *
   * @param normal share n of the weight that presses on the ground
   * @param along share a that pulls against the heading
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

  /** The same for wheels that hold the vehicle back, as {@link #holdN} takes them. */
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

  /** Share of the weight that resists at least. */
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

  /** Slip that holds a force, 0 without a limit; infinite where full slip does not. */
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

  /** Deepest wheel (m), 0 without a sinkage law. */
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

  /** How the axles share the load of a slope. */
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
    // Only loads as they shift are those of what was asked for last.
    along01 = Double.NaN;
    double shiftingN = shift == Shift.AS_SHIFTED ? along * weightN : 0;
    if (shift == Shift.EVEN) {
      Arrays.fill(loadN, weightN * normal / loadN.length);
    } else {
      AxleLoads.share(wheels.axlesM(), cgHeightM, weightN * normal, shiftingN, loadN);
    }
    press();
  }

  /** What the loads do to the ground. */
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
