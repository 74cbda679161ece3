package org.scarpway.run.ground;

import java.util.List;
import org.scarpway.config.Job;
import org.scarpway.hazard.RockBody;
import org.scarpway.vehicle.DriveModel;
import org.scarpway.vehicle.Soil;
import org.scarpway.vehicle.SoilMap;
import org.scarpway.vehicle.Vehicle;

/**
 * The strictest demands of several vehicles on the ground, for each figure the most demanding
 * vehicle: largest rock that can be straddled, swept width, steepest slope and highest step.
 * Roughness as large as the belly clearance leaves nothing to drive on.
 */
public record FleetEnvelope(
    double clearanceM,
    double swathM,
    double slopeDeg,
    double stepM,
    double turnM,
    double blockedDeg,
    double lengthM,
    RockBody rocks) {
  /**
   * Slope (deg) above which ground is a hazard even to vehicles that state no limit. Own choice.
   */
  private static final double STEEPEST_DEG = 45;

  /** Lower bound (m) on the rock height that belly and wheels can clear. */
  private static final double LOWEST_ROCK_M = 0.01;

  /**
   * @param job settings; its soils determine how deep the wheels may sink
   */
  public static FleetEnvelope of(Job job, List<Vehicle> vehicles) {
    double lengthM = 0;
    double bellyM = Double.POSITIVE_INFINITY;
    double wheelM = Double.POSITIVE_INFINITY;
    double wheelWidthM = 0;
    int paths = 0;
    double clearanceM = Double.POSITIVE_INFINITY;
    double swathM = 0;
    double slopeDeg = STEEPEST_DEG;
    double stepM = Double.POSITIVE_INFINITY;
    double turnM = 0;
    double blockedDeg = 90;
    for (Vehicle v : vehicles) {
      clearanceM = Math.min(clearanceM, v.body().clearanceM());
      swathM = Math.max(swathM, v.body().widthM());
      turnM = Math.max(turnM, Math.hypot(v.body().lengthM(), v.body().widthM()));
      lengthM = Math.max(lengthM, v.body().lengthM());
      double sinkageM = sinkageM(job, v);
      bellyM = Math.min(bellyM, Math.max(LOWEST_ROCK_M, v.body().clearanceM() - sinkageM));
      if (v.limits() != null && v.limits().stepM() != null) {
        wheelM = Math.min(wheelM, Math.max(LOWEST_ROCK_M, v.limits().stepM() - sinkageM));
      }
      // Without wheels in the file, a wheel may be anywhere under the vehicle.
      wheelWidthM =
          Math.max(wheelWidthM, v.wheels() == null ? v.body().widthM() : v.wheels().widthM());
      paths = Math.max(paths, v.wheels() == null ? 1 : paths(v.wheels()));
      if (v.limits() != null) {
        blockedDeg = Math.min(blockedDeg, v.limits().steepestDeg());
        slopeDeg = least(slopeDeg, v.limits().climbDeg());
        stepM = least(stepM, v.limits().stepM());
      }
    }
    RockBody rocks = new RockBody(swathM, bellyM, wheelM, wheelWidthM, paths);
    return new FleetEnvelope(
        clearanceM, swathM, slopeDeg, stepM, turnM, blockedDeg, lengthM, rocks);
  }

  private static int paths(Vehicle.Wheels wheels) {
    return 2 * (int) wheels.tracksM().stream().distinct().count();
  }

  /**
   * Returns the deepest sinkage (m) on level ground over the vehicle's own soil and those soils by
   * place that leave half of clearance and step. Softer soils are left out: they must not close
   * firm ground because of rocks, and are themselves closed wherever there are rocks.
   */
  private static double sinkageM(Job job, Vehicle v) {
    double gravityMs2 = job.dem().body().gravityMs2();
    double deepestM = new DriveModel(v, gravityMs2).sinkageM(0);
    if (job.soils() != null && SoilMap.bearsOn(v)) {
      for (Soil soil : SoilLayer.soils(job.soils())) {
        double sinkageM = new DriveModel(v.withSoil(soil), gravityMs2).sinkageM(0);
        if (SoilMap.leavesHalf(v, sinkageM)) {
          deepestM = Math.max(deepestM, sinkageM);
        }
      }
    }
    return deepestM;
  }

  private static double least(double a, Double b) {
    return b == null ? a : Math.min(a, b);
  }
}
