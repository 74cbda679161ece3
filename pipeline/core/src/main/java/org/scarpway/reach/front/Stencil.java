package org.scarpway.reach.front;

import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Floats;

/**
 * The stencil of the update: the straight steps from a cell to the cells around it, and their
 * costs.
 *
 * <p>A far step ends on the square ring two cells away, at one of its 16 cells or at one of seven
 * points between neighbours; a near step ends on the ring of the 8 neighbours, at a cell or at one
 * of three points between. Every step has a code: {@code 8 * edge + eighths} for far steps, {@code
 * 128 + 4 * edge + quarters} for near ones, where the edge runs clockwise from its first ring cell.
 * Where the cost of the cell has a corner between the two ends of a far edge ({@link PolarCorner}),
 * one more step, {@code 160 + edge}, leads exactly to it.
 *
 * <p>A step costs its plan length times the mean of the costs of the cells it crosses, each by its
 * share of the length and on the heading of the step. The 32 headings of {@link Headings} are
 * exactly the ring cells and the middles of the far edges; costs at the eighths between them are
 * interpolated where the cost is smooth, else evaluated at their own grades, and require the
 * headings on both sides to be allowed. A step is allowed only if every cell it crosses allows it,
 * and where it passes through a corner of cells neither cell beside the corner may be a barrier.
 */
public final class Stencil {
  /** Step code of a cell without a path. */
  public static final int NONE = 255;

  /** Step code of a cell whose path is the straight line to a source. */
  public static final int STRAIGHT = 254;

  public static final int FAR = 16;
  public static final int NEAR = 8;
  public static final int EIGHTHS = 8;
  public static final int QUARTERS = 4;
  public static final int NEAR_CODES = FAR * EIGHTHS;
  public static final int CORNER_CODES = NEAR_CODES + NEAR * QUARTERS;
  public static final int CODES = CORNER_CODES + FAR;

  /**
   * Largest curvature of the cost over a far edge, as a share of the cost, for which a parabola is
   * used.
   */
  private static final double SMOOTH = 1.0 / 128;

  private static final double GAIN_ROUNDING = 1e-3;

  private final GridSpec spec;
  private final int cols;
  private final int[] farRow = new int[FAR];
  private final int[] farCol = new int[FAR];
  private final int[] far = new int[FAR];
  private final int[] middle = new int[FAR];
  private final int[] middle2 = new int[FAR];
  private final int[] beyond = new int[FAR];
  private final int[] nearRow = new int[NEAR];
  private final int[] nearCol = new int[NEAR];
  private final int[] near = new int[NEAR];
  private final double[] lengthM = new double[CODES];
  private final double[] edgeLengthM = new double[FAR];
  private final double[] farGain = new double[FAR];
  private final double[] nearGain = new double[NEAR];
  private final double nearestM;

  Stencil(GridSpec spec) {
    this.spec = spec;
    this.cols = spec.cols();
    for (int j = 0; j < FAR; j++) {
      int dr = Headings.dRow(2 * j) / 2;
      int dc = Headings.dCol(2 * j) / 2;
      farRow[j] = dr;
      farCol[j] = dc;
      far[j] = offset(dr, dc);
      middle[j] = offset(dr / 2, dc / 2);
      middle2[j] = offset(dr - dr / 2, dc - dc / 2);
    }
    for (int j = 0; j < NEAR; j++) {
      nearRow[j] = Headings.dRow(4 * j) / 4;
      nearCol[j] = Headings.dCol(4 * j) / 4;
      near[j] = offset(nearRow[j], nearCol[j]);
    }
    for (int s = 0; s < FAR; s++) {
      int even = even(s);
      int odd = odd(s);
      beyond[s] = middle[odd] == middle[even] ? middle2[odd] : middle[odd];
      edgeLengthM[s] = Double.POSITIVE_INFINITY;
      for (int i = 0; i < EIGHTHS; i++) {
        lengthM[s * EIGHTHS + i] = lengthM(farRow, farCol, s, i / (double) EIGHTHS);
        if (i > 0) {
          edgeLengthM[s] = Math.min(edgeLengthM[s], lengthM[s * EIGHTHS + i]);
        }
      }
    }
    for (int s = 0; s < NEAR; s++) {
      for (int i = 0; i < QUARTERS; i++) {
        lengthM[NEAR_CODES + s * QUARTERS + i] =
            lengthM(nearRow, nearCol, s, i / (double) QUARTERS);
      }
    }
    for (int s = 0; s < FAR; s++) {
      farGain[s] = gain(farRow, farCol, s, EIGHTHS);
    }
    for (int s = 0; s < NEAR; s++) {
      nearGain[s] = gain(nearRow, nearCol, s, QUARTERS);
    }
    this.nearestM = Math.min(spec.cellXM(), spec.cellYM());
  }

