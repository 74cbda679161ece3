package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.reach.question.ReachFigure;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Budget;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Suits;
import org.scarpway.reach.question.ReachSummary;
import org.scarpway.reach.question.Rescue;
import org.scarpway.reach.question.Reserves;
import org.scarpway.stage.Digits;
import org.scarpway.stage.UserError;
import org.scarpway.vehicle.Vehicle;

/**
 * Limits of a trip: the request's budgets, the battery and the life support, each less its reserve.
 * Suits that the crew rides in count as life support. Infinite for no limit.
 *
 * @param reserves reserves that have been subtracted
 * @param hotelW electrical load while the vehicle stands at the far end (W)
 * @param usedJ energy already used from the battery when the trip begins (J); 0 at a base
 */
public record ReachLimits(
    HomeRule home,
    double timeS,
    double energyJ,
    double distanceM,
    double lifeSupportS,
    double hotelW,
    Rescue rescue,
    Reserves reserves,
    double usedJ) {

  private static final double J_PER_KWH = 3.6e6;

  /** A positive limit that allows no driving (s, m). */
  private static final double NEARLY_NOTHING = 1e-6;

  /** Limits of a trip that begins with a full battery. */
  public ReachLimits(
      HomeRule home,
      double timeS,
      double energyJ,
      double distanceM,
      double lifeSupportS,
      double hotelW,
      Rescue rescue,
      Reserves reserves) {
    this(home, timeS, energyJ, distanceM, lifeSupportS, hotelW, rescue, reserves, 0);
  }

  /**
   * @param hasEnergy true if the vehicle has an energy model
   * @param notes receives remarks for the user
   */
  static ReachLimits of(
      ReachRequest request, Vehicle vehicle, boolean hasEnergy, List<String> notes) {
    String where = "reach '" + request.name() + "'";
    Budget budget = request.budget();
    double energyJ = orInfinite(budget.energyJ());
    if (!hasEnergy && budget.energyJ() != null) {
      throw UserError.of(
          where,
          "energy budget for vehicle '" + vehicle.name() + "', which has no energy model",
          "drive power, rolling or soil, and hotel load in the vehicle file",
          "add them or remove the energy budget");
    }
    if (hasEnergy && vehicle.batteryKwh() != null) {
      double batteryJ = vehicle.batteryKwh() * J_PER_KWH;
      if (batteryJ < energyJ) {
        notes.add(
            "the battery of "
                + vehicle.batteryKwh()
                + " kWh is the energy limit"
                + (request.rescue().second().isEmpty() ? "" : " of one vehicle of the pair"));
        energyJ = batteryJ;
      }
    }
    double lifeS = suppliesS(request, vehicle, notes);
    checkRescue(where, request, vehicle, notes);
    Reserves reserves = request.reserves();
    double aliveS = Reserves.less(lifeS, reserves.lifeSupportPct());
    Suits suits = budget.suits();
    if (suits != null) {
      double suitedS = suits.plannedS(reserves.lifeSupportPct());
      notes.add(worn(request, vehicle, suitedS));
      if (suitedS < aliveS) {
        aliveS = suitedS;
        reserves = reserves.withLifeSupport(suits.keptPct(reserves.lifeSupportPct()));
      }
    } else if (lifeS == Double.POSITIVE_INFINITY) {
      noteUnlimited(request, vehicle, notes);
    }
    Double hotelW = vehicle.drive() == null ? null : vehicle.drive().hotelW();
    return new ReachLimits(
        request.home(),
        Reserves.less(orInfinite(budget.timeS()), reserves.timePct()),
        Reserves.less(energyJ, reserves.energyPct()),
        Reserves.less(orInfinite(budget.distanceM()), reserves.distancePct()),
        aliveS,
        hotelW == null ? 0 : hotelW,
        request.rescue(),
        reserves);
  }

  /**
   * The limits of a crew that is underway with these limits on its whole trip. A reserve is the
   * share of the whole limit, whatever is left of it. Less energy in the battery counts as energy
   * used, so that the battery can be charged on the way down.
   *
   * @param left what is left of every quantity, reserves included, as {@link #held} has it
   */
  ReachLimits underway(Left left) {
    double timeKept = kept(timeS, reserves.timePct(), left.timeS());
    double aliveKept = kept(lifeSupportS, reserves.lifeSupportPct(), left.lifeSupportS());
    double distanceKept = kept(distanceM, reserves.distancePct(), left.distanceM());
    double fullJ = energyJ;
    double usedBeforeJ = 0;
    if (left.energyJ() != null) {
      double wholeJ = whole(energyJ, reserves.energyPct(), left.energyJ());
      fullJ = Reserves.less(wholeJ, reserves.energyPct());
      usedBeforeJ = wholeJ - left.energyJ();
    }
    return new ReachLimits(
        home,
        planned(left.timeS(), timeKept),
        fullJ,
        planned(left.distanceM(), distanceKept),
        planned(left.lifeSupportS(), aliveKept),
        hotelW,
        rescue,
        new Reserves(
            pct(timeKept, left.timeS()),
            pct(aliveKept, left.lifeSupportS()),
            reserves.energyPct(),
            pct(distanceKept, left.distanceM())),
        usedBeforeJ);
  }

  /** These limits by the rule drive-back. */
  ReachLimits driveBack() {
    return new ReachLimits(
        HomeRule.DRIVE_BACK,
        timeS,
        energyJ,
        distanceM,
        lifeSupportS,
        hotelW,
        rescue,
        reserves,
        usedJ);
  }

  /** The amounts that a crew underway must have left at home; null where nothing is limited. */
  Left reserveOf(Left left) {
    return new Left(
        orNull(left.timeS(), kept(timeS, reserves.timePct(), left.timeS())),
        orNull(left.energyJ(), kept(energyJ, reserves.energyPct(), left.energyJ())),
        orNull(left.distanceM(), kept(distanceM, reserves.distancePct(), left.distanceM())),
        orNull(
            left.lifeSupportS(),
            kept(lifeSupportS, reserves.lifeSupportPct(), left.lifeSupportS())));
  }

  private static Double orNull(Double left, double kept) {
    return left == null ? null : (Double) kept;
  }

  /** The whole limit; without one, what is left. */
  private static double whole(double planned, double pct, double left) {
    double whole = Reserves.whole(planned, pct);
    return Double.isNaN(whole) ? left : whole;
  }

  /** What a crew can have left by these limits: of no quantity more than the whole. */
  Left held(Left stated) {
    return new Left(
        held(stated.timeS(), timeS, reserves.timePct()),
        held(stated.energyJ(), energyJ, reserves.energyPct()),
        held(stated.distanceM(), distanceM, reserves.distancePct()),
        held(stated.lifeSupportS(), lifeSupportS, reserves.lifeSupportPct()));
  }

  private static Double held(Double stated, double planned, double pct) {
    return stated == null ? null : (Double) Math.min(stated, whole(planned, pct, stated));
  }

  /** The amount that must be left of a quantity. */
  private static double kept(double planned, double pct, Double left) {
    return left == null ? 0 : pct / 100 * whole(planned, pct, left);
  }

  /** What may be used; next to nothing, but above 0, if no more than the reserve is left. */
  private static double planned(Double left, double kept) {
    return left == null ? Double.POSITIVE_INFINITY : Math.max(NEARLY_NOTHING, left - kept);
  }

  private static double pct(double kept, Double left) {
    return left == null ? 0 : left > kept ? 100 * (kept / left) : 100;
  }

  /** The shorter life support of request and vehicle, without suits (s). */
  private static double suppliesS(ReachRequest request, Vehicle vehicle, List<String> notes) {
    double lifeS = orInfinite(request.budget().lifeSupportS());
    Vehicle.Crew crew = vehicle.crew();
    if (crew == null || crew.lifeSupportH() == null) {
      return lifeS;
    }
    double ownS = crew.lifeSupportH() * 3600;
    if (lifeS < Double.POSITIVE_INFINITY && ownS < lifeS) {
      notes.add(
          "the life support of "
              + crew.lifeSupportH()
              + " h of "
              + owner(request, vehicle)
              + " counts, not the larger budget.life_support_h");
    }
    return Math.min(lifeS, ownS);
  }

  /** The vehicle whose supplies limit a trip. */
  private static String owner(ReachRequest request, Vehicle vehicle) {
    String second = request.rescue().second();
    return second.isEmpty()
        ? "vehicle '" + vehicle.name() + "'"
        : "that vehicle of '" + vehicle.name() + "' and '" + second + "' that has less";
  }

  private static String worn(ReachRequest request, Vehicle vehicle, double suitedS) {
    double wholeS = request.budget().suits().enduranceS();
    return Digits.text(
        "vehicle '%s' is ridden in suits: they last %s h from leaving the base, riding and staying"
            + " too; %s h may be planned, %s h is kept; joules spent while riding or staying are"
            + " not counted",
        vehicle.name(), wholeS / 3600, suitedS / 3600, (wholeS - suitedS) / 3600);
  }

  private static void noteUnlimited(ReachRequest request, Vehicle vehicle, List<String> notes) {
    HomeRule home = request.home();
    boolean rescue = home == HomeRule.PAIR || home == HomeRule.BASE_RESCUE;
    if (rescue || home == HomeRule.WALK_BACK) {
      notes.add(
          "vehicle '"
              + vehicle.name()
              + "' states no life_support_h: "
              + (rescue ? "rescue in time" : "life support before the walk home")
              + " is not checked");
    }
  }

  private static void checkRescue(
      String where, ReachRequest request, Vehicle vehicle, List<String> notes) {
    HomeRule home = request.home();
    if (home != HomeRule.PAIR && home != HomeRule.BASE_RESCUE) {
      return;
    }
    Vehicle.Crew crew = vehicle.crew();
    if (crew == null) {
      throw UserError.of(
          where,
          "home rule needs the crew block of vehicle '" + vehicle.name() + "', which is missing",
          "seats, rescue_seats and life_support_h",
          "add crew to the vehicle file");
    }
    // In a pair both vehicles carry a crew; a rescuer from the base brings its driver.
    int aboard = home == HomeRule.PAIR ? 2 * crew.seats() : crew.seats() + 1;
    if (crew.rescueSeats() < aboard) {
      throw UserError.of(
          where,
          "vehicle '"
              + vehicle.name()
              + "' takes "
              + crew.rescueSeats()
              + " on a rescue but "
              + aboard
              + " must ride home",
          "rescue_seats of at least " + aboard,
          "raise rescue_seats, lower seats or choose another home rule");
    }
    notes.add(RescueNote.of(home, request.rescue(), vehicle));
  }

  /** Time added to the stay for a change of vehicles at its end (s); 0 by rules without one. */
  double changeS() {
    return home == HomeRule.PAIR ? rescue.transferS() : 0;
  }

  /**
   * Life support that a pair uses from the stop of one vehicle on, with everybody in the other (s).
   */
  double breathedS(double onS) {
    return rescue.breathing() * onS;
  }

  /** True if a stop anywhere must leave time to get home other than by the trip itself. */
  boolean askedOfStops() {
    return home == HomeRule.WALK_BACK || home == HomeRule.BASE_RESCUE;
  }

  /**
   * Amount that a pair must have left of the shorter of time and life support when one vehicle
   * stops (s). During the ride home both crews use one vehicle's supplies.
   */
  double leftForRideS(double rideS) {
    double onS = changeS() + rideS;
    double wholeS = tripS();
    return wholeS == Double.POSITIVE_INFINITY
        ? onS
        : wholeS - Math.min(timeS - onS, lifeSupportS - breathedS(onS));
  }

  /**
   * Life support of a vehicle from the base that a rescue uses up: of one crew on the way out, of
   * two crews while loading and on the way home (s).
   */
  double rescuerS(double outS, double rideS) {
    return outS + 2 * (rescue.loadS() + rideS);
  }

  /** The end code for cells to which no way leaves a way home after a stop anywhere on it. */
  ReachEnd stopEnd() {
    return home == HomeRule.WALK_BACK ? ReachEnd.WALK_BACK : ReachEnd.RESCUE;
  }

  /** Time limit for out, stay and home, before requirements of the home rule (s). */
  double tripS() {
    return Math.min(timeS, lifeSupportS);
  }

  /** The end code for cells beyond that time limit. */
  ReachEnd tripEnd() {
    if (timeS <= lifeSupportS) {
      return ReachEnd.TIME;
    }
    boolean rescue = home == HomeRule.PAIR || home == HomeRule.BASE_RESCUE;
    return rescue ? ReachEnd.RESCUE_LIFE_SUPPORT : ReachEnd.LIFE_SUPPORT;
  }

  /**
   * The end code for cells to which every way stops somewhere too late to come home.
   *
   * @param rideS time of the ride home by the rule pair (s)
   */
  ReachEnd lateEnd(double rideS) {
    if (home == HomeRule.WALK_BACK) {
      return tripEnd();
    }
    // By pair both crews use the life support of one vehicle on the ride.
    double twiceS = home == HomeRule.PAIR ? changeS() + rideS : 0;
    return timeS <= lifeSupportS - twiceS ? ReachEnd.RESCUE_TIME : ReachEnd.RESCUE_LIFE_SUPPORT;
  }

  private static double orInfinite(Double amount) {
    return amount == null ? Double.POSITIVE_INFINITY : amount;
  }

  /** Reserve figures of all quantities that are limited. */
  List<ReachFigure> reserveFigures() {
    List<ReachFigure> all = new ArrayList<>();
    addReserve(all, "time", timeS, reserves.timePct());
    addReserve(all, "life support", lifeSupportS, reserves.lifeSupportPct());
    addReserve(all, "energy", energyJ, reserves.energyPct());
    addReserve(all, "distance", distanceM, reserves.distancePct());
    return all;
  }

  private static void addReserve(List<ReachFigure> all, String of, double limit, double pct) {
    if (limit < Double.POSITIVE_INFINITY) {
      all.add(ReachSummary.reserve(of, pct));
    }
  }
}
