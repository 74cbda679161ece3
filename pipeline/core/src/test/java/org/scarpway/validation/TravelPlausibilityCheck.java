package org.scarpway.validation;

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

/**
 * What the model makes of the shipped rover and walker on level ground against rules of thumb of
 * crewed traverse planning. The rules are round numbers for vehicles of their kind, so each is held
 * to the order of magnitude: half as much again or half as little, set before anything was
 * computed. Two further rules, three to four short walks a day and ten minutes from decision to
 * boots on the ground, say nothing that the model computes and have no check.
 */
class TravelPlausibilityCheck {
  private static final String PRACTICE = "common practice, no source";
  private static final double ORDER = 0.5;

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
    near(id, check, PRACTICE, "P", rule, got, ORDER * rule);
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
  void thousandKilometresInTwoWeeks() {
    order(
        "5.2-practice-two-weeks-km",
        "km of the rover on level soil in 14 days of 7 h, the length of a suited day",
        1000,
        roverKmH() * 7 * 14);
  }

  @Test
  void withoutSecondVehicleWithinWalkingDistance() {
    Walker w = WalkerReader.read(config("walkers/suited-lunar.yaml"));
    double walkKmH = 3.6 * new WalkSpeeds(w, Body.MOON).speedMs(0);
    double driveKmH = roverKmH();
    double hours = w.enduranceH() - w.reserveH();
    order(
        "6.3-practice-walking-distance-km",
        "km from home at which the walk back from a dead rover uses up supplies less reserve",
        10,
        hours * driveKmH * walkKmH / (driveKmH + walkKmH));
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