  private double gain(int[] dRow, int[] dCol, int edge, int points) {
    double least = 1;
    for (int i = 1; i < points; i++) {
      double share = i / (double) points;
      least =
          Math.min(
              least,
              Math.max(cosine(dRow, dCol, edge, share, 0), cosine(dRow, dCol, edge, share, 1)));
    }
    return least - GAIN_ROUNDING;
  }

  /** Cosine of the angle between the steps to a point of an edge and to one of its ends. */
  private double cosine(int[] dRow, int[] dCol, int edge, double share, int end) {
    int next = (edge + 1) % dRow.length;
    int to = end == 0 ? edge : next;
    double dx = (dCol[edge] + share * (dCol[next] - dCol[edge])) * spec.cellXM();
    double dy = (dRow[edge] + share * (dRow[next] - dRow[edge])) * spec.cellYM();
    double ex = dCol[to] * spec.cellXM();
    double ey = dRow[to] * spec.cellYM();
    return (dx * ex + dy * ey) / Math.sqrt((dx * dx + dy * dy) * (ex * ex + ey * ey));
  }

  private int offset(int dRow, int dCol) {
    return dRow * cols + dCol;
  }

  private double lengthM(int[] dRow, int[] dCol, int edge, double share) {
    int next = (edge + 1) % dRow.length;
    double dx = (dCol[edge] + share * (dCol[next] - dCol[edge])) * spec.cellXM();
    double dy = (dRow[edge] + share * (dRow[next] - dRow[edge])) * spec.cellYM();
    return Math.sqrt(dx * dx + dy * dy);
  }

  static int even(int edge) {
    return (edge & 1) == 0 ? edge : (edge + 1) & (FAR - 1);
  }

  static int odd(int edge) {
    return (edge & 1) != 0 ? edge : edge + 1;
  }

  int farRow(int j) {
    return farRow[j];
  }

  int farCol(int j) {
    return farCol[j];
  }

  int nearRow(int j) {
    return nearRow[j];
  }

  int nearCol(int j) {
    return nearCol[j];
  }

  /** Plan length of the shortest step to a point between the cells of a far edge (m). */
  double edgeLengthM(int edge) {
    return edgeLengthM[edge];
  }

  /**
   * Smallest cost of a step between the ends of an edge beyond the label of one end, as a share of
   * the cost of the step to that end: the saving of the straight line on ground where every heading
   * costs the same. Labels from steps that end between cells are therefore never lower than paths
   * between cells justify.
   */
  public double gain(int code) {
    if (code >= CORNER_CODES) {
      return farGain[code - CORNER_CODES];
    }
    return code < NEAR_CODES ? farGain[code / EIGHTHS] : nearGain[(code - NEAR_CODES) / QUARTERS];
  }

  /**
   * The smallest of these shares; it bounds by how much paths from cell to cell cost more than
   * labels near barred headings.
   */
  double leastGain() {
    double least = 1;
    for (int code = 0; code < CODES; code++) {
      least = Math.min(least, gain(code));
    }
    return least;
  }

