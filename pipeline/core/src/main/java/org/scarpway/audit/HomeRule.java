package org.scarpway.audit;

import java.util.List;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.TraversalCost;

/**
 * The amounts that must be left at a place so that the crew gets home from there if the vehicle
 * stops.
 */
public interface HomeRule {
  /**
   * Amounts required from a cell on.
   *
   * @param timeS time, from the time limit of the trip (s)
   * @param lifeSupportS time, from the life support (s)
   * @param energyJ energy, from the battery of the vehicle that drives home (J)
   * @param distanceM distance, from the distance budget (m)
   * @param onFootS time on foot in one walk (s); 0 if nobody walks
   * @param rescuerS time, from a rescuer's own life support (s); what it uses up for two crews
   *     counts twice; 0 without a rescuer
   */
  record Need(
      double timeS,
      double lifeSupportS,
      double energyJ,
      double distanceM,
      double onFootS,
      double rescuerS) {

    /** No requirement besides the trip itself. */
    public static final Need NOTHING = new Need(0, 0, 0, 0, 0, 0);
  }

  /** The amounts used of the limits up to a moment of a trip. */
  record Used(double timeS, double energyJ, double distanceM) {
    public static final Used NOTHING = new Used(0, 0, 0);
  }

  /** A stay of given time and energy, followed by a way. */
  record Part(double standsS, double standsJ, Way way, TraversalCost field, Floats heightM) {}

  /**
   * Time above the rate that a walker can sustain.
   *
   * @param field the walker, with seconds above that rate in place of energies
   * @param mostS limit on that time in one walk (s)
   */
  record Peak(TraversalCost field, double mostS) {}

  /**
   * The life support of a vehicle that comes: of one crew until its last way, with the stay before
   * it, and of two crews from there on.
   *
   * @param unusedS time before it sets out (s)
   * @param mostS limit on the sum (s)
   */
  record TwoCrews(double unusedS, double mostS) {}

  /**
   * The ways behind a requirement, one after the other: a walk, a ride, or a rescuer's way out and
   * home. Infinite for no limit.
   *
   * @param before amounts used of the same limits before
   * @param mostS limit on the time, the time used before included (s); the next two limits likewise
   * @param mostWaitS limit on the time until the last of the ways begins, the time before excluded
   *     (s)
   * @param peak null if no rate is limited
   * @param twoCrews null if no vehicle comes
   */
  record Proof(
      String what,
      List<Part> parts,
      Used before,
      double mostS,
      double mostJ,
      double mostM,
      double mostWaitS,
      Peak peak,
      TwoCrews twoCrews) {
    public Proof {
      parts = List.copyOf(parts);
    }

    /** A proof without a limit on the rate, of a vehicle that is there. */
    public Proof(
        String what,
        List<Part> parts,
        Used before,
        double mostS,
        double mostJ,
        double mostM,
        double mostWaitS) {
      this(what, parts, before, mostS, mostJ, mostM, mostWaitS, null, null);
    }

    /** A proof of one walk that begins at once. */
    public static Proof walk(Part walk, double mostS, double mostJ, double mostM, Peak peak) {
      double none = Double.POSITIVE_INFINITY;
      return new Proof(
          "the walk home", List.of(walk), Used.NOTHING, mostS, mostJ, mostM, none, peak, null);
    }
  }

  /**
   * Alternative requirements, one of which must be met; there may be several ways home.
   *
   * @param usedJ energy used from the battery so far (J)
   * @return empty if nobody gets home
   */
  List<Need> at(int cell, double usedJ, boolean onTheWayHome);

  /**
   * The proofs of the requirements, to be recalculated; one of them must hold. Empty if the trip
   * itself is the way home.
   *
   * @param used amounts used by the trip so far
   */
  List<Proof> proofs(int cell, boolean onTheWayHome, Used used);

  /**
   * The rule without requirements: the rest of the trip is the way home, or nobody has to come
   * home.
   */
  static HomeRule none() {
    return new HomeRule() {
      @Override
      public List<Need> at(int cell, double usedJ, boolean onTheWayHome) {
        return List.of(Need.NOTHING);
      }

      @Override
      public List<Proof> proofs(int cell, boolean onTheWayHome, Used used) {
        return List.of();
      }
    };
  }
}
