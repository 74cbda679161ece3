package org.scarpway.reach.question;

import java.util.List;

/**
 * A reach request: how far from a base a vehicle can go and still come home.
 *
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
  public static final int USUALLY_DRIVEN_AGAIN = 24;

  public ReachRequest {
    bands = List.copyOf(bands);
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
    NONE,
    DRIVE_BACK,
    WALK_BACK,
    PAIR,
    BASE_RESCUE
  }

  /** The quantity of a band or budget. */
  public enum Quantity {
    TIME_S,
    ENERGY_J,
    DISTANCE_M
  }

  /**
   * @param label text from the job file, such as 90min
   */
  public record Band(String label, Quantity quantity, double amount) {}

  /**
   * A place of interest.
   *
   * @param stayS length of the stay (s); 0 for the stay of the request
   */
  public record Target(
      String name, double xM, double yM, double weight, double stayS, int walkCount) {
    public Target withStay(double otherS) {
      return new Target(name, xM, yM, weight, otherS, walkCount);
    }
  }
}