  /**
   * The end of the edge (0 or 1) through which the path of a step between its ends is cheaper.
   *
   * @param first label at the first end
   * @param second label at the second end
   */
  public int throughEnd(Costs c, int cell, int code, double first, double second) {
    double via0 = first + gain(code) * cost(c, cell, toCell(code, 0));
    double via1 = second + gain(code) * cost(c, cell, toCell(code, 1));
    return via0 <= via1 ? 0 : 1;
  }

  /** Plan length of the shortest step of all (m). */
  double nearestM() {
    return nearestM;
  }

  /** Plan length of a step (m). */
  public double lengthM(int code) {
    return lengthM[code];
  }

  /** Plan length of the step to a point on a far edge, given in quarters (m). */
  double edgeLengthM(int edge, int quarter) {
    return lengthM[((edge * 4 + quarter) * 2) & (NEAR_CODES - 1)];
  }

  /** Plan length of the step to a point on a far edge, given as a share (m). */
  double farLengthM(int edge, double share) {
    return lengthM(farRow, farCol, edge, share);
  }

  /** True if a step ends on the grid; it then lies on it entirely. */
  public boolean inside(int cell, int code) {
    boolean near = code >= NEAR_CODES && code < CORNER_CODES;
    int edge = near ? (code - NEAR_CODES) / QUARTERS : code / EIGHTHS;
    boolean toCell = code == toCell(code, 0);
    int n = near ? NEAR : FAR;
    int next = toCell ? edge : (edge + 1) % n;
    int[] rows = near ? nearRow : farRow;
    int[] cols2 = near ? nearCol : farCol;
    int row = cell / cols;
    int col = cell % cols;
    return spec.holds(row + rows[edge], col + cols2[edge])
        && spec.holds(row + rows[next], col + cols2[next]);
  }

  /** Cell at the start of the edge on which the step ends. */
  public int first(int cell, int code) {
    if (code >= CORNER_CODES) {
      return cell + far[code - CORNER_CODES];
    }
    return cell + (code < NEAR_CODES ? far[code / EIGHTHS] : near[(code - NEAR_CODES) / QUARTERS]);
  }

  /** Cell before the first cell of the edge, along the ring. */
  int before(int cell, int code) {
    if (code >= CORNER_CODES) {
      return cell + far[(code - CORNER_CODES - 1) & (FAR - 1)];
    }
    return cell
        + (code < NEAR_CODES
            ? far[(code / EIGHTHS - 1) & (FAR - 1)]
            : near[((code - NEAR_CODES) / QUARTERS - 1) & (NEAR - 1)]);
  }

  /** Cell at the end of the edge on which the step ends; meaningless if the share is 0. */
  public int second(int cell, int code) {
    if (code >= CORNER_CODES) {
      return cell + far[(code - CORNER_CODES + 1) & (FAR - 1)];
    }
    return cell
        + (code < NEAR_CODES
            ? far[(code / EIGHTHS + 1) & (FAR - 1)]
            : near[((code - NEAR_CODES) / QUARTERS + 1) & (NEAR - 1)]);
  }

  /**
   * Position on the edge at which the step ends: 0 at the first cell, towards 1 at the second; NaN
   * for a step to a corner that does not exist.
   */
  public double share(Costs c, int cell, int code) {
    return code >= CORNER_CODES ? corner(c, cell, code - CORNER_CODES) : share(code);
  }

  private double corner(Costs c, int cell, int s) {
    boolean bends =
        bends(far(c, cell, s), farMiddle(c, cell, s), far(c, cell, (s + 1) & (FAR - 1)));
    double share = bends ? c.corner(cell, 2 * s) : Double.NaN;
    return isStep(share) ? share : Double.NaN;
  }

