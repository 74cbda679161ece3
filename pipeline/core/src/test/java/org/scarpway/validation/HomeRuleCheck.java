package org.scarpway.validation;

import static org.scarpway.reach.front.Fields.grid;
import static org.scarpway.reach.front.Fields.level;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.Fields;
import org.scarpway.reach.question.Questions;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.reach.trip.ReachSolver;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.DriveModel;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.VehicleParts;

/**
 * Home rules at every place of a trip, on flat ground along a line where all of it is quotients: a
 * buggy of 3.3 m/s, a walker of 0.76 m/s, the base at 0. Lengths in km.
 */
class HomeRuleCheck {
  private static final double DRIVE_MS = 3.3;
  private static final double LOADED_MS = 2.2;
  private static final double WALK_MS = 0.76;
  private static final double TOLERANCE_KM = 0.021;
  private static final GridSpec LINE = grid(5, 700, 20, -10, -50);
  private static final Rescue RESCUE = new Rescue(1800, 900, 600, 180);
  private static final String OWN = "own derivation, the worst place of the way home";

  /**
   * Beyond half of the way to a refuge at 10 km the way home leads back past it: at x the crew is
   * home at x / vd + (x - 5) / vd + 5 / vw at the latest.
   */
  @Test
  void theWayHomeLeadsPastTheWorstPlace() {
    double mostS = 2.9 * 3600;
    double midwayS = 5000 / WALK_MS;
    near(
        "walk-back-home-leg",
        "T 2.9 h, refuge 10 km off: 2 x / vd - 5 / vd + 5 / vw = T",
        ((mostS - midwayS) * DRIVE_MS + 5000) / 2000,
        walkBackKm(new Budget(mostS, null, null), null, 0, Reserves.NONE));
    // Before the middle the walk leads back: x / vd + S + x / vw = L.
    double perKm = 1000 / DRIVE_MS + 1000 / WALK_MS;
    near(
        "walk-back-stay-life-support",
        "stay 6 h, life support 8 h, refuge 10 km off: x / vd + S + x / vw = L",
        2 * 3600 / perKm,
        walkBackKm(new Budget(null, null, null), 8.0, 6 * 3600, Reserves.NONE));
    near(
        "walk-back-life-support",
        "life support 2.1 h, refuge 10 km off: nothing beyond a place that is too far",
        2.1 * 3600 / perKm,
        walkBackKm(new Budget(null, null, null), 2.1, 0, Reserves.NONE));
    near(
        "walk-back-life-support-budget",
        "the same as a budget of the question",
        2.1 * 3600 / perKm,
        walkBackKm(new Budget(null, null, null, 2.1 * 3600), null, 0, Reserves.NONE));
    near(
        "walk-back-reserve",
        "T 2.9 h less a tenth",
        ((0.9 * mostS - midwayS) * DRIVE_MS + 5000) / 2000,
        walkBackKm(new Budget(mostS, null, null), null, 0, new Reserves(10, 10, 10, 10)));
  }

  @Test
  void ridesHome() {
    // x / vd + S + change + x / vl = T, for two crews x / vd + S + 2 (change + x / vl) = L.
    double perKm = 1000 / DRIVE_MS + 1000 / LOADED_MS;
    near(
        "pair-time",
        "pair, T 2 h, stay 10 min, change 15 min, home at 2.2 m/s",
        (7200 - 600 - 900) / perKm,
        km(HomeRule.PAIR, new Budget(7200.0, null, null), null, 600, Reserves.NONE));
    double twiceKm = 1000 / DRIVE_MS + 2 * 1000 / LOADED_MS;
    near(
        "pair-life-support",
        "pair, life support 2 h for two crews from the stop on",
        (7200 - 600 - 1800) / twiceKm,
        km(HomeRule.PAIR, new Budget(null, null, null), 2.0, 600, Reserves.NONE));
    // x / vd + S + alarm + x / vd + load + x / vl = L.
    double fetchKm = 2000 / DRIVE_MS + 1000 / LOADED_MS;
    near(
        "base-rescue",
        "base-rescue, life support 2 h, alarm 30 min, load 10 min",
        (7200 - 600 - 1800 - 600) / fetchKm,
        km(HomeRule.BASE_RESCUE, new Budget(null, null, null), 2.0, 600, Reserves.NONE));
    // Of the vehicle that comes: x / vd + 2 (load + x / vl) = L.
    near(
        "base-rescue-two-crews",
        "base-rescue, life support 2 h, no alarm, load 30 min, two crews from loading on",
        (7200 - 3600) / twiceKm,
        km(
            HomeRule.BASE_RESCUE,
            new Budget(null, null, null),
            2.0,
            0,
            Reserves.NONE,
            null,
            new Rescue(0, 0, 1800, 180)));
    near(
        "drive-back-reserve",
        "drive-back, T 1 h less a tenth, stay 10 min",
        (3240 - 600) * DRIVE_MS / 2000,
        km(
            HomeRule.DRIVE_BACK,
            new Budget(3600.0, null, null),
            null,
            600,
            new Reserves(10, 0, 0, 0)));
  }

