package org.scarpway.reach.trip;

import org.scarpway.reach.front.CostTiles;
import org.scarpway.reach.question.ReachRequest.HomeRule;

/**
 * What the answer to a reach question stores besides its ground, as far as that is known before the
 * ground is: for estimates. Amounts are bytes per cell: of the cells within the time or within the
 * other limits, or of all.
 *
 * @param timed what the ways of least time take
 * @param other what the ways of least energy, distance and weighted sums take
 * @param everywhere arrays over all ground that end with the answer
 */
public record StoredWays(Ways timed, Ways other, double everywhere) {
  /** Weightings of the limits that are tried as a rule. */
  private static final int WEIGHTINGS = 2;

  /** Widths on the lattice of {@code Clearance}. */
  private static final int LATTICE_BYTES = 4 * Float.BYTES;

  /**
   * Widest ways, verdicts, what decides bands, and the order in which pinch points are searched.
   */
  private static final int CELL_BYTES = Float.BYTES + 2 + Float.BYTES + Integer.BYTES;

  /** A field restricted to some cells. */
  private static final int WITHIN_BYTES = Integer.BYTES;

  /**
   * Ways of one kind.
   *
   * @param fronts number of wavefronts
   * @param kept labels and sums that stay for later questions
   * @param passing labels and sums that end with the answer
   */
  public record Ways(int fronts, double kept, double passing) {}

  /**
   * The quantities that a question limits.
   *
   * @param time true if time or life support is limited
   * @param energy true if energy is limited
   * @param distance true if the distance driven is limited
   * @param hasEnergy true if the vehicle has an energy model
   * @param gains true if it recovers energy
   * @param binds true if another limit than time binds somewhere, so that the quickest ways do not
   *     suffice
   */
  public record Limits(
      boolean time,
      boolean energy,
      boolean distance,
      boolean hasEnergy,
      boolean gains,
      boolean binds) {
    int count() {
      return (time ? 1 : 0) + (energy ? 1 : 0) + (distance ? 1 : 0);
    }
  }

  /** The needs of a question by its home rule and limits. */
  public static StoredWays of(HomeRule home, Limits limits) {
    boolean stops = home != HomeRule.NONE && home != HomeRule.DRIVE_BACK;
    int ways = home == HomeRule.NONE ? 1 : 2;
    int energyWays = limits.energy && (limits.binds || !limits.time || ways == 1) ? 1 : 0;
    int distanceWays = limits.distance ? 1 : 0;
    // Least energy out is always known, as a bound.
    int others =
        (limits.hasEnergy ? 1 : 0) + distanceWays + (ways - 1) * (energyWays + distanceWays);
    int othersSummed = ways * (energyWays + distanceWays);
    int weighted = limits.binds && limits.count() > 1 ? ways * WEIGHTINGS : 0;
    double sums = PathSums.bytesPerCell(limits.hasEnergy, stops, limits.gains);
    // Ways out that leave time for a stop, and ways home that need the least time.
    int inTime = !stops ? 0 : home == HomeRule.PAIR ? 1 : 2;
    int timed = ways + inTime;
    // Sums with stops on the way are of this question alone.
    double timedKept = CostTiles.BYTES * timed + (stops ? 0 : sums * timed);
    double timedPassing = stops ? sums * timed : 0;
    double othersKept = CostTiles.BYTES * others + (stops ? 0 : sums * othersSummed);
    double othersPassing = (stops ? sums * othersSummed : 0) + (CostTiles.BYTES + sums) * weighted;
    if (home == HomeRule.WALK_BACK) {
      // Time, energy and distance of walks, what ends them, and ground from which they are
      // possible.
      timedPassing += 3 * Float.BYTES + 2 + 2 * WITHIN_BYTES;
    } else if (home == HomeRule.BASE_RESCUE) {
      // The rescuer's own ways, out and home, and how long they take.
      double ridden =
          CostTiles.BYTES + PathSums.bytesPerCell(limits.hasEnergy, false, limits.gains);
      int ofOthers = 2 * (energyWays + distanceWays);
      timed += ways;
      others += ofOthers;
      timedKept += ways * ridden;
      othersKept += ofOthers * ridden;
      timedPassing += 2 * Float.BYTES + 2 + 2 * WITHIN_BYTES;
    }
    return new StoredWays(
        new Ways(timed, timedKept, timedPassing),
        new Ways(others + weighted, othersKept, othersPassing),
        LATTICE_BYTES + CELL_BYTES);
  }
}
