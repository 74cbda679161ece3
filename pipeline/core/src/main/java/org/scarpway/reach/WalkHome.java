package org.scarpway.reach;

import java.util.List;
import org.scarpway.vehicle.MoveField;
import org.scarpway.vehicle.Walker;
import org.scarpway.vehicle.Walking;

/**
 * How the crew walks to safety when the vehicle stops.
 *
 * @param field the walker on this ground
 * @param enduranceS supplies of one person, from the moment the vehicle is left (s)
 * @param reserveS what must be left on arrival (s)
 * @param refuges places of safety besides the base
 * @param notes what a reader of the answer must know
 */
public record WalkHome(
    MoveField field, double enduranceS, double reserveS, List<Refuge> refuges, List<String> notes) {

  /** A place of safety, in the CRS of the grid. */
  public record Refuge(String name, double xM, double yM) {}

  public WalkHome {
    refuges = List.copyOf(refuges);
    notes = List.copyOf(notes);
  }

  /**
   * @param refuges places of safety besides the base
   */
  public static WalkHome of(Walker walker, Walking ground, List<Refuge> refuges) {
    return new WalkHome(
        ground.field(),
        walker.enduranceH() * 3600,
        walker.reserveH() * 3600,
        refuges,
        List.of(ground.note()));
  }

  /** With nothing else to be told. */
  public WalkHome(MoveField field, double enduranceS, double reserveS, List<Refuge> refuges) {
    this(field, enduranceS, reserveS, refuges, List.of());
  }

  /** Longest walk (s). */
  double limitS() {
    return enduranceS - reserveS;
  }
}
