package org.scarpway.reach.corridor;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.clearance.Clearance;
import org.scarpway.reach.question.CorridorRequest;
import org.scarpway.reach.question.CorridorResult.Alternative;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.stage.Floats;

/**
 * Computes alternative routes (penalty method): the cost of the ground of earlier routes is raised,
 * the best route is computed again, and it is kept if it shares little ground with the earlier
 * ones.
 */
final class Alternatives {
  /** Cost factor on the ground of earlier routes. */
  private static final double AVOIDANCE = 3;

  /**
   * Largest cost factor, used where that ground is a narrow passage: a second route through the
   * same passage is hardly an alternative.
   */
  private static final double MOST_AVOIDANCE = 30;

  private static final float DEAREST = 1000;

  /** Half width of the ground that a route occupies, as a share of the best route's length. */
  private static final double TAKEN_SHARE = 0.05;

  private static final int MORE_TRIES = 3;

  private final GridSpec spec;
  private final Clearance clearance;
  private final double besideM;
  private final List<List<ProfilePoint>> kept = new ArrayList<>();
  private final Floats factor;

  private Alternatives(Clearance clearance, double besideM) {
    this.spec = clearance.spec();
    this.clearance = clearance;
    this.besideM = besideM;
    this.factor = Floats.of(spec.cells(), clearance.scratch((long) Float.BYTES * spec.cells()));
    factor.fill(1);
  }

  /** Half width of the ground that a route occupies (m). */
  static double besideM(GridSpec spec, Centreline best) {
    return Math.max(3 * spec.cellM(), TAKEN_SHARE * best.distanceM());
  }

  /**
   * @param drive computes the best route for a cost factor per cell
   * @param mostJ largest amount that a route uses from the battery at any moment (J)
   * @return the alternatives found, at most as many as requested
   */
  static List<Alternative> of(
      CorridorRequest request,
      Centreline best,
      double bestCost,
      Quantity quantity,
      Clearance clearance,
      Function<Floats, Centreline> drive,
      ToDoubleFunction<Centreline> mostJ) {
    Alternatives a = new Alternatives(clearance, besideM(clearance.spec(), best));
    List<Alternative> found = new ArrayList<>();
    a.kept.add(best.points());
    a.avoid(best);
    // A route that is not different enough is dropped, but its ground is penalised for the next
    // try.
    int tries = request.alternatives() == 0 ? 0 : request.alternatives() + MORE_TRIES;
    for (int i = 0; found.size() < request.alternatives() && i < tries; i++) {
      Centreline other = drive.apply(a.factor);
      double sharedPct = a.sharedPct(other);
      if (sharedPct <= request.mostSharedPct()) {
        a.kept.add(other.points());
        found.add(
            new Alternative(
                found.size() + 1,
                other.timeS(),
                other.energyJ(),
                mostJ.applyAsDouble(other),
                other.distanceM(),
                bestCost > 0 ? 100 * (other.amount(quantity) / bestCost - 1) : Double.NaN,
                sharedPct,
                other.points()));
      }
      a.avoid(other);
    }
    return found;
  }

  /** Raises the cost of the ground of a route. */
  private void avoid(Centreline way) {
    int rows = (int) (besideM / spec.cellYM());
    int cols = (int) (besideM / spec.cellXM());
    BitSet now = new BitSet(spec.cells());
    int stride = Math.max(1, Math.min(rows, cols) / 16);
    for (int i = 0; i < way.cells().size(); i += stride) {
      int row = way.cells().get(i) / spec.cols();
      int col = way.cells().get(i) % spec.cols();
      for (int dr = -rows; dr <= rows; dr++) {
        for (int dc = -cols; dc <= cols; dc++) {
          if (spec.holds(row + dr, col + dc)
              && Math.hypot(dr * spec.cellYM(), dc * spec.cellXM()) <= besideM) {
            now.set((row + dr) * spec.cols() + col + dc);
          }
        }
      }
    }
    for (int i = now.nextSetBit(0); i >= 0; i = now.nextSetBit(i + 1)) {
      double narrow = Math.max(1, 2 * besideM / Math.max(clearance.widthM(i), spec.cellM()));
      float dearer = (float) Math.min(MOST_AVOIDANCE, AVOIDANCE * narrow);
      factor.set(i, Math.min(DEAREST, factor.get(i) * dearer));
    }
  }

  /** Share of the route's length on the ground of a route that was kept (%). */
  private double sharedPct(Centreline way) {
    double shared = 0;
    for (int i = 0; i + 1 < way.points().size(); i++) {
      ProfilePoint p = way.points().get(i);
      ProfilePoint q = way.points().get(i + 1);
      double x = (p.xM() + q.xM()) / 2;
      double y = (p.yM() + q.yM()) / 2;
      shared += kept.stream().anyMatch(k -> passes(k, x, y)) ? q.distanceM() - p.distanceM() : 0;
    }
    return way.distanceM() > 0 ? 100 * shared / way.distanceM() : 100;
  }

  private boolean passes(List<ProfilePoint> line, double x, double y) {
    for (int i = 0; i + 1 < line.size(); i++) {
      double ax = line.get(i).xM() - x;
      double ay = line.get(i).yM() - y;
      double dx = line.get(i + 1).xM() - line.get(i).xM();
      double dy = line.get(i + 1).yM() - line.get(i).yM();
      double square = dx * dx + dy * dy;
      double share = square > 0 ? Math.max(0, Math.min(1, -(ax * dx + ay * dy) / square)) : 0;
      if (Math.hypot(ax + share * dx, ay + share * dy) <= besideM) {
        return true;
      }
    }
    return false;
  }
}
