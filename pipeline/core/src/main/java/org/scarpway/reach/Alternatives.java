package org.scarpway.reach;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.CorridorResult.Alternative;
import org.scarpway.reach.ReachRequest.Quantity;

/** Ways that are found while the ground of earlier ones costs more; kept if they share little. */
final class Alternatives {
  /** What ground of earlier ways costs when looking for others. */
  private static final double AVOIDANCE = 3;

  /** The same where that ground is a narrow passage: a second way through it is hardly another. */
  private static final double MOST_AVOIDANCE = 30;

  private static final float DEAREST = 1000;

  /** Half width of the ground that a way takes, in shares of the best way's length. */
  private static final double TAKEN_SHARE = 0.05;

  private static final int MORE_TRIES = 3;

  private final GridSpec spec;
  private final Clearance clearance;
  private final double besideM;
  private final boolean[] taken;
  private final float[] factor;

  private Alternatives(GridSpec spec, Clearance clearance, double besideM) {
    this.spec = spec;
    this.clearance = clearance;
    this.besideM = besideM;
    this.taken = new boolean[spec.cells()];
    this.factor = new float[spec.cells()];
    Arrays.fill(factor, 1);
  }

  /** How far from a way its ground extends (m). */
  static double besideM(GridSpec spec, Centreline best) {
    return Math.max(3 * spec.cellM(), TAKEN_SHARE * best.distanceM());
  }

  /**
   * @param drive the best way when the cost of each cell is multiplied by a factor
   * @return as many as were found, at most as many as the request wants
   */
  static List<Alternative> of(
      CorridorRequest request,
      Centreline best,
      double bestCost,
      Quantity quantity,
      Clearance clearance,
      Function<float[], Centreline> drive) {
    Alternatives a =
        new Alternatives(clearance.spec(), clearance, besideM(clearance.spec(), best));
    List<Alternative> found = new ArrayList<>();
    a.take(best, true);
    // Some ways found are not different enough; their ground is dearer for the next.
    int tries = request.alternatives() == 0 ? 0 : request.alternatives() + MORE_TRIES;
    for (int i = 0; found.size() < request.alternatives() && i < tries; i++) {
      Centreline other = drive.apply(a.factor);
      double sharedPct = a.sharedPct(other);
      boolean kept = sharedPct <= request.mostSharedPct();
      if (kept) {
        found.add(
            new Alternative(
                found.size() + 1,
                other.timeS(),
                other.energyJ(),
                other.distanceM(),
                bestCost > 0 ? 100 * (other.amount(quantity) / bestCost - 1) : Double.NaN,
                sharedPct,
                other.points()));
      }
      a.take(other, kept);
    }
    return found;
  }

  /** Makes the ground of a way dearer and, if the way is kept, counts it as taken. */
  private void take(Centreline way, boolean kept) {
    int rows = (int) (besideM / spec.cellYM());
    int cols = (int) (besideM / spec.cellXM());
    boolean[] now = new boolean[taken.length];
    int stride = Math.max(1, Math.min(rows, cols) / 16);
    for (int i = 0; i < way.cells().size(); i += stride) {
      int row = way.cells().get(i) / spec.cols();
      int col = way.cells().get(i) % spec.cols();
      for (int dr = -rows; dr <= rows; dr++) {
        for (int dc = -cols; dc <= cols; dc++) {
          if (spec.holds(row + dr, col + dc)
              && Math.hypot(dr * spec.cellYM(), dc * spec.cellXM()) <= besideM) {
            now[(row + dr) * spec.cols() + col + dc] = true;
          }
        }
      }
    }
    for (int i = 0; i < now.length; i++) {
      if (now[i]) {
        double narrow = Math.max(1, 2 * besideM / Math.max(clearance.widthM(i), spec.cellM()));
        factor[i] *= (float) Math.min(MOST_AVOIDANCE, AVOIDANCE * narrow);
        factor[i] = Math.min(DEAREST, factor[i]);
        taken[i] |= kept;
      }
    }
  }

  private double sharedPct(Centreline way) {
    double shared = 0;
    for (int i = 0; i < way.cells().size(); i++) {
      shared += taken[way.cells().get(i)] ? way.crossedM().get(i) : 0;
    }
    return way.distanceM() > 0 ? 100 * shared / way.distanceM() : 100;
  }
}
