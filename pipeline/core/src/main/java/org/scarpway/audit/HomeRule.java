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

  /** A way that a need rests on, and how long it is said to take. */
  record Proof(String what, Way way, MoveField field, Floats heightM, double saidS) {}

  /** Infinite needs where nobody gets home. */
  Need at(int cell, boolean onTheWayHome);

  /** The ways that need rests on, to be driven again; none where it is the trip itself. */
  List<Proof> proofs(int cell, boolean onTheWayHome);

  /** The rest of the trip is the way home, or nobody has to come home. */
  static HomeRule none() {
    return new HomeRule() {
      @Override
      public Need at(int cell, boolean onTheWayHome) {
        return Need.NOTHING;
      }

      @Override
      public List<Proof> proofs(int cell, boolean onTheWayHome) {
        return List.of();
      }
    };
  }
}
