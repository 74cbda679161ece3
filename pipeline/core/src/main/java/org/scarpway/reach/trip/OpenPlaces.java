package org.scarpway.reach.trip;

import org.scarpway.grid.GridSpec;
import org.scarpway.reach.front.StartCell;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.reach.question.WalkHome;
import org.scarpway.vehicle.TraversalCost;

/** Whether a crew underway can stand at a place, and come to its base. */
public final class OpenPlaces {
  private OpenPlaces() {}

  /**
   * Finds where a crew can stand.
   *
   * @param xM east coordinate of a place on the grid (m)
   * @param yM north coordinate of it (m)
   * @return the place itself if the vehicle can leave it, else the centre of the nearest cell that
   *     it can leave; null if there is none near
   */
  public static double[] nearest(double xM, double yM, TraversalInput ground) {
    GridSpec spec = ground.field().spec();
    int cell = spec.cellOf(xM, yM);
    if (ground.field().allowed(cell) != 0) {
      return new double[] {xM, yM};
    }
    int near = StartCell.nearest(ground.field(), cell);
    return near < 0
        ? null
        : new double[] {spec.xM(near % spec.cols()), spec.yM(near / spec.cols())};
  }

  /**
   * True if the base cannot be entered by the vehicle, or not on foot where the rule asks for that.
   *
   * @param walkHome walker by the rule walk-back, else null
   */
  public static boolean baseIsClosed(
      ReachRequest question, TraversalInput ground, WalkHome walkHome) {
    boolean walks = question.home() == HomeRule.WALK_BACK && walkHome != null;
    return closed(ground.field(), question) || (walks && closed(walkHome.field(), question));
  }

  private static boolean closed(TraversalCost field, ReachRequest question) {
    int cell = field.spec().cellOf(question.baseXM(), question.baseYM());
    return cell >= 0 && field.allowed(cell) == 0;
  }
}