  /**
   * True if a separate step leads to a corner at this position; close to an end of the edge the
   * eighths suffice.
   */
  static boolean isStep(double share) {
    return share >= 1.0 / EIGHTHS && share <= 1 - 1.0 / EIGHTHS;
  }

  /** The position for a step that does not lead to a corner. */
  private static double share(int code) {
    return code < NEAR_CODES
        ? code % EIGHTHS / (double) EIGHTHS
        : (code - NEAR_CODES) % QUARTERS / (double) QUARTERS;
  }

  /** True if a step ends between two cells of its edge, not at the first. */
  public static boolean endsBetween(int code) {
    return code >= CORNER_CODES || share(code) > 0;
  }

  /** Code of the step to the first (0) or second (1) cell of the edge on which a step ends. */
  public static int toCell(int code, int end) {
    if (code >= CORNER_CODES) {
      return ((code - CORNER_CODES + end) & (FAR - 1)) * EIGHTHS;
    }
    return code < NEAR_CODES
        ? ((code / EIGHTHS + end) & (FAR - 1)) * EIGHTHS
        : NEAR_CODES + (((code - NEAR_CODES) / QUARTERS + end) & (NEAR - 1)) * QUARTERS;
  }

  /**
   * Largest value of the cells that a step may cross between its ends, negative infinity if it
   * crosses none or no value is known.
   */
  public double largestBetween(Floats values, int cell, int code) {
    int one = between(cell, code, 0);
    return one < 0
        ? Double.NEGATIVE_INFINITY
        : Math.max(at(values, one), at(values, between(cell, code, 1)));
  }

  /**
   * The first (0) or second (1) of the cells that a step may cross between its ends, -1 if it
   * crosses none.
   */
  public int between(int cell, int code, int which) {
    if (code >= NEAR_CODES && code < CORNER_CODES) {
      return -1;
    }
    boolean toCorner = code >= CORNER_CODES;
    int s = toCorner ? code - CORNER_CODES : code / EIGHTHS;
    boolean toCell = !toCorner && code % EIGHTHS == 0;
    if (which == 0) {
      return cell + (toCell ? middle[s] : middle[even(s)]);
    }
    return cell + (toCell ? middle2[s] : beyond[s]);
  }

  private static double at(Floats values, int cell) {
    float v = values.get(cell);
    return Float.isNaN(v) ? Double.NEGATIVE_INFINITY : v;
  }

  /** Heading of the step in units of the 32 headings; for steps to corners accurate to one unit. */
  public static double heading(int code) {
    if (code >= CORNER_CODES) {
      return 2 * (code - CORNER_CODES) + 1;
    }
    return code < NEAR_CODES ? code / 4.0 : code - NEAR_CODES;
  }

  int near(int j) {
    return near[j];
  }

  int far(int j) {
    return far[j];
  }

  /** Offset of the middle cell of the step to far cell {@code j}, or the first of two. */
  int middle(int j) {
    return middle[j];
  }

  int middle2(int j) {
    return middle2[j];
  }

  int beyond(int edge) {
    return beyond[edge];
  }

  /** Mean cost per metre of the step to far cell {@code j}. */
  double far(Costs c, int cell, int j) {
    int k = 2 * j;
    if ((j & 1) != 0) {
      return 0.25
          * (c.perM(cell, k)
              + c.perM(cell + middle[j], k)
              + c.perM(cell + middle2[j], k)
              + c.perM(cell + far[j], k));
    }
    if ((j & 3) == 2 && cornerBarred(c, cell, j)) {
      return Double.POSITIVE_INFINITY;
    }
    return 0.25 * c.perM(cell, k)
        + 0.5 * c.perM(cell + middle[j], k)
        + 0.25 * c.perM(cell + far[j], k);
  }

  boolean cornerBarred(Costs c, int cell, int j) {
    int row = farRow[j] / 2 * cols;
    int col = farCol[j] / 2;
    return c.barrier(cell + row)
        || c.barrier(cell + col)
        || c.barrier(cell + 2 * row + col)
        || c.barrier(cell + row + 2 * col);
  }

