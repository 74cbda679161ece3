package org.scarpway.vehicle;

/**
 * Motion resistance and thrust of wheels on ground with a cone index, as shares of the wheel's
 * load.
 *
 * <p>No relation of pull to the excess of RCI over VCI was found in print, only relations for
 * single wheels by the cone index itself: of {@link WismerLuth} and {@link GeeClough} the larger
 * resistance and the smaller pull count. By the definition of VCI nothing is left to climb with
 * where RCI is just VCI. So much is taken off the index of the ground that the relations leave no
 * pull at VCI, where they would (own choice, on the safe side): all pull comes from the excess.
 *
 * <p>Held to what the relations were made for: width counts up to 0.3 of the diameter, deflection
 * up to 0.2 of the section height, numerics up to 50 (own choices; softer ground needs none, where
 * the relations themselves let pull vanish). Tracks count as the wheels that they run on, which
 * sink more. The rating cone index stands for the cone index: what a wheel meets is remoulded.
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
   * @param axleN loads on the level
   */
  ConeTraction(Vehicle.Wheels wheels, ConeBearing bearing, double[] axleN) {
    diameterM = 2 * wheels.radiusM();
    widthM = Math.min(wheels.widthM(), WIDEST * diameterM);
    deflectionShare = Math.min(wheels.deflectionShare(), SOFTEST_TYRE);
    double neededPa = bearing.needed() * PA_PER_UNIT;
    double excessPa = bearing.rating() * PA_PER_UNIT - neededPa;
    double nonePa = Math.min(neededPa, leastPa(axleN));
    // Ground far too soft is shut; its figures stay finite.
    conePa = Math.max(0.1 * nonePa, nonePa + excessPa);
  }

  /** Motion resistance of a wheel over its load. */
  double resistance(double wheelN) {
    return resistance(conePa, wheelN);
  }

  /** Thrust of a wheel over its load. */
  double thrust(double wheelN, double slip) {
    return thrust(conePa, wheelN, slip);
  }

  /** Cone index at which the relations leave no pull on the level. */
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
