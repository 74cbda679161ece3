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

  /** What suffices for a trip and for a vehicle of the same kind that fetches its crew. */
  static List<Shortfall> both(List<Shortfall> trip, List<Shortfall> rescuer) {
    List<Shortfall> all = new ArrayList<>(trip);
    for (Shortfall r : rescuer) {
      Supply of =
          switch (r.of()) {
            case RESCUER_LIFE -> Supply.LIFE_SUPPORT;
            case RESCUER_ENERGY -> Supply.ENERGY;
            default -> Supply.DISTANCE;
          };
      double needed = r.needed();
      for (Shortfall s : trip) {
        needed = s.of() == of ? Math.max(needed, s.needed()) : needed;
      }
      all.removeIf(s -> s.of() == of);
      all.add(new Shortfall(of, needed, r.planned(), ""));
    }
    return all;
  }

  /** What a walker must have so that walks are within the limits that they exceed. */
  static List<Raise> ofWalker(WalkHome walker, List<Shortfall> walks) {
    double kept = 1 - walker.reserveS() / walker.enduranceS();
    return walks.stream()
        .map(
            s ->
                switch (s.of()) {
                  case WALK_LENGTH ->
                      raised(s.of(), "a max_walk_km", s.needed(), walker.limits().distanceM(), "");
                  case WALK_ENERGY ->
                      raised(
                          s.of(),
                          "a walker's supply",
                          s.needed() / kept,
                          walker.limits().energyJ() / kept,
                          "");
                  default ->
                      raised(
                          s.of(),
                          "a walker's endurance",
                          s.needed() + walker.reserveS(),
                          walker.enduranceS(),
                          "");
                })
        .toList();
  }

  /** The walker with those supplies. */
  static WalkHome with(WalkHome walker, List<Raise> raises) {
    double kept = 1 - walker.reserveS() / walker.enduranceS();
    double enduranceS = walker.enduranceS();
    double energyJ = walker.limits().energyJ();
    double distanceM = walker.limits().distanceM();
    for (Raise r : raises) {
      enduranceS = r.supply() == Supply.WALK ? r.whole() : enduranceS;
      energyJ = r.supply() == Supply.WALK_ENERGY ? r.whole() * kept : energyJ;
      distanceM = r.supply() == Supply.WALK_LENGTH ? r.whole() : distanceM;
    }
    WalkHome.Limits l = walker.limits();
    return new WalkHome(
        walker.field(),
        enduranceS,
        walker.reserveS(),
        new WalkHome.Limits(energyJ, distanceM, l.peak(), l.sustained(), l.peakS(), l.toldM()),
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
          raises.add(raised(s.of(), "suits that last", wholeS, suits.enduranceS(), s.by()));
        }
      }
      default -> throw new IllegalArgumentException(s.of().label() + " is no supply of a trip");
    }
  }

  /** True if a supply of one vehicle would have to grow together with that of another. */
  private boolean unlike() {
    return !request.rescue().second().isEmpty();
  }

  private void raise(Shortfall s, String of, Double now, double reservePct) {
    if (now != null && s.needed() > Reserves.less(now, reservePct)) {
      raises.add(raised(s.of(), of, Reserves.whole(s.needed(), reservePct), now, s.by()));
    }
  }

  /** Rounded up to what is shown. */
  static Raise raised(Supply supply, String of, double whole, double now, String by) {
    BigDecimal shown = BigDecimal.valueOf(whole * (1 + ROUNDING) / supply.perUnit()).round(UP);
    return new Raise(supply, of, shown.doubleValue() * supply.perUnit(), now, by);
  }
}
