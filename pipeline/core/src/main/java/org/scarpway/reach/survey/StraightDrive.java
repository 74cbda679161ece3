package org.scarpway.reach.survey;

import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.reach.front.Costs;
import org.scarpway.reach.front.Costs.Direction;
import org.scarpway.reach.front.Line;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.vehicle.TraversalCost;

/**
 * Straight drives over the ground of a vehicle: open where every cell that the line enters may be
 * entered on its heading without tacks, and no corner is passed between closed cells.
 */
public final class StraightDrive {
  /** Metres driven per metre of advance above which a heading is tacked. */
  private static final double TACKED = 1 + 1e-9;

  /** Distance from a border at which a place is beside it, in cells. */
  private static final double BESIDE = 1e-6;

  private final TraversalCost field;
  private final GridSpec spec;
  private final Costs costs;
  private final Line line;

  /**
   * @param field ground of the vehicle
   */
  public StraightDrive(TraversalCost field) {
    this.field = field;
    this.spec = field.spec();
    this.costs = new Costs(field, Quantity.TIME_S, Direction.HOME).withoutTacks();
    this.line = new Line(spec);
  }

  /** Time of the drive (s), infinite if the line is not open. */
  public double timeS(ProfilePoint from, ProfilePoint to) {
    double row0 = row(from);
    double col0 = col(from);
    double row1 = row(to);
    double col1 = col(to);
    if (row0 == row1 && col0 == col1) {
      return 0;
    }
    // On a border of cells the drive is in the cells of both sides.
    double asideRow = row0 == row1 && isBorder(row0) ? BESIDE : 0;
    double asideCol = col0 == col1 && isBorder(col0) ? BESIDE : 0;
    double s = timeS(row0 - asideRow, col0 - asideCol, row1 - asideRow, col1 - asideCol);
    return asideRow + asideCol > 0
        ? Math.max(s, timeS(row0 + asideRow, col0 + asideCol, row1 + asideRow, col1 + asideCol))
        : s;
  }

  private double timeS(double row0, double col0, double row1, double col1) {
    if (!holds(row0, col0) || !holds(row1, col1)) {
      return Double.POSITIVE_INFINITY;
    }
    line.through(row0, col0, row1, col1);
    for (int i = 0; i < line.count(); i++) {
      if (tacked(line.cell(i))) {
        return Double.POSITIVE_INFINITY;
      }
    }
    return line.cost(costs);
  }

  private boolean holds(double row, double col) {
    return spec.holds((int) Math.floor(row + 0.5), (int) Math.floor(col + 0.5));
  }

  private static boolean isBorder(double at) {
    return Math.abs(at - Math.floor(at) - 0.5) < BESIDE;
  }

  /** True if a heading beside that of the line is driven by tacks. */
  private boolean tacked(int cell) {
    int low = (int) line.heading();
    int high = (low + (line.heading() > low ? 1 : 0)) % Headings.COUNT;
    double most = TACKED * field.detour(cell);
    return field.tacked(cell)
        && (field.pathRatio(cell, low) > most || field.pathRatio(cell, high) > most);
  }

  /** Rows and columns count from the centre of the first cell. */
  private double row(ProfilePoint p) {
    return (spec.northM() - p.yM()) / spec.cellYM() - 0.5;
  }

  private double col(ProfilePoint p) {
    return (p.xM() - spec.westM()) / spec.cellXM() - 0.5;
  }
}
