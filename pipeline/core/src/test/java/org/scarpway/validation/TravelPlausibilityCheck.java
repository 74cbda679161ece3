package org.scarpway.validation;

import static org.scarpway.validation.Validation.holds;
import static org.scarpway.validation.Validation.near;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.scarpway.config.VehicleReader;
import org.scarpway.config.WalkerReader;
import org.scarpway.grid.Body;
import org.scarpway.vehicle.DriveModel;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.WalkSpeeds;
import org.scarpway.vehicle.Walker;

/** The shipped vehicles and walkers against rules of thumb of crewed traverse planning. */
class TravelPlausibilityCheck {
  private static final String PRACTICE = "common practice, no source";

  private static Path config(String name) {
    Path here = Path.of("configs");
    return (Files.isDirectory(here) ? here : Path.of("../../configs")).resolve(name);
  }

  private static Vehicle rover() {
    return VehicleReader.read(config("vehicles/pressurised-rover.yaml"));
  }

  @Test
  void dayOfTheCrewAgainstYearsOfTheExplorer() {
    double dayM = rover().drive().speedMs() * 24 * 3600;
    near(
        "5.2-practice-day-years",
        "years at 40 m/day for one 24 h day at the shipped rover's rated speed",
        PRACTICE,
        "P",
        24,
        dayM / 40 / 365.25,
        1.5);
  }

  @Test
  void thousandKilometresInTwoWeeks() {
    Vehicle v = rover();
    DriveModel drive = new DriveModel(v, Body.MOON.gravityMs2());
    double hours = 1_000_000 / drive.speedMs(0) / 3600;
    near(
        "5.2-practice-1000km-h-a-day",
        "driving hours a day for 1000 km in 14 days on level ground, at most a shift",
        PRACTICE,
        "P",
        6,
        hours / 14,
        2);
    double charges = 1_000_000 * drive.energyJPerM(0) / (v.batteryKwh() * 3.6e6);
    holds(
        "5.2-practice-1000km-charge",
        "1000 km on level ground take no more than one charge a day",
        PRACTICE,
        "P",
        charges <= 14);
  }

  @Test
  void withoutSecondVehicleWithinWalkingDistance() {
    Walker w = WalkerReader.read(config("walkers/suited-lunar.yaml"));
    double ms = new WalkSpeeds(w, Body.MOON).table().speedMs(0);
    near(
        "6.3-practice-walk-home-km",
        "walk home on level ground within supplies less reserve (km), about 10 less what slopes"
            + " and windings take",
        PRACTICE,
        "P",
        14,
        ms * (w.enduranceH() - w.reserveH()) * 3.6,
        4.5);
  }

  @Test
  void withSecondVehicleTwoHundredAndFortyKilometres() {
    Vehicle v = rover();
    DriveModel drive = new DriveModel(v, Body.MOON.gravityMs2());
    double rangeM = v.batteryKwh() * 3.6e6 / drive.energyJPerM(0);
    double hours = 2 * 245_000 / drive.speedMs(0) / 3600;
    holds(
        "5.2-practice-pair-supplies",
        "out to 245 km and home on level ground within the rover's life support",
        PRACTICE,
        "P",
        hours < v.crew().lifeSupportH());
    holds(
        "5.2-practice-pair-one-way",
        "245 km one way on level ground within one charge",
        PRACTICE,
        "P",
        rangeM > 245_000);
  }

  @Test
  void shortWalksOfADay() {
    // Four walks of an hour with ten minutes to step out and ten back in leave a driving shift.
    double walksH = 4 * (1 + 2 * 10 / 60.0);
    double driveH = 1_000_000 / rover().drive().speedMs() / 3600 / 14;
    holds(
        "6.3-practice-walks-and-drive",
        "four short walks at ten minutes a change and 1000 km in two weeks fit a waking day",
        PRACTICE,
        "P",
        walksH + driveH < 14);
  }
}