  /** Mean cost per metre of the step to the middle of far edge {@code s}. */
  double farMiddle(Costs c, int cell, int s) {
    int k = 2 * s + 1;
    int even = even(s);
    return 0.25 * c.perM(cell, k)
        + 0.375 * c.perM(cell + middle[even], k)
        + 0.125 * c.perM(cell + beyond[s], k)
        + 0.125 * (c.perM(cell + far[even], k) + c.perM(cell + far[odd(s)], k));
  }

  /** True if the cost curves so much over a far edge that it may have a corner there. */
  static boolean bends(double start, double middle, double end) {
    return !(Math.abs(start + end - 2 * middle) <= SMOOTH * middle);
  }

  /**
   * Lower bound on the cost per metre at a corner; a single corner cannot lower it further.
   *
   * @param share position of the corner on the edge, 0 to 1
   */
  static double leastAtCorner(double start, double middle, double end, double share) {
    double near = share < 0.5 ? start : end;
    double off = share < 0.5 ? 2 * share : 2 - 2 * share;
    double bend = Math.abs(start + end - 2 * middle);
    double most = 0.5 * middle;
    return near + off * (middle - near) - (1 - off) * (bend < most ? bend : most);
  }

  /**
   * Mean cost per metre between two headings, from the costs at the start, middle and end of a far
   * edge: the parabola through the three, clamped between the two nearest; linear interpolation if
   * the third is not allowed.
   */
  static double farBetween(int eighth, double start, double middle, double end) {
    double near = eighth < 4 ? start : end;
    double other = eighth < 4 ? end : start;
    if (!(near + middle < Double.POSITIVE_INFINITY)) {
      return Double.POSITIVE_INFINITY;
    }
    double t = eighth * (1.0 / EIGHTHS);
    if (other == Double.POSITIVE_INFINITY) {
      double w = Math.abs(t - 0.5) * 2;
      return w * near + (1 - w) * middle;
    }
    double parabola = middle + (t - 0.5) * (end - start + (2 * t - 1) * (start + end - 2 * middle));
    double low = near < middle ? near : middle;
    double high = near < middle ? middle : near;
    return parabola < low ? low : parabola > high ? high : parabola;
  }

  /**
   * Mean cost per metre where the cost has a corner: linear interpolation between the known points.
   *
   * @param at position of the corner on the edge, 0 to 1
   * @param corner cost per metre at the corner
   */
  static double farBetween(
      int eighth, double start, double middle, double end, double at, double corner) {
    double t = eighth * (1.0 / EIGHTHS);
    double from = eighth < 4 ? 0 : 0.5;
    double to = from + 0.5;
    double first = eighth < 4 ? start : middle;
    double last = eighth < 4 ? middle : end;
    if (at > from && at <= t) {
      from = at;
      first = corner;
    } else if (at > t && at < to) {
      to = at;
      last = corner;
    }
    return first + (t - from) / (to - from) * (last - first);
  }

  /**
   * Mean cost per metre of the step to a point on far edge {@code s}, given as a share, at the
   * grades of the step's own direction.
   */
  double chord(Costs c, int cell, int s, double share) {
    int k = share < 0.5 ? 2 * s : 2 * s + 1;
    double between = 2 * (s + share) - k;
    double e = c.eastAt(k, between);
    double n = c.northAt(k, between);
    double length = Math.sqrt(e * e + n * n);
    e /= length;
    n /= length;
    int even = even(s);
    double toOdd = 0.25 * (even == s ? share : 1 - share);
    return 0.25 * c.along(cell, k, between, e, n)
        + (0.5 - toOdd) * c.along(cell + middle[even], k, between, e, n)
        + toOdd * c.along(cell + beyond[s], k, between, e, n)
        + (0.25 - toOdd) * c.along(cell + far[even], k, between, e, n)
        + toOdd * c.along(cell + far[odd(s)], k, between, e, n);
  }

