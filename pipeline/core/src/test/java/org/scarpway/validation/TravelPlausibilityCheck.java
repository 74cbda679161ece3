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
    DriveModel drive = new DriveModel(rover(), Body.MOON.gravityMs2());
    double hoursADay = 1_000_000 / drive.speedMs(0) / 3600 / 14;
    holds(
        "5.2-practice-1000km",
        "1000 km in two weeks need fewer hours on level ground than the days have",
        PRACTICE,
        "P",
        hoursADay < 24);
  }

  @Test
  void withoutSecondVehicleWithinWalkingDistance() {
    Walker w = WalkerReader.read(config("walkers/suited-lunar.yaml"));
    double ms = new WalkSpeeds(w, Body.MOON).table().speedMs(0);
    holds(
        "6.3-practice-walk-home",
        "a walk of 10 km on level ground lies within supplies less reserve",
        PRACTICE,
        "P",
        ms * (w.enduranceH() - w.reserveH()) * 3.6 >= 10);
  }

  @Test
  void withSecondVehicleTwoHundredAndFortyKilometres() {
    Vehicle v = rover();
    DriveModel drive = new DriveModel(v, Body.MOON.gravityMs2());
    double hours = 2 * 240_000 / drive.speedMs(0) / 3600;
    holds(
        "5.2-practice-pair-supplies",
        "out to 240 km and home on level ground within the rover's life support",
        PRACTICE,
        "P",
        hours < v.crew().lifeSupportH());
  }
}
