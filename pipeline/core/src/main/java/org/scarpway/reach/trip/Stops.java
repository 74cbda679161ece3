package org.scarpway.reach.trip;

import java.util.BitSet;
import java.util.List;
import org.scarpway.reach.front.KeptFronts;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.TraversalCost;

/**
 * Requirements of a stop of the vehicle, per cell. There are none if everybody comes home by the
 * trip itself or not at all.
 *
 * @param limits limits with which the requirements are compared
 * @param homeS time from a stop in each cell until everybody is home (s), infinite where nobody
 *     gets home, NaN where nobody can stop; for a pair the amount that must be left of the shorter
 *     of time and life support; null if nothing is required
 * @param waitS part of that time during which the electrical load of the stopped vehicle continues
 *     (s); null for none
 * @param rides ways home of the vehicle that takes everybody aboard, by the rule pair; empty by
 *     other rules
 */
record Stops(ReachLimits limits, Floats homeS, Floats waitS, List<? extends Ride> rides) {
  Stops {
    rides = List.copyOf(rides);
  }

  static Stops none(ReachLimits limits) {
    return new Stops(limits, null, null, List.of());
  }

  /**
   * Returns the requirements by the rule pair.
   *
   * @param field field of the way out
   * @param rides ways home of the loaded vehicle, the quickest first
   */
  static Stops riding(ReachLimits limits, TraversalCost field, List<? extends Ride> rides) {
    int n = field.spec().cells();
    Floats homeS = Floats.of(n, Float.NaN, field.scratch((long) Float.BYTES * n));
    for (int cell = 0; cell < n; cell++) {
      float rideS = rides.get(0).timeS(cell);
      if (!Float.isNaN(rideS)) {
        homeS.set(cell, (float) limits.leftForRideS(rideS));
      } else if (field.allowed(cell) != 0) {
        homeS.set(cell, Float.POSITIVE_INFINITY);
      }
    }
    return new Stops(limits, homeS, null, rides);
  }

  /** Digest of what a stop requires of the sums along a way, limits left out. */
  String digest() {
    return (homeS == null ? "never" : KeptFronts.digest(homeS))
        + " "
        + (waitS == null ? "none" : limits.hotelW() + " " + KeptFronts.digest(waitS));
  }

  /** True if a stop requires anything. */
  boolean asked() {
    return homeS != null;
  }

  /** Cells from which getting home takes no longer than the whole trip may. */
  BitSet within() {
    return atMost(homeS, limits.tripS());
  }

  static BitSet atMost(Floats values, double limit) {
    BitSet domain = new BitSet(values.size());
    for (int i = 0; i < values.size(); i++) {
      if (values.get(i) <= limit) {
        domain.set(i);
      }
    }
    return domain;
  }

  /**
   * Time from a stop in a cell until everybody is home (s), NaN where nobody gets home; for
   * products.
   */
  float tellS(int cell) {
    double s = homeS.get(cell);
    if (!rides.isEmpty()) {
      s = rides.get(0).timeS(cell) + limits.changeS();
    }
    return s < Double.POSITIVE_INFINITY ? (float) s : Float.NaN;
  }

  /** True if a crew that stops in a cell at that moment is home in time. */
  boolean inTime(int cell, double atS) {
    float onS = homeS.get(cell);
    return onS < Float.POSITIVE_INFINITY && atS + onS <= limits.tripS();
  }

  /** True if a stop must also meet limits other than time. */
  boolean askMore() {
    boolean energy = limits.energyJ() < Double.POSITIVE_INFINITY;
    boolean distance = limits.distanceM() < Double.POSITIVE_INFINITY;
    return waitS != null ? energy : !rides.isEmpty() && (energy || distance);
  }

  /** Energy that the stopped vehicle uses until its crew is fetched (J). */
  double waitJ(int cell) {
    return waitS == null ? 0 : limits.hotelW() * waitS.get(cell);
  }

  /**
   * True if at least one way home from a stop meets every limit.
   *
   * @param timeS time of the trip until the stop (s)
   * @param usedJ energy used until the stop (J), NaN without an energy model
   */
  boolean hold(int cell, double timeS, double usedJ, double drivenM) {
    if (usedJ + waitJ(cell) > limits.energyJ()) {
      return false;
    }
    for (Ride ride : rides) {
      double onS = limits.changeS() + ride.timeS(cell);
      double beginJ = usedJ + limits.hotelW() * limits.changeS();
      if (timeS + onS <= limits.timeS()
          && timeS + limits.breathedS(onS) <= limits.lifeSupportS()
          && !(ride.needJ(cell, beginJ) > limits.energyJ())
          && drivenM + ride.distanceM(cell) <= limits.distanceM()) {
        return true;
      }
    }
    return rides.isEmpty();
  }
}
