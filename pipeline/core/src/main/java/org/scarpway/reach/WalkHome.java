package org.scarpway.reach;

import java.util.List;
import org.scarpway.vehicle.MoveField;
import org.scarpway.vehicle.Walker;

/**
 * How the crew walks to safety when the vehicle stops.
 *
 * @param field the walker on this ground
 * @param enduranceS supplies of one person, from the moment the vehicle is left (s)
 * @param reserveS what must be left on arrival (s)
 * @param refuges places of safety besides the base
 */
public record WalkHome(MoveField field, double enduranceS, double reserveS, List<Refuge> refuges) {

  /** A place of safety, in the CRS of the grid. */
  public record Refuge(String name, double xM, double yM) {}

  public WalkHome {
    refuges = List.copyOf(refuges);
  }

  public static WalkHome of(Walker walker, MoveField field, List<Refuge> refuges) {
    return new WalkHome(field, walker.enduranceH() * 3600, walker.reserveH() * 3600, refuges);
  }

  /** Longest walk (s). */
  double limitS() {
    return enduranceS - reserveS;
  }
}