  /** Two suited people of 180 kg: resistance in proportion to mass, hotel load over the speed. */
  @Test
  void twoMoreAboard() {
    double[][] rows = {{720, 0.6, 90, 3.3, 1400}, {4200, 0.65, 1800, 4.2, 9000}};
    for (double[] r : rows) {
      double massKg = r[0];
      double force = 0.12 * (massKg + 360) * 1.62;
      double speed = Math.min(r[3], r[4] * r[1] / force);
      Vehicle.Drive drive = VehicleParts.drive(r[3], null, r[4], r[1], 0.0, r[2], 0.12);
      Vehicle v =
          new Vehicle("v", "", massKg, null, null, null, null, drive, null, null, null)
              .withLoad(360);
      Validation.nearRel(
          "6.4-loaded-" + (int) massKg,
          "J/m on the level, " + (int) massKg + " kg and 360 kg more, rolling 0.12, Moon",
          "c m g / efficiency + hotel load / speed",
          "C",
          force / r[1] + r[2] / speed,
          new DriveModel(v, 1.62).energyJPerM(0),
          1e-9);
    }
  }

  private static void near(String id, String what, double expectedKm, double gotKm) {
    Validation.near(
        "6.4-" + id, "km from base: " + what, OWN, "C", expectedKm, gotKm, TOLERANCE_KM);
  }

  private static double walkBackKm(Budget budget, Double lifeH, double stayS, Reserves kept) {
    WalkHome.Refuge hut = new WalkHome.Refuge("hut", 10_000, 0);
    WalkHome walk = Questions.walkHome(level(LINE, (x, y) -> WALK_MS), 6 * 3600, 0, List.of(hut));
    return km(HomeRule.WALK_BACK, budget, lifeH, stayS, kept, walk, RESCUE);
  }

  private static double km(
      HomeRule home, Budget budget, Double lifeH, double stayS, Reserves kept) {
    return km(home, budget, lifeH, stayS, kept, null, RESCUE);
  }

  private static double km(
      HomeRule home,
      Budget budget,
      Double lifeH,
      double stayS,
      Reserves kept,
      WalkHome walk,
      Rescue rescue) {
    ReachRequest request =
        new ReachRequest(
            "check", "base", 0, 0, budget, home, List.of(), stayS, rescue, kept, false);
    TraversalCost drive = level(LINE, (x, y) -> DRIVE_MS);
    TraversalInput ground =
        Fields.ground(
                drive, FloatGrid.empty(LINE), Fields.vehicle(null, VehicleParts.crew(2, 4, lifeH)))
            .withLoaded(drive.withLoad(level(LINE, (x, y) -> LOADED_MS)));
    try (Workers workers = new Workers(2)) {
      ReachResult r = ReachSolver.solve(request, ground, walk, List.of(), workers, Progress.NONE);
      double far = 0;
      for (int c = 0; c < LINE.cols(); c++) {
        if (r.state().at(2, c) == ReachState.SURELY) {
          far = Math.max(far, LINE.xM(c) / 1000);
        }
      }
      return far;
    }
  }
}
