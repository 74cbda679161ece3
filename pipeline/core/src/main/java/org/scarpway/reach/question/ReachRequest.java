package org.scarpway.reach.question;

import java.util.List;

/**
 * One question of the kind "how far from here and still home".
 *
 * @param bands increasing amounts at which the reachable area is drawn, all of one quantity
 * @param stayS time spent at the far end, at the hotel load (s)
 * @param rescue how the crew of a stopped vehicle is taken aboard another
 * @param reserves what of each limit must be left
 * @param drivenAgain how many trips, besides those to targets, are driven again
 * @param beyondBudget whether times and energies are wanted of ground that the time does not
 *     suffice for as well
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

  /** With as many trips driven again as usual. */
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
   * Any subset; null is no limit. Out, stay and home together, and what the home rule needs.
   *
   * @param lifeSupportS of the crew's supplies; those of the vehicle count as well
   * @param suits that the crew rides in; null in a cabin, or where nothing is known of them
   */
  public record Budget(
      Double timeS, Double energyJ, Double distanceM, Double lifeSupportS, Suits suits) {

    /** In a cabin. */
    public Budget(Double timeS, Double energyJ, Double distanceM, Double lifeSupportS) {
      this(timeS, energyJ, distanceM, lifeSupportS, null);
    }

    /** Supplies only as the vehicle has them. */
    public Budget(Double timeS, Double energyJ, Double distanceM) {
      this(timeS, energyJ, distanceM, null);
    }
  }

  /**
   * Suits that are worn from leaving the base.
   *
   * @param reserveS what must be left of it
   */
  public record Suits(double enduranceS, double reserveS) {

    /** Share that is kept: the reserve, or what is kept of any life support where that is more. */
    public double keptPct(double lifeSupportPct) {
      return Math.max(lifeSupportPct, 100 * reserveS / enduranceS);
    }

    /** What may be planned of the suits (s). */
    public double plannedS(double lifeSupportPct) {
      return Reserves.less(enduranceS, keptPct(lifeSupportPct));
    }
  }

  /** How the crew gets home. */
  public enum HomeRule {
    NONE,
    DRIVE_BACK,
    WALK_BACK,
    PAIR,
    BASE_RESCUE
  }

  /** What a band or budget counts. */
  public enum Quantity {
    TIME_S,
    ENERGY_J,
    DISTANCE_M
  }

  /**
   * @param label as the job wrote it, such as 90min
   */
  public record Band(String label, Quantity quantity, double amount) {}

  /**
   * A place of interest.
   *
   * @param stayS time spent there, 0 for what the question says (s)
   */
  public record Target(
      String name, double xM, double yM, double weight, double stayS, int walkCount) {
    public Target withStay(double otherS) {
      return new Target(name, xM, yM, weight, otherS, walkCount);
    }
  }
}
