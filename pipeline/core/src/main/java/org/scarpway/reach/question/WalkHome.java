package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.vehicle.MoveField;
import org.scarpway.vehicle.Walker;
import org.scarpway.vehicle.Walking;

/**
 * How the crew walks to safety when the vehicle stops.
 *
 * @param field the walker on this ground; energies are metabolic
 * @param enduranceS supplies of one person, from the moment the vehicle is left (s)
 * @param reserveS what must be left on arrival (s)
 * @param limits what else a walk must keep to
 * @param refuges places of safety besides the base
 * @param notes what a reader of the answer must know
 */
public record WalkHome(
    MoveField field,
    double enduranceS,
    double reserveS,
    Limits limits,
    List<Refuge> refuges,
    List<String> notes) {

  /** A place of safety, in the CRS of the grid. */
  public record Refuge(String name, double xM, double yM) {}

  /**
   * What a walk must keep to besides its time; infinite where nothing is held.
   *
   * @param energyJ what the supplies let be spent, less the reserve
   * @param distanceM along the ground
   * @param peak the field with seconds above the rate that can be kept up in place of energies,
   *     null for none
   * @param sustained the field of a walker who never goes above that rate, null for none
   * @param peakS how long the peak may last
   * @param toldM walks longer than this are remarked upon
   */
  public record Limits(
      double energyJ,
      double distanceM,
      MoveField peak,
      MoveField sustained,
      double peakS,
      double toldM) {
    public static final Limits NONE =
        new Limits(
            Double.POSITIVE_INFINITY,
            Double.POSITIVE_INFINITY,
            null,
            null,
            Double.POSITIVE_INFINITY,
            Double.POSITIVE_INFINITY);
  }

  /** Longest walk home in suits that a crew ever planned for (m). */
  static final double PLANNED_M = 7600;

  public WalkHome {
    refuges = List.copyOf(refuges);
    notes = List.copyOf(notes);
  }

  /** With time alone to keep to. */
  public WalkHome(MoveField field, double enduranceS, double reserveS, List<Refuge> refuges) {
    this(field, enduranceS, reserveS, Limits.NONE, refuges, List.of());
  }

  /**
   * @param refuges places of safety besides the base
   */
  public static WalkHome of(Walker walker, Walking ground, List<Refuge> refuges) {
    double none = Double.POSITIVE_INFINITY;
    Limits limits =
        new Limits(
            walker.usableJ(),
            walker.maxWalkKm() == null ? none : walker.maxWalkKm() * 1000,
            ground.peakSeconds() == null ? null : ground.field().withTables(ground.peakSeconds()),
            ground.sustained() == null ? null : ground.field().withTables(ground.sustained()),
            walker.peakMin() * 60,
            ground.suited() ? PLANNED_M : none);
    return new WalkHome(
        ground.field(),
        walker.enduranceH() * 3600,
        walker.reserveH() * 3600,
        limits,
        refuges,
        List.of(ground.note()));
  }

  /** Longest walk (s). */
  public double limitS() {
    return enduranceS - reserveS;
  }
}
