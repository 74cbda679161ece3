package org.scarpway.vehicle;

/**
 * Motion resistance and thrust of wheels on ground with a cone index, as shares of the wheel's
 * load.
 *
 * <p>No published relation between pull and the excess of RCI over VCI was found, only relations
 * for single wheels in terms of the cone index itself. The larger resistance and the smaller pull
 * of {@link WismerLuth} and {@link GeeClough} are used. By the definition of VCI there is no pull
 * left for climbing where RCI equals VCI. Where the relations would leave some, the index of the
 * ground is reduced until they give zero pull at VCI (own choice, on the safe side), so all pull
 * comes from the excess.
 *
 * <p>Inputs are clamped to the range of the relations: width to 0.3 of the diameter, deflection to
 * 0.2 of the section height, numerics to 50 (own choices; soft ground needs no lower clamp, since
 * there the relations themselves give no pull). Tracks are computed as the wheels that they run on,
 * which sink more. The rating cone index is used as the cone index, since a wheel meets remoulded
 * soil.
 */
final class ConeTraction {
  private static final double PA_PER_UNIT = 6894.757;
  private static final double WIDEST = 0.3;
  private static final double SOFTEST_TYRE = 0.2;
  private static final double FIRMEST = 50;

  private final double widthM;
  private final double diameterM;
  private final double deflectionShare;
  private final double conePa;

  /**
   * @param axleN axle loads on level ground (N)
   */
  ConeTraction(Vehicle.Wheels wheels, ConeBearing bearing, double[] axleN) {
    diameterM = 2 * wheels.radiusM();
    widthM = Math.min(wheels.widthM(), WIDEST * diameterM);
    deflectionShare = Math.min(wheels.deflectionShare(), SOFTEST_TYRE);
    double neededPa = bearing.needed() * PA_PER_UNIT;
    double excessPa = bearing.rating() * PA_PER_UNIT - neededPa;
    double nonePa = Math.min(neededPa, leastPa(axleN));
    // Ground that is far too soft is closed; its figures stay finite.
    conePa = Math.max(0.1 * nonePa, nonePa + excessPa);
  }

  /** Motion resistance of a wheel divided by its load. */
  double resistance(double wheelN) {
    return resistance(conePa, wheelN);
  }

  /** Thrust of a wheel divided by its load. */
  double thrust(double wheelN, double slip) {
    return thrust(conePa, wheelN, slip);
  }

  /** Cone index (Pa) at which the relations give zero pull on level ground. */
  private double leastPa(double[] axleN) {
    double low = 0;
    double high = 1000 * PA_PER_UNIT;
    for (int i = 0; i < 60; i++) {
      double mid = 0.5 * (low + high);
      if (mostPullN(mid, axleN) < 0) {
        low = mid;
      } else {
        high = mid;
      }
    }
    return high;
  }

  private double mostPullN(double pa, double[] axleN) {
    double pullN = 0;
    for (double n : axleN) {
      double wheelN = n / 2;
      pullN += n * (thrust(pa, wheelN, Slip.USABLE) - resistance(pa, wheelN));
    }
    return pullN;
  }

  private double resistance(double pa, double wheelN) {
    return Math.max(
        WismerLuth.resistance(numeric(pa, wheelN)), GeeClough.resistance(number(pa, wheelN)));
  }

  private double thrust(double pa, double wheelN, double slip) {
    double most = GeeClough.pull(number(pa, wheelN)) + resistance(pa, wheelN);
    return Math.max(0, Math.min(WismerLuth.gross(numeric(pa, wheelN), slip), most));
  }

  private double numeric(double pa, double wheelN) {
    return Math.min(FIRMEST, WismerLuth.numeric(pa, widthM, diameterM, wheelN));
  }

  private double number(double pa, double wheelN) {
    return GeeClough.mobilityNumber(pa, widthM, diameterM, wheelN, deflectionShare);
  }
}
