package org.scarpway.vehicle;

import java.util.List;

/** Vehicles for tests. */
final class Vehicles {
  private Vehicles() {}

  static final Soil LUNAR =
      VehicleParts.soil(
          "lunar", new Soil.Bekker(1, 1400, 820_000), new Soil.Shear(170, 35, 0.0178), null);

  /** Only a body, slope limits and a speed. */
  static Vehicle plain(Double climbDeg, Double descendDeg, Double sideDeg) {
    return new Vehicle(
        "plain",
        "",
        null,
        new Vehicle.Chassis(3, 2, 0.4, null, null, null),
        null,
        new Vehicle.Limits(climbDeg, descendDeg, sideDeg, null, null),
        null,
        VehicleParts.drive(3, null, null, null, null, null, null),
        null,
        null,
        null);
  }

  /** Only a body and a step limit. */
  static Vehicle withStep(double stepM) {
    return new Vehicle(
        "step",
        "",
        null,
        new Vehicle.Chassis(3, 2, 0.4, null, null, null),
        null,
        new Vehicle.Limits(null, null, null, stepM, null),
        null,
        VehicleParts.drive(3, null, null, null, null, null, null),
        null,
        null,
        null);
  }

  /** Every block given. */
  static Vehicle full(
      double massKg,
      double climbDeg,
      double sideDeg,
      double stepM,
      double tipMarginDeg,
      Soil soil) {
    return new Vehicle(
        "full",
        "",
        massKg,
        new Vehicle.Chassis(4.6, 3.2, 0.42, 0.6, 0.6, 1.3),
        VehicleParts.wheels(List.of(1.7, 0.0, -1.7), 2.6, 0.45, 0.35),
        new Vehicle.Limits(climbDeg, climbDeg, sideDeg, stepM, tipMarginDeg),
        VehicleParts.slowFrom(12.0, 0.15, 0.10),
        VehicleParts.drive(4.2, 0.8, 9000.0, 0.65, 0.2, 1800.0, 0.12),
        soil,
        160.0,
        VehicleParts.crew(2, 4, 72.0));
  }

  /** The same with a track for each axle. */
  static Vehicle onTracks(Vehicle v, Double... tracksM) {
    Vehicle.Wheels w = v.wheels();
    return new Vehicle(
        v.name(),
        "",
        v.massKg(),
        v.body(),
        VehicleParts.wheels(w.axlesM(), List.of(tracksM), w.radiusM(), w.widthM()),
        v.limits(),
        v.slowFrom(),
        v.drive(),
        v.soil(),
        v.batteryKwh(),
        v.crew());
  }

  /** The same with another power. */
  static Vehicle powered(Vehicle v, double powerW) {
    Vehicle.Drive d = v.drive();
    return with(
        v,
        v.slowFrom(),
        VehicleParts.drive(
            d.speedMs(),
            d.crawlMs(),
            powerW,
            d.efficiency(),
            d.regeneration(),
            d.hotelW(),
            d.rolling(),
            d.turnRadiusM(),
            d.passes(),
            d.mobilityIndex(),
            d.tracked()));
  }

  /** The same, slow from elsewhere on. */
  static Vehicle slowFrom(Vehicle v, Vehicle.SlowFrom slowFrom) {
    return with(v, slowFrom, v.drive());
  }

  private static Vehicle with(Vehicle v, Vehicle.SlowFrom slowFrom, Vehicle.Drive drive) {
    return new Vehicle(
        v.name(),
        "",
        v.massKg(),
        v.body(),
        v.wheels(),
        v.limits(),
        slowFrom,
        drive,
        v.soil(),
        v.batteryKwh(),
        v.crew());
  }

  static Vehicle full() {
    return full(4200, 20, 15, 0.3, 5, null);
  }
}
