package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Walker;
import org.scarpway.vehicle.Walking;

/**
 * Rules and limits of the crew's walk to safety after the vehicle stops.
 *
 * @param field costs of the walker on this ground; energies are metabolic
 * @param enduranceS how long one person's supplies last, from leaving the vehicle (s)
 * @param reserveS part of it that must be left on arrival (s)
 * @param limits limits on a walk besides time
 * @param refuges places of safety besides the base
 * @param notes remarks that must accompany the result
 */
public record WalkHome(
    TraversalCost field,
    double enduranceS,
    double reserveS,
    Limits limits,
    List<Refuge> refuges,
    List<String> notes) {

  /**
   * A place of safety, in the CRS of the grid.
   *
   * @param name name of the place
   * @param xM east coordinate in the CRS of the grid (m)
   * @param yM north coordinate in the CRS of the grid (m)
   */
  public record Refuge(String name, double xM, double yM) {}

  /**
   * Limits on a walk besides its time; infinite for no limit.
   *
   * @param energyJ metabolic energy that the supplies allow, less the reserve (J)
   * @param distanceM length along the ground (m)
   * @param peak the field with time above the sustainable rate (s) in place of energies, null for
   *     none
   * @param sustained the field of a walker who never exceeds that rate, null for none
   * @param peakS longest time above that rate (s)
   * @param toldM walks longer than this get a note (m)
   */
  public record Limits(
      double energyJ,
      double distanceM,
      TraversalCost peak,
      TraversalCost sustained,
      double peakS,
      double toldM) {
    /** No limit besides time. */
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

  /** Copies the lists. */
  public WalkHome {
    refuges = List.copyOf(refuges);
    notes = List.copyOf(notes);
  }

  /**
   * Combines a walker and its movement costs on this ground.
   *
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

  /** The refuges that cannot be walked to, since their ground is closed. */
  public List<Refuge> closedRefuges() {
    return refuges.stream()
        .filter(
            r -> {
              int cell = field.spec().cellOf(r.xM(), r.yM());
              return cell >= 0 && field.allowed(cell) == 0;
            })
        .toList();
  }

  /** Returns these rules without some refuges. */
  public WalkHome without(List<Refuge> lost) {
    return with(refuges.stream().filter(r -> !lost.contains(r)).toList());
  }

  /** Returns these rules with other refuges. */
  public WalkHome with(List<Refuge> others) {
    return new WalkHome(field, enduranceS, reserveS, limits, others, notes);
  }

  /** Time limit of a walk: endurance less reserve (s). */
  public double limitS() {
    return enduranceS - reserveS;
  }
}
