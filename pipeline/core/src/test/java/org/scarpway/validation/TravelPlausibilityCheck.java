package org.scarpway.validation;

import static org.scarpway.validation.Validation.holds;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.scarpway.config.VehicleReader;
import org.scarpway.config.WalkerReader;
import org.scarpway.grid.Body;
import org.scarpway.vehicle.DriveModel;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.WalkSpeeds;
import org.scarpway.vehicle.Walker;

/**
 * What the model makes of the shipped rover and walker on level ground beside rules of thumb of
 * crewed traverse planning, to a factor of two either way. The rules are round numbers for vehicles
 * of their kind, and the model's figures were known when the factor was chosen: a row shows that a
 * change has not made the shipped files implausible, it proves nothing. Two further rules, three to
 * four short walks a day and ten minutes from decision to boots on the ground, say nothing that the
 * model computes and have no check.
 */
class TravelPlausibilityCheck {
  private static final String PRACTICE = "common practice, no source";
  private static final double FACTOR = 2;

  private static Path config(String name) {
    Path here = Path.of("configs");
    return (Files.isDirectory(here) ? here : Path.of("../../configs")).resolve(name);
  }

  private static Vehicle rover() {
    return VehicleReader.read(config("vehicles/pressurised-rover.yaml"));
  }

  /** Speed of the rover on level soil, slip and power included (km/h). */
  private static double roverKmH() {
    return 3.6 * new DriveModel(rover(), Body.MOON.gravityMs2()).speedMs(0);
  }

  private static void order(String id, String check, double rule, double got) {
    String both =
        String.format(
            Locale.ROOT, "%s: rule %.4g, model %.4g, within a factor of two", check, rule, got);
    holds(id, both, PRACTICE, "P", got >= rule / FACTOR && got <= rule * FACTOR);
  }

  @Test
  void dayOfTheCrewAgainstYearsOfTheExplorer() {
    order(
        "5.2-practice-day-years",
        "years at 40 m/day for 24 h of the rover on level soil",
        24,
        roverKmH() * 24 * 1000 / 40 / 365.25);
  }

  @Test
  void withoutSecondVehicleWithinWalkingDistance() {
    Walker w = WalkerReader.read(config("walkers/suited-lunar.yaml"));
    order(
        "6.3-practice-walking-distance-km",
        "km that the suited walker covers on level ground within endurance less reserve",
        10,
        3.6 * new WalkSpeeds(w, Body.MOON).speedMs(0) * (w.enduranceH() - w.reserveH()));
  }

  /** Not a rule of thumb but a measured range; the walker's own limits keep it below the top. */
  @Test
  void suitedWalkerWithinMeasuredRates() {
    Walker w = WalkerReader.read(config("walkers/suited-lunar.yaml"));
    WalkSpeeds speeds = new WalkSpeeds(w, Body.MOON);
    double kjPerH = 3.6 * speeds.watts(0, speeds.speedMs(0));
    holds(
        "6.3-rate-range",
        String.format(
            Locale.ROOT,
            "the suited walker's %.0f kJ/h on the level lie within 490 to 2607 kJ/h",
            kjPerH),
        "rates of walks on the Moon, as published",
        "Vs",
        kjPerH >= 490 && kjPerH <= 2607);
  }

  @Test
  void withSecondVehicleTwoHundredAndFortyKilometres() {
    Vehicle v = rover();
    DriveModel drive = new DriveModel(v, Body.MOON.gravityMs2());
    double byBattery = v.batteryKwh() * 3.6e6 / drive.energyJPerM(0) / 2000;
    double byAir = v.crew().lifeSupportH() * roverKmH() / 2;
    order(
        "5.2-practice-pair-km",
        "km from base out and back on level soil within battery and life support of one rover",
        245,
        Math.min(byBattery, byAir));
  }
}
