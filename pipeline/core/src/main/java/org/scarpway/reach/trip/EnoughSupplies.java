package org.scarpway.reach.trip;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.Suits;
import org.scarpway.reach.question.Reserves;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.reach.question.WhyNot.Raise;
import org.scarpway.reach.question.WhyNot.Shortfall;
import org.scarpway.reach.question.WhyNot.Supply;
import org.scarpway.vehicle.Vehicle;

/**
 * The supplies of a question that have to be raised, and to what amount with its reserve. Several
 * supplies may limit one quantity, such as an energy budget and the battery.
 */
final class EnoughSupplies {
  private static final MathContext UP = new MathContext(3, RoundingMode.CEILING);

  /** Share by which conversions of units may be off. */
  private static final double ROUNDING = 1e-9;

  private final ReachRequest request;
  private final Vehicle vehicle;
  private final List<Raise> raises = new ArrayList<>();

  private EnoughSupplies(ReachRequest request, Vehicle vehicle) {
    this.request = request;
    this.vehicle = vehicle;
  }

  static List<Raise> of(ReachRequest request, Vehicle vehicle, List<Shortfall> shortfalls) {
    EnoughSupplies enough = new EnoughSupplies(request, vehicle);
    shortfalls.forEach(enough::raise);
    return enough.raises;
  }

  /** The walker's endurance by which a walk of the given time is within it. */
  static Raise ofWalker(WalkHome walker, double neededS) {
    return raised(
        Supply.WALK, "a walker's endurance", neededS + walker.reserveS(), walker.enduranceS());
  }

  /** The walker with that endurance. */
  static WalkHome lasting(WalkHome walker, double neededS) {
    return new WalkHome(
        walker.field(),
        ofWalker(walker, neededS).whole(),
        walker.reserveS(),
        walker.limits(),
        walker.refuges(),
        walker.notes());
  }

  private void raise(Shortfall s) {
    ReachRequest.Budget budget = request.budget();
    Reserves kept = request.reserves();
    switch (s.of()) {
      case TIME -> raise(s, "a time budget", budget.timeS(), kept.timePct());
      case ENERGY -> {
        raise(s, "an energy budget", budget.energyJ(), kept.energyPct());
        Double battery =
            vehicle.batteryKwh() == null || unlike()
                ? null
                : (Double) (vehicle.batteryKwh() * 3.6e6);
        raise(s, "a battery", battery, kept.energyPct());
      }
      case DISTANCE -> raise(s, "a distance budget", budget.distanceM(), kept.distancePct());
      case LIFE_SUPPORT -> {
        raise(s, "a life support budget", budget.lifeSupportS(), kept.lifeSupportPct());
        Vehicle.Crew crew = vehicle.crew();
        boolean own = crew != null && crew.lifeSupportH() != null && !unlike();
        Double ownS = own ? (Double) (crew.lifeSupportH() * 3600) : null;
        raise(s, "life support in the vehicle", ownS, kept.lifeSupportPct());
        Suits suits = budget.suits();
        if (suits != null && s.needed() > suits.plannedS(kept.lifeSupportPct())) {
          double wholeS =
              Math.max(
                  Reserves.whole(s.needed(), kept.lifeSupportPct()), s.needed() + suits.reserveS());
          raises.add(raised(s.of(), "suits that last", wholeS, suits.enduranceS()));
        }
      }
      case WALK -> throw new IllegalArgumentException("a walk is no supply of a trip");
    }
  }

  /** True if a supply of one vehicle would have to grow together with that of another. */
  private boolean unlike() {
    return !request.rescue().second().isEmpty();
  }

  private void raise(Shortfall s, String of, Double now, double reservePct) {
    if (now != null && s.needed() > Reserves.less(now, reservePct)) {
      raises.add(raised(s.of(), of, Reserves.whole(s.needed(), reservePct), now));
    }
  }

  /** Rounded up to what is shown. */
  static Raise raised(Supply supply, String of, double whole, double now) {
    BigDecimal shown = BigDecimal.valueOf(whole * (1 + ROUNDING) / supply.perUnit()).round(UP);
    return new Raise(supply, of, shown.doubleValue() * supply.perUnit(), now);
  }
}
