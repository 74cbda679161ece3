package org.scarpway.reach.corridor;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import org.scarpway.reach.clearance.BottleneckImpact;
import org.scarpway.reach.clearance.Clearance;
import org.scarpway.reach.clearance.MaxWidthQueue;
import org.scarpway.reach.question.CorridorResult.PinchPoint;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;
import org.scarpway.stage.Workers;

/**
 * Finds the pinch points of a route, one for each passage. Among all paths that pass the same gaps
 * as the line, the widest (maximum-bottleneck path) is followed: through points whose free discs
 * the line crosses, by a maximum spanning tree (Prim 1957, <i>Shortest connection networks and some
 * generalizations</i>, Bell System Tech. J. 36(6):1389-1401). A pinch point is a minimum of its
 * width between two stretches that are at least half as wide again. A line that runs close to a
 * wall in open ground therefore has none there.
 */
final class CorridorPinchPoints {
  private static final int MOST = 10;
  private static final double WIDER = 1.5;

  /** A width above this share of the route's length is not narrow. */
  private static final double MOST_SHARE = 0.1;

  /** Relative rounding of widths and lengths: what is narrow but for rounding is narrow. */
  private static final double ROUNDING = 1e-6;

  private final Clearance clearance;
  private final Centreline line;
  private final List<Passage> found = new ArrayList<>();

  /**
   * @param point narrowest place on the clearance's lattice
   * @param distanceM along the centreline
   */
  private record Passage(int point, double xM, double yM, double widthM, double distanceM) {}

  private CorridorPinchPoints(Clearance clearance, Centreline line) {
    this.clearance = clearance;
    this.line = line;
  }

  /** Returns the pinch points, narrowest first; empty without barriers. */
  static List<PinchPoint> along(
      Centreline line, Clearance clearance, BottleneckImpact closing, Workers workers) {
    CorridorPinchPoints n = new CorridorPinchPoints(clearance, line);
    for (int leg = 0; leg < line.legs(); leg++) {
      n.look(line.legFrom(leg), line.legTo(leg), workers);
    }
    n.found.sort(Comparator.comparingDouble(Passage::widthM));
    // Long ways have many passages, and the ground behind one is a look at all ground.
    List<Passage> narrowest = n.found.subList(0, Math.min(MOST, n.found.size()));
    double[] behindM2 = new double[narrowest.size()];
    List<Runnable> closings = new ArrayList<>();
    for (int i = 0; i < behindM2.length; i++) {
      int k = i;
      closings.add(() -> behindM2[k] = n.behindM2(narrowest.get(k), closing));
    }
    workers.all(closings);
    List<PinchPoint> points = new ArrayList<>();
    for (int i = 0; i < behindM2.length; i++) {
      Passage p = narrowest.get(i);
      points.add(new PinchPoint(p.xM(), p.yM(), p.widthM(), p.distanceM(), behindM2[i]));
    }
    return points;
  }

  private double behindM2(Passage p, BottleneckImpact closing) {
    int[] across = closing.across(p.point());
    BitSet behind = across == null ? null : closing.behind(across);
    return behind == null ? Double.NaN : behind.cardinality() * clearance.spec().cellAreaM2();
  }

  private void look(int from, int to, Workers workers) {
    List<Integer> cells = line.cells().subList(from, to + 1);
    int[] way = widestWay(cells, clearance.toCentresM(cells, workers));
    clearance.giveBack();
    List<Integer> pinches = new ArrayList<>();
    int least = 0;
    double widestBefore = 0;
    for (int i = 0; i < way.length; i++) {
      double w = clearance.widthAtM(way[i]);
      double leastM = clearance.widthAtM(way[least]);
      boolean pinch = Math.min(widestBefore, w) * (1 + ROUNDING) >= WIDER * leastM;
      if (pinch && leastM <= MOST_SHARE * line.distanceM() * (1 + ROUNDING)) {
        pinches.add(way[least]);
      }
      if (pinch || w >= widestBefore) {
        widestBefore = w;
        least = i;
      } else if (w < leastM) {
        least = i;
      }
    }
    for (int point : pinches) {
      keep(point, from, to);
    }
  }

  /** Adds a pinch point unless an earlier leg passed through the same passage. */
  private void keep(int point, int from, int to) {
    double x = clearance.xM(point);
    double y = clearance.yM(point);
    double widthM = clearance.widthAtM(point);
    for (Passage other : found) {
      double apartM = Math.hypot(other.xM() - x, other.yM() - y);
      if (apartM <= Math.min(widthM, other.widthM())) {
        return;
      }
    }
    ProfilePoint nearest = line.points().get(from);
    for (ProfilePoint p : line.points().subList(from, to + 1)) {
      if (Math.hypot(p.xM() - x, p.yM() - y) < Math.hypot(nearest.xM() - x, nearest.yM() - y)) {
        nearest = p;
      }
    }
    found.add(new Passage(point, x, y, widthM, nearest.distanceM()));
  }

  private int[] widestWay(List<Integer> cells, Floats toLineM) {
    int rows = clearance.rows();
    int cols = clearance.cols();
    int start = clearance.centre(cells.get(0));
    int end = clearance.centre(cells.get(cells.size() - 1));
    Bytes before = Bytes.of(toLineM.size(), clearance.scratch(toLineM.size()));
    before.set(start, step(0, 0));
    MaxWidthQueue queue = new MaxWidthQueue(clearance.scratch(8L * toLineM.size()));
    queue.add(start, clearance.widthAtM(start));
    while (before.get(end) == 0) {
      int p = queue.poll();
      int row = p / cols;
      int col = p % cols;
      for (int r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++) {
        for (int c = Math.max(0, col - 1); c <= Math.min(cols - 1, col + 1); c++) {
          int to = r * cols + c;
          float w = clearance.widthAtM(to);
          if (before.get(to) == 0 && w > 0 && toLineM.get(to) <= w / 2 * (1 + ROUNDING)) {
            before.set(to, step(r - row, c - col));
            queue.add(to, w);
          }
        }
      }
    }
    int n = 1;
    for (int p = end; p != start; p -= stepped(before.get(p))) {
      n++;
    }
    int[] way = new int[n];
    for (int p = end; n > 0; p -= stepped(before.get(p))) {
      way[--n] = p;
    }
    return way;
  }

  /** Code of a step to a point or one of the eight beside it; never 0. */
  private static byte step(int rows, int cols) {
    return (byte) (5 + 3 * rows + cols);
  }

  /** Change of the point's index by a step. */
  private int stepped(byte step) {
    return ((step - 1) / 3 - 1) * clearance.cols() + (step - 1) % 3 - 1;
  }
}
