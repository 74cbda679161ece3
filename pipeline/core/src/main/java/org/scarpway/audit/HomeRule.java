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

  /**
   * A way that a need rests on.
   *
   * @param saidS how long it is said to take
   * @param mostJ what it may take; infinite where nothing is held
   */
  record Proof(String what, Way way, MoveField field, Floats heightM, double saidS, double mostJ) {}

  /**
   * Needs of which one must be met: there may be several ways home.
   *
   * @param usedJ of the battery by then
   * @return none where nobody gets home
   */
  List<Need> at(int cell, double usedJ, boolean onTheWayHome);

  /** The ways that the needs rest on, to be driven again; none where they are the trip itself. */
  List<Proof> proofs(int cell, boolean onTheWayHome);

  /** The rest of the trip is the way home, or nobody has to come home. */
  static HomeRule none() {
    return new HomeRule() {
      @Override
      public List<Need> at(int cell, double usedJ, boolean onTheWayHome) {
        return List.of(Need.NOTHING);
      }

      @Override
      public List<Proof> proofs(int cell, boolean onTheWayHome) {
        return List.of();
      }
    };
  }
}
