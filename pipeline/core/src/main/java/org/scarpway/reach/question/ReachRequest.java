package org.scarpway.reach.question;

import java.util.List;

/**
 * A reach request: how far from a base a vehicle can go and still come home.
 *
 * @param name name of the request, used in products and messages
 * @param baseName name of the base
 * @param baseXM east coordinate of the base in the CRS of the grid (m)
 * @param baseYM north coordinate of the base in the CRS of the grid (m)
 * @param budget limits on a whole trip
 * @param home how the crew gets home
 * @param bands increasing amounts at which the reachable area is drawn, all of one quantity
 * @param stayS length of the stay at the far end, at the hotel load (s)
 * @param rescue times and loads of transferring the crew of a stopped vehicle to another
 * @param reserves share of each limit that must be left (%)
 * @param drivenAgain number of trips, besides those to targets, that are recalculated by the audit
 * @param beyondBudget true if times and energies are also computed for ground beyond the time
 *     budget
 */
public record ReachRequest(
    String name,
    String baseName,
    double baseXM,
    double baseYM,
    Budget budget,
    HomeRule home,
    List<Band> bands,
    double stayS,
    Rescue rescue,
    Reserves reserves,
    int drivenAgain,
    boolean beyondBudget) {
  /** Default of {@code drivenAgain}: the project's own choice. */
  public static final int USUALLY_DRIVEN_AGAIN = 24;

  /** Copies the bands; the values are checked when the request is solved. */
  public ReachRequest {
    bands = List.copyOf(bands);
  }

  /** Without bands and without trips that are driven again, which would ask for more fronts. */
  public ReachRequest plain() {
    return new ReachRequest(
        name, baseName, baseXM, baseYM, budget, home, List.of(), stayS, rescue, reserves, 0, false);
  }

  /** With the default number of recalculated trips. */
  public ReachRequest(
      String name,
      String baseName,
      double baseXM,
      double baseYM,
      Budget budget,
      HomeRule home,
      List<Band> bands,
      double stayS,
      Rescue rescue,
      Reserves reserves,
      boolean beyondBudget) {
    this(
        name,
        baseName,
        baseXM,
        baseYM,
        budget,
        home,
        bands,
        stayS,
        rescue,
        reserves,
        USUALLY_DRIVEN_AGAIN,
        beyondBudget);
  }

  /**
   * Limits on a whole trip: out, stay and home together, and what the home rule requires. Any
   * subset may be given; null means no limit.
   *
   * @param timeS longest time (s)
   * @param energyJ most energy from the battery (J)
   * @param distanceM greatest length along the surface (m)
   * @param lifeSupportS how long the crew's supplies last (s); the life support of the vehicle
   *     limits the trip as well
   * @param suits the suits that the crew rides in; null in a cabin, or if nothing is known of them
   */
  public record Budget(
      Double timeS, Double energyJ, Double distanceM, Double lifeSupportS, Suits suits) {

    /** In a cabin. */
    public Budget(Double timeS, Double energyJ, Double distanceM, Double lifeSupportS) {
      this(timeS, energyJ, distanceM, lifeSupportS, null);
    }

    /** With no life support limit besides that of the vehicle. */
    public Budget(Double timeS, Double energyJ, Double distanceM) {
      this(timeS, energyJ, distanceM, null);
    }
  }

  /**
   * Suits that are worn from departure on.
   *
   * @param enduranceS how long the supplies of the suits last, from departure on (s)
   * @param reserveS part of the endurance that must be left (s)
   */
  public record Suits(double enduranceS, double reserveS) {

    /**
     * Share of the endurance that is kept (%): the larger of the suits' own reserve and the reserve
     * of life support.
     */
    public double keptPct(double lifeSupportPct) {
      return Math.max(lifeSupportPct, 100 * reserveS / enduranceS);
    }

    /** Endurance that may be used in the plan, after the reserve (s). */
    public double plannedS(double lifeSupportPct) {
      return Reserves.less(enduranceS, keptPct(lifeSupportPct));
    }
  }

  /** The rule by which the crew gets home. */
  public enum HomeRule {
    /** Only the way out and the stay count. */
    NONE,
    /** The vehicle drives home. */
    DRIVE_BACK,
    /** From every place on the trip the crew can walk to the base or to a refuge. */
    WALK_BACK,
    /** Two vehicles travel together; if one stops, everybody comes home in the other. */
    PAIR,
    /** A vehicle at the base fetches the crew from every place on the trip. */
    BASE_RESCUE;

    /** True if the vehicle itself drives home, as far as nothing stops it. */
    public boolean drivesHome() {
      return this != NONE && this != WALK_BACK;
    }
  }

  /** The quantity of a band or budget. */
  public enum Quantity {
    /** Time (s). */
    TIME_S,
    /** Energy from the battery (J). */
    ENERGY_J,
    /** Length along the surface (m). */
    DISTANCE_M
  }

  /**
   * An amount at which the reachable area is drawn.
   *
   * @param label text from the job file, such as 90min
   * @param quantity quantity of the amount
   * @param amount whole trip: s, J or m, by the quantity
   */
  public record Band(String label, Quantity quantity, double amount) {}

  /**
   * A place of interest.
   *
   * @param name name of the place
   * @param xM east coordinate in the CRS of the grid (m)
   * @param yM north coordinate in the CRS of the grid (m)
   * @param weight weight in the comparison of sites, 1 by default
   * @param stayS length of the stay (s); 0 for the stay of the request
   * @param walkCount number of walks that the crew plans there, 0 or more
   */
  public record Target(
      String name, double xM, double yM, double weight, double stayS, int walkCount) {
    /**
     * Returns this target with another length of the stay.
     *
     * @param otherS length of the stay (s)
     */
    public Target withStay(double otherS) {
      return new Target(name, xM, yM, weight, otherS, walkCount);
    }
  }
}
