package org.scarpway.vehicle;

import java.util.Locale;
import java.util.Optional;
import org.scarpway.grid.Body;

/**
 * Compares the rolling coefficient of a vehicle file, which is used where no soil is known, with
 * the motion resistance on the file's own soil on level ground without slip. A lower coefficient
 * overestimates the range where the soil is unknown.
 */
public final class RollingAgainstSoil {
  /** Tolerance of the comparison: coefficients are stated to two digits. */
  private static final double NEAR = 0.95;

  private RollingAgainstSoil() {}

  /** Returns a warning; empty if the coefficient is not lower, or one of the two is unknown. */
  public static Optional<String> note(Vehicle vehicle, Body body) {
    Soil soil = vehicle.soil();
    Vehicle.Drive drive = vehicle.drive();
    if (soil == null
        || soil.bekker() == null
        || drive == null
        || drive.rolling() == null
        || vehicle.massKg() == null
        || vehicle.wheels() == null) {
      return Optional.empty();
    }
    WheelsOnGround wheels = new WheelsOnGround(vehicle, body.gravityMs2());
    double given = drive.rolling();
    double ofSoil = wheels.resistanceN(0, 0) / wheels.weightN();
    return given >= NEAR * ofSoil
        ? Optional.empty()
        : Optional.of(
            String.format(
                Locale.ROOT,
                "%s: drive.rolling of %.3f is %.0f %% below the %.3f that its own soil gives on level"
                    + " ground here: the soil counts, but without it energies would look smaller than"
                    + " they are.",
                vehicle.name(),
                given,
                100 * (1 - given / ofSoil),
                ofSoil));
  }
}
