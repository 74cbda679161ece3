package org.scarpway.reach.trip;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.front.CostField;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Fronts;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.reach.question.DrivenLeg.FromHere;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * What coming home takes from any cell if the vehicle stops there on a sortie of days: the walk to
 * a refuge, or the ride of the vehicle that takes everybody aboard, by its quickest way. Days and
 * nights of the ride are counted by whoever knows the hour.
 */
final class HomeFromHere {
  private final DayRingsRequest request;
  private final WalksHome walks;
  private final PathSums ride;
  private final PathSums fetch;
  private final boolean hasEnergy;
  private final double hotelW;

  /**
   * @param walks walks home by the rule walk-back, else null
   * @param base cell of the base
   */
  HomeFromHere(
      DayRingsRequest request,
      TraversalInput ground,
      WalksHome walks,
      boolean hasEnergy,
      double hotelW,
      int base,
      Workers workers,
      Progress progress) {
    this.request = request;
    this.walks = walks;
    this.hasEnergy = hasEnergy;
    this.hotelW = hotelW;
    boolean rescue = request.home() == HomeRule.BASE_RESCUE;
    boolean rides = rescue || request.home() == HomeRule.PAIR;
    this.ride =
        rides
            ? sums(ground, ground.loaded(), Direction.HOME, hasEnergy, base, workers, progress)
            : null;
    this.fetch =
        rescue
            ? sums(ground, ground.field(), Direction.OUT, hasEnergy, base, workers, progress)
            : null;
  }

  private static PathSums sums(
      TraversalInput ground,
      TraversalCost field,
      Direction direction,
      boolean hasEnergy,
      int base,
      Workers workers,
      Progress progress) {
    progress.begin("ways of a second vehicle", field.spec().cells());
    Fronts.Spread front =
        Fronts.begin(field, Quantity.TIME_S, direction, Double.POSITIVE_INFINITY, progress, base);
    List<Runnable> work = new ArrayList<>();
    for (int i = 0; i < workers.threads(); i++) {
      work.add(front::work);
    }
    workers.all(work);
    CostField labels = front.labels();
    progress.end();
    return KeptSums.along(Quantity.TIME_S, labels, ground.heightM(), hasEnergy);
  }

  FromHere at(int cell) {
    double never = Double.POSITIVE_INFINITY;
    double walkS = 0;
    if (walks != null) {
      float s = walks.timeS().get(cell);
      walkS = Float.isNaN(s) ? never : s;
    }
    if (ride == null) {
      return walkS == 0 ? FromHere.AT_HOME : new FromHere(0, 0, 0, 0, walkS);
    }
    float rideS = ride.timeS(cell);
    if (Float.isNaN(rideS)) {
      return new FromHere(never, 0, 0, never, walkS);
    }
    double rideJ = hasEnergy ? ride.energyJ(cell) : 0;
    // No place of the ride has drawn more than its largest amount, nor an even draw more than all.
    double offJ = hasEnergy ? Math.max(ride.needJ(cell, 0), Math.abs(rideJ)) : 0;
    return new FromHere(rideS, rideJ, offJ, fetch == null ? 0 : fetchedS(cell, rideS), walkS);
  }

  /** Driving time of the rescuers out; infinite where their battery does not last out and home. */
  private double fetchedS(int cell, double rideS) {
    float outS = fetch.timeS(cell);
    if (Float.isNaN(outS)) {
      return Double.POSITIVE_INFINITY;
    }
    if (hasEnergy) {
      // One night more than the driving takes, whatever the hour of the alarm.
      double nights = Math.floor((outS + rideS) / request.driveS()) + 1;
      double aloneJ = hotelW * (request.rescue().loadS() + nights * request.nightS());
      double mostJ = ride.needJ(cell, fetch.usedJ(cell) + aloneJ);
      if (Math.max(fetch.mostJ(cell), mostJ) > request.energyJ()) {
        return Double.POSITIVE_INFINITY;
      }
    }
    return outS;
  }
}
