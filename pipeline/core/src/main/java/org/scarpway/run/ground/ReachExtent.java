package org.scarpway.run.ground;

import org.scarpway.config.Job;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.Reserves;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.Walker;

/**
 * About how far from its base a reach question looks, before anything is known of the ground: how
 * far its limits suffice on easy ground. An estimate for times and sizes only.
 *
 * @param timeM radius (m) that the time suffices for, as the others infinite without a limit
 * @param energyM radius (m) that the energy suffices for
 * @param distanceM radius (m) that the distance driven suffices for
 */
public record ReachExtent(
    GridSpec spec, double xM, double yM, double timeM, double energyM, double distanceM) {
  /** Share of the rated speed that vehicles make good in a straight line on mild ground. */
  private static final double MADE_GOOD = 0.8;

  /** Speed (m/s) that a walker in a suit makes good. */
  private static final double WALKED_MS = 0.8;

  /** Motion resistance where the vehicle states none. */
  private static final double ROLLING = 0.15;

  /** Fronts cover the radius of the time and so much more as a margin. */
  private static final double MARGIN = 1.05;

  /** Share of the ground from which fronts are completed over all of it. */
  private static final double MOST = 0.45;

  /** Ratio of radii up to which the wider limit binds somewhere too. */
  private static final double SOMEWHERE = 1.4;

  private static final double SECONDS_PER_HOUR = 3600;

  private static final double JOULES_PER_KWH = 3.6e6;

  /** The extent of a question of a job. */
  public static ReachExtent of(Job job, GridSpec spec, Places places, Job.ReachEntry r) {
    Places.Spot base = places.stop(r.from(), r.where());
    return of(job, spec, base.xM(), base.yM(), r);
  }

  /** The extent of a question asked from the middle of the ground: at least as many cells. */
  static ReachExtent amid(Job job, GridSpec spec, Job.ReachEntry r) {
    double xM = 0.5 * (spec.westM() + spec.eastM());
    double yM = 0.5 * (spec.southM() + spec.northM());
    return of(job, spec, xM, yM, r);
  }

  private static ReachExtent of(Job job, GridSpec spec, double xM, double yM, Job.ReachEntry r) {
    if (r.beyondBudget()) {
      double all = Double.POSITIVE_INFINITY;
      return new ReachExtent(spec, xM, yM, all, all, all);
    }
    Vehicle v = JobVehicles.vehicle(job, r.vehicle());
    double ways = r.home() == HomeRule.NONE ? 1 : 2;
    double wayM = Math.max(0, timeS(v, r) - r.stayS()) * MADE_GOOD * v.drive().speedMs() / ways;
    if (r.home() == HomeRule.WALK_BACK && job.walker() != null) {
      wayM = Math.min(wayM, walkM(JobVehicles.walker(job, r)));
    }
    return new ReachExtent(
        spec,
        xM,
        yM,
        wayM,
        energyWayM(job, r, v) / ways,
        Reserves.less(orEndless(r.budget().distanceM()), r.reserves().distancePct()) / ways);
  }

  private static double timeS(Vehicle v, Job.ReachEntry r) {
    Reserves kept = r.reserves();
    double timeS = Reserves.less(orEndless(r.budget().timeS()), kept.timePct());
    timeS =
        Math.min(timeS, Reserves.less(orEndless(r.budget().lifeSupportS()), kept.lifeSupportPct()));
    if (v.crew() != null && v.crew().lifeSupportH() != null) {
      double supplyS = v.crew().lifeSupportH() * SECONDS_PER_HOUR;
      timeS = Math.min(timeS, Reserves.less(supplyS, kept.lifeSupportPct()));
    }
    return timeS;
  }

  private static double walkM(Walker walker) {
    double walkM =
        WALKED_MS * SECONDS_PER_HOUR * Math.max(0, walker.enduranceH() - walker.reserveH());
    return walker.maxWalkKm() == null ? walkM : Math.min(walkM, 1000 * walker.maxWalkKm());
  }

  private static double energyWayM(Job job, Job.ReachEntry r, Vehicle v) {
    Vehicle.Drive drive = v.drive();
    Double energyJ = r.budget().energyJ();
    if (v.batteryKwh() != null) {
      double chargeJ = v.batteryKwh() * JOULES_PER_KWH;
      energyJ = energyJ == null ? chargeJ : Math.min(energyJ, chargeJ);
    }
    if (energyJ == null || v.massKg() == null || drive.efficiency() == null) {
      return Double.POSITIVE_INFINITY;
    }
    double gravityMs2 = job.dem().body().gravityMs2();
    double perM = v.massKg() * gravityMs2 * rolling(v) / drive.efficiency();
    perM += (drive.hotelW() == null ? 0 : drive.hotelW()) / (MADE_GOOD * drive.speedMs());
    return Reserves.less(energyJ, r.reserves().energyPct()) / perM;
  }

  static double rolling(Vehicle v) {
    return v.drive().rolling() == null ? ROLLING : v.drive().rolling();
  }

  private static double orEndless(Double limit) {
    return limit == null ? Double.POSITIVE_INFINITY : limit;
  }

  /** Number of cells that all limits suffice for. */
  public double cells() {
    return cellsWithin(spec, xM, yM, Math.min(timeM, Math.min(energyM, distanceM)));
  }

  /** Number of cells that fronts cover: those that the time suffices for, or all. */
  public double frontCells() {
    double cells = cellsWithin(spec, xM, yM, MARGIN * timeM);
    return cells > MOST * spec.cells() ? spec.cells() : cells;
  }

  /** Number of cells that fronts of other quantities than time cover. */
  public double otherFrontCells() {
    // A way may use up a limit by itself.
    double oneWayM = 2 * MARGIN * Math.min(energyM, distanceM);
    return Math.min(frontCells(), cellsWithin(spec, xM, yM, oneWayM));
  }

  /**
   * Number of cells that files hold values of where so many are covered: labels by tiles, sums by
   * rows, about half of the bytes each.
   */
  double filedCells(double covered) {
    // The rows of a circle of that area.
    double rows = 2 * Math.sqrt(covered / Math.PI);
    return 0.5 * (covered + Math.min(spec.cells(), rows * spec.cols()));
  }

  /** True if another limit than the time binds somewhere. */
  public boolean othersBind() {
    double other = Math.min(energyM, distanceM);
    return other < SOMEWHERE * timeM;
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
