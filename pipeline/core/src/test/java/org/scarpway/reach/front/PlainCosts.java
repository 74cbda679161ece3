package org.scarpway.reach.front;

import org.scarpway.grid.Headings;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/** Works out {@link Costs} plainly, one cell and heading of travel at a time and without tables. */
final class PlainCosts {
  private static final int STEPS = 800;

  private final TraversalCost field;
  private final Quantity quantity;
  private final boolean tacking;
  private final float[] factor;
  private final Headings headings;
  private final double potential;

  /**
   * @param factor cost factor of each cell, null for none
   */
  PlainCosts(TraversalCost field, Quantity quantity, boolean tacking, float[] factor) {
    this.field = field;
    this.quantity = quantity;
    this.tacking = tacking;
    this.factor = factor;
    this.headings = Headings.of(field.spec());
    this.potential = quantity == Quantity.ENERGY_J ? field.potentialJPerM() : 0;
  }

  float perM(int cell, int travel) {
    if (field.allows(cell, travel)) {
      return (float) (factor == null ? driven(cell, travel) : driven(cell, travel) * factor[cell]);
    }
    if (!tacking || field.allowed(cell) == 0) {
      return Float.POSITIVE_INFINITY;
    }
    int left = travel;
    while (!field.allows(cell, Math.floorMod(left, 32))) {
      left--;
    }
    int right = travel;
    while (!field.allows(cell, right % 32)) {
      right++;
    }
    if (right - left >= 16) {
      return Float.POSITIVE_INFINITY;
    }
    int a = Math.floorMod(left, 32);
    int b = right % 32;
    double across = headings.east(b) * headings.north(a) - headings.north(b) * headings.east(a);
    double onA =
        (headings.east(b) * headings.north(travel) - headings.north(b) * headings.east(travel))
            / across;
    double onB =
        (headings.east(travel) * headings.north(a) - headings.north(travel) * headings.east(a))
            / across;
    return (float) (onA * perM(cell, a) + onB * perM(cell, b));
  }

  private double driven(int cell, int travel) {
    double grade =
        field.gradEast(cell) * headings.east(travel)
            + field.gradNorth(cell) * headings.north(travel);
    double at = (grade + 2) * STEPS;
    if (!(at >= 0 && at < 4 * STEPS)) {
      double time = field.timeSPerM(cell, travel);
      if (quantity == Quantity.TIME_S || time == Double.POSITIVE_INFINITY) {
        return time;
      }
      return quantity == Quantity.DISTANCE_M
          ? field.lengthPerM(cell, travel)
          : Math.max(1e-3, field.energyJPerM(cell, travel) - potential * grade);
    }
    GradeTable table = field.table(field.soil(cell));
    int i = (int) at;
    double share = at - i;
    double low = timeAt(table, i);
    double high = timeAt(table, i + 1);
    double length = lengthAt(i) + share * (lengthAt(i + 1) - lengthAt(i));
    double ratio = field.pathRatio(cell, travel);
    double atGrade =
        low + high < Double.POSITIVE_INFINITY ? low + share * (high - low) : low + high;
    double time = Math.max(atGrade, length / field.speedCapMs(cell)) * ratio;
    if (quantity == Quantity.TIME_S || time == Double.POSITIVE_INFINITY) {
      return time;
    }
    if (quantity == Quantity.DISTANCE_M) {
      return length * ratio;
    }
    double traction =
        tractionAt(table, i) + share * (tractionAt(table, i + 1) - tractionAt(table, i));
    return Math.max(
        1e-3, traction + (ratio - 1) * table.tractionJPerM(0) * length + table.hotelW() * time);
  }

  private static double gradeAt(int i) {
    return (i - 2 * STEPS) / (double) STEPS;
  }

  private static double lengthAt(int i) {
    double g = gradeAt(i);
    return Math.sqrt(1 + g * g);
  }

  private static double timeAt(GradeTable table, int i) {
    double speed = table.speedMs(gradeAt(i));
    return speed > 0 ? lengthAt(i) / speed : Double.POSITIVE_INFINITY;
  }

  private double tractionAt(GradeTable table, int i) {
    return table.tractionJPerM(gradeAt(i)) * lengthAt(i) - potential * gradeAt(i);
  }
}