  /** Mean cost per metre of the step to neighbour {@code j}. */
  double near(Costs c, int cell, int j) {
    int k = 4 * j;
    if ((j & 1) != 0 && sideBarred(c, cell, j)) {
      return Double.POSITIVE_INFINITY;
    }
    return 0.5 * (c.perM(cell, k) + c.perM(cell + near[j], k));
  }

  /** True if a cell beside the step to diagonal neighbour {@code j} is barred. */
  boolean sideBarred(Costs c, int cell, int j) {
    return c.barrier(cell + nearRow[j] * cols) || c.barrier(cell + nearCol[j]);
  }

  /** Mean cost per metre of the step to a point between neighbours, 1 to 3 quarters along. */
  double nearBetween(Costs c, int cell, int s, int quarter) {
    int k = 4 * s + quarter;
    double t = quarter / (double) QUARTERS;
    return 0.5
        * (c.perM(cell, k)
            + (1 - t) * c.perM(cell + near[s], k)
            + t * c.perM(cell + near[(s + 1) & (NEAR - 1)], k));
  }

  /** Cost of a whole step. */
  public double cost(Costs c, int cell, int code) {
    return cost(c, cell, code, share(c, cell, code));
  }

  /**
   * Cost of a whole step; for a step to a corner the position on its edge is given, since it was
   * determined by another quantity.
   */
  public double cost(Costs c, int cell, int code, double share) {
    if (code >= CORNER_CODES) {
      return cornerPerM(c, cell, code - CORNER_CODES, share)
          * farLengthM(code - CORNER_CODES, share);
    }
    double perM;
    if (code < NEAR_CODES) {
      int s = code / EIGHTHS;
      int i = code % EIGHTHS;
      perM = i == 0 ? far(c, cell, s) : i == 4 ? farMiddle(c, cell, s) : farBetween(c, cell, s, i);
    } else {
      int s = (code - NEAR_CODES) / QUARTERS;
      int i = (code - NEAR_CODES) % QUARTERS;
      perM = i == 0 ? near(c, cell, s) : nearBetween(c, cell, s, i);
    }
    return perM * lengthM[code];
  }

  private double farBetween(Costs c, int cell, int s, int eighth) {
    double start = far(c, cell, s);
    double middle = farMiddle(c, cell, s);
    double end = far(c, cell, (s + 1) & (FAR - 1));
    return farBetween(c, cell, s, eighth, start, middle, end);
  }

  /** Mean cost per metre between two headings, with a corner if there is one. */
  double farBetween(Costs c, int cell, int s, int eighth, double start, double middle, double end) {
    double near = eighth < 4 ? start : end;
    if (!(near + middle < Double.POSITIVE_INFINITY)) {
      return Double.POSITIVE_INFINITY;
    }
    double at = bends(start, middle, end) ? c.corner(cell, 2 * s) : Double.NaN;
    return Double.isNaN(at)
        ? farBetween(eighth, start, middle, end)
        : farBetween(
            eighth, start, middle, end, at, cornerPerM(c, cell, s, at, start, middle, end));
  }

  private double cornerPerM(Costs c, int cell, int s, double share) {
    if (Double.isNaN(share)) {
      return Double.POSITIVE_INFINITY;
    }
    return cornerPerM(
        c,
        cell,
        s,
        share,
        far(c, cell, s),
        farMiddle(c, cell, s),
        far(c, cell, (s + 1) & (FAR - 1)));
  }

  private double cornerPerM(
      Costs c, int cell, int s, double share, double start, double middle, double end) {
    return (share < 0.5 ? start : end) + middle < Double.POSITIVE_INFINITY
        ? Math.max(chord(c, cell, s, share), leastAtCorner(start, middle, end, share))
        : Double.POSITIVE_INFINITY;
  }
}
