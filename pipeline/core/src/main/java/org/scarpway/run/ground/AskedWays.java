package org.scarpway.run.ground;

import org.scarpway.config.Job;
import org.scarpway.reach.trip.StoredWays;
import org.scarpway.vehicle.Vehicle;

/** The ways that a question of a job is expected to take, for estimates. */
public final class AskedWays {
  private AskedWays() {}

  /** The ways that the answer to a question is expected to take. */
  public static StoredWays of(Job job, Job.ReachEntry r, ReachExtent extent) {
    Vehicle v = JobVehicles.vehicle(job, r.vehicle());
    boolean hasEnergy = v.massKg() != null && v.drive().efficiency() != null;
    boolean energy = hasEnergy && (r.budget().energyJ() != null || v.batteryKwh() != null);
    boolean time =
        r.budget().timeS() != null || r.budget().lifeSupportS() != null || v.crew() != null;
    boolean gains = hasEnergy && gains(v, job.dem().body().gravityMs2());
    return StoredWays.of(
        r.home(),
        new StoredWays.Limits(
            time, energy, r.budget().distanceM() != null, hasEnergy, gains, extent.othersBind()));
  }

  /** True if braking on the steepest descent returns more than the cabin takes meanwhile. */
  private static boolean gains(Vehicle v, double gravityMs2) {
    Vehicle.Drive drive = v.drive();
    double share = drive.regeneration() == null ? 0 : drive.regeneration();
    double hotelW = drive.hotelW() == null ? 0 : drive.hotelW();
    Double limitDeg = v.limits() == null ? null : v.limits().descendDeg();
    double steepest = limitDeg == null ? 1 : Math.sin(Math.toRadians(limitDeg));
    double down = steepest - ReachExtent.rolling(v);
    return share * v.massKg() * gravityMs2 * down > hotelW / drive.speedMs();
  }
}
