package org.scarpway.reach.front;

import java.util.Locale;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.TraversalCost;

/** Finds the cell of a base, stop or refuge. */
public final class StartCell {
  private static final int SEARCH_CELLS = 500;

  private StartCell() {}

  /**
   * @param what the role and name, such as "base 'alpha'"
   * @param vehicle name of the vehicle
   * @param limit code of the binding limit, null if unknown
   * @throws UserError if the point is outside the grid or on ground that the vehicle cannot use
   */
  public static int require(
      String what, double xM, double yM, String vehicle, TraversalCost field, ByteGrid limit) {
    int cell = inside(what, xM, yM, field.spec());
    if (field.allowed(cell) == 0) {
      byte code = limit == null ? 0 : limit.values()[cell];
      String why = code == 0 ? "no heading is allowed" : Limit.ofCode(code).label();
      boolean unknown = code == Limit.ROCK_DATA.code() || code == Limit.SOIL_DATA.code();
      String ground = unknown ? "ground without a verdict for " : "no-go ground for ";
      throw barred(what, xM, yM, field, ground + vehicle, why);
    }
    return cell;
  }

  /** The cell of a place that is reached on foot. */
  public static int requireOnFoot(String what, double xM, double yM, TraversalCost walker) {
    int cell = inside(what, xM, yM, walker.spec());
    if (walker.allowed(cell) == 0) {
      throw barred(
          what,
          xM,
          yM,
          walker,
          "ground that cannot be walked",
          "slope, a step, keep-out ground or no elevation");
    }
    return cell;
  }

  private static int inside(String what, double xM, double yM, GridSpec spec) {
    int cell = spec.cellOf(xM, yM);
    if (cell < 0) {
      throw UserError.of(
          what,
          String.format(Locale.ROOT, "(%.1f, %.1f) lies outside the elevation model", xM, yM),
          String.format(
              Locale.ROOT,
              "x in [%.1f, %.1f], y in [%.1f, %.1f]",
              spec.westM(),
              spec.eastM(),
              spec.southM(),
              spec.northM()),
          "move it or widen the window");
    }
    return cell;
  }

  private static UserError barred(
      String what, double xM, double yM, TraversalCost field, String ground, String why) {
    int near = nearest(field, field.spec().cellOf(xM, yM));
    GridSpec spec = field.spec();
    String remedy = "no usable ground near it: move it or check the limits";
    if (near >= 0) {
      double nx = spec.xM(near % spec.cols());
      double ny = spec.yM(near / spec.cols());
      remedy =
          String.format(
              Locale.ROOT,
              "nearest usable cell is at (%.1f, %.1f), %.0f m away",
              nx,
              ny,
              Math.hypot(nx - xM, ny - yM));
    }
    return UserError.of(
        what,
        String.format(Locale.ROOT, "(%.1f, %.1f) is on %s (%s)", xM, yM, ground, why),
        "passable ground",
        remedy);
  }

  /** Nearest cell that is not a barrier, -1 if there is none within the search radius. */
  public static int nearest(TraversalCost field, int cell) {
    GridSpec spec = field.spec();
    int row = cell / spec.cols();
    int col = cell % spec.cols();
    int best = -1;
    double least = Double.POSITIVE_INFINITY;
    double cellM = Math.min(spec.cellXM(), spec.cellYM());
    for (int ring = 1; ring <= SEARCH_CELLS && ring * cellM <= least; ring++) {
      for (int dr = -ring; dr <= ring; dr++) {
        int stride = Math.abs(dr) == ring ? 1 : 2 * ring;
        for (int dc = -ring; dc <= ring; dc += stride) {
          if (spec.holds(row + dr, col + dc)
              && field.allowed((row + dr) * spec.cols() + col + dc) != 0) {
            double d = Math.hypot(dr * spec.cellYM(), dc * spec.cellXM());
            if (d < least) {
              least = d;
              best = (row + dr) * spec.cols() + col + dc;
            }
          }
        }
      }
    }
    return best;
  }
}
