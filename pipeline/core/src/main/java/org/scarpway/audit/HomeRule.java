package org.scarpway.audit;

import java.util.List;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.MoveField;

/** What must be left at a place so that the crew gets home from there if the vehicle stops. */
public interface HomeRule {
  /**
   * Needs from a cell on.
   *
   * @param timeS of the time that the trip may take
   * @param lifeSupportS of the life support
   * @param energyJ of the battery that is driven home with
   * @param distanceM of the distance budget
   * @param onFootS of one walk; 0 where nobody walks
   * @param rescuerJ of a rescuer's own battery; 0 where none sets out
   * @param rescuerM of a rescuer's own distance budget
   */
  record Need(
      double timeS,
      double lifeSupportS,
      double energyJ,
      double distanceM,
      double onFootS,
      double rescuerJ,
      double rescuerM) {

    /** Nothing besides the trip itself. */
    public static final Need NOTHING = new Need(0, 0, 0, 0, 0, 0, 0);
  }

  /** What is used of the limits by some moment of a trip. */
  record Used(double timeS, double energyJ, double distanceM) {
    public static final Used NOTHING = new Used(0, 0, 0);
  }

  /** Standing for a time, at some energy, and then a way. */
  record Part(double standsS, double standsJ, Way way, MoveField field, Floats heightM) {}

  /**
   * Ways that a need rests on, one after the other: a walk, a ride, or a rescuer's way out and
   * home. Infinite where nothing is held.
   *
   * @param before what has been used of the same limits before
   * @param mostS with what was used before, as for the next two
   * @param mostWaitS until the last of the ways begins, without what was before
   */
  record Proof(
      String what,
      List<Part> parts,
      Used before,
      double mostS,
      double mostJ,
      double mostM,
      double mostWaitS) {
    public Proof {
      parts = List.copyOf(parts);
    }

    /** One way, begun at once. */
    public Proof(
        String what, Way way, MoveField field, Floats heightM, double mostS, double mostJ) {
      this(
          what,
          List.of(new Part(0, 0, way, field, heightM)),
          Used.NOTHING,
          mostS,
          mostJ,
          Double.POSITIVE_INFINITY,
          Double.POSITIVE_INFINITY);
    }
  }

  /**
   * Needs of which one must be met: there may be several ways home.
   *
   * @param usedJ of the battery by then
   * @return none where nobody gets home
   */
  List<Need> at(int cell, double usedJ, boolean onTheWayHome);

  /**
   * What the needs rest on, to be driven again: one of them must hold. None where that is the trip
   * itself.
   *
   * @param used by the trip until then
   */
  List<Proof> proofs(int cell, boolean onTheWayHome, Used used);

  /** The rest of the trip is the way home, or nobody has to come home. */
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
