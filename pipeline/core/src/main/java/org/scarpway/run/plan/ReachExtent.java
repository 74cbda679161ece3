package org.scarpway.run.plan;

import org.scarpway.config.Job;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.Reserves;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.vehicle.Vehicle;

/**
 * About how many cells a reach question will look at, before anything is known of the ground: those
 * in the circle that its budget reaches on easy ground. An estimate for times and sizes only.
 */
final class ReachExtent {
  /** Share of the rated speed that vehicles make good in a straight line on mild ground. */
  private static final double MADE_GOOD = 0.85;

  /** Motion resistance where the vehicle states none. */
  private static final double ROLLING = 0.15;

  private static final double SECONDS_PER_HOUR = 3600;

  private ReachExtent() {}

  static double cells(OpenJob open, Job.ReachEntry r) {
    GridSpec spec = open.spec();
    double radiusM = r.beyondBudget() ? Double.POSITIVE_INFINITY : radiusM(open, r);
    Places.Spot base = open.places().stop(r.from(), r.where());
    return cellsWithin(spec, base.xM(), base.yM(), radiusM);
  }

  private static double radiusM(OpenJob open, Job.ReachEntry r) {
    Vehicle v = JobVehicles.vehicle(open.job(), r.vehicle());
    Reserves kept = r.reserves();
    double timeS = Reserves.less(orEndless(r.budget().timeS()), kept.timePct());
    timeS =
        Math.min(timeS, Reserves.less(orEndless(r.budget().lifeSupportS()), kept.lifeSupportPct()));
    if (v.crew() != null && v.crew().lifeSupportH() != null) {
      double supplyS = v.crew().lifeSupportH() * SECONDS_PER_HOUR;
      timeS = Math.min(timeS, Reserves.less(supplyS, kept.lifeSupportPct()));
    }
    double wayM = Math.max(0, timeS - r.stayS()) * MADE_GOOD * v.drive().speedMs();
    wayM = Math.min(wayM, Reserves.less(orEndless(r.budget().distanceM()), kept.distancePct()));
    wayM = Math.min(wayM, energyWayM(open, r, v));
    return r.home() == HomeRule.NONE ? wayM : wayM / 2;
  }

  private static double energyWayM(OpenJob open, Job.ReachEntry r, Vehicle v) {
    Vehicle.Drive drive = v.drive();
    if (r.budget().energyJ() == null || v.massKg() == null || drive.efficiency() == null) {
      return Double.POSITIVE_INFINITY;
    }
    double rolling = drive.rolling() == null ? ROLLING : drive.rolling();
    double gravityMs2 = open.job().dem().body().gravityMs2();
    double perM = v.massKg() * gravityMs2 * rolling / drive.efficiency();
    perM += (drive.hotelW() == null ? 0 : drive.hotelW()) / (MADE_GOOD * drive.speedMs());
    return Reserves.less(r.budget().energyJ(), r.reserves().energyPct()) / perM;
  }

  private static double orEndless(Double limit) {
    return limit == null ? Double.POSITIVE_INFINITY : limit;
  }

  /** Returns the number of cells of a grid in a circle, row by row. */
  static double cellsWithin(GridSpec spec, double xM, double yM, double radiusM) {
    if (radiusM == Double.POSITIVE_INFINITY) {
      return spec.cells();
    }
    double sum = 0;
    double eastM = spec.westM() + spec.cols() * spec.cellXM();
    for (int row = 0; row < spec.rows(); row++) {
      double dyM = spec.northM() - (row + 0.5) * spec.cellYM() - yM;
      double half = Math.sqrt(Math.max(0, radiusM * radiusM - dyM * dyM));
      double widthM = Math.min(eastM, xM + half) - Math.max(spec.westM(), xM - half);
      sum += Math.max(0, widthM) / spec.cellXM();
    }
    return Math.max(1, sum);
  }
}
