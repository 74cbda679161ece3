package org.scarpway.audit;

import java.util.Arrays;
import org.scarpway.grid.GridSpec;
import org.scarpway.grid.Headings;
import org.scarpway.stage.Floats;
import org.scarpway.vehicle.GradeTable;
import org.scarpway.vehicle.TraversalCost;

/**
 * Recalculates one way piece by piece; a piece is the part of a line in one cell. Sums are recorded
 * at the end of each piece. A piece that the cell does not allow ends the drive ({@link #barred}).
 *
 * <p>Where a direction lies between two of the 32 headings both must be allowed. Energy that
 * braking returns is computed from the true heights of both ends, not from the sum of the gradients
 * between.
 */
final class Drive {
  /** Shares of a line that differ by less are rounding. */
  private static final double ROUNDING = 1e-9;

  /** Distance (in cells) from the border of two cells within which a line may lie in either. */
  private static final double BORDER = 1e-6;

  private final TraversalCost field;
  private final Floats heightM;
  private final GridSpec spec;
  private final Headings headings;
  private int[] cell = new int[64];
  private double[] row = new double[64];
  private double[] col = new double[64];
  private double[] timeS = new double[64];
  private double[] distanceM = new double[64];
  private double[] energyJ = new double[64];
  private int pieces;
  private String barred;
  private double nowS;
  private double nowM;
  private double reducedJ;
  private double startHeightM;

  private Drive(TraversalCost field, Floats heightM) {
    this.field = field;
    this.heightM = heightM;
    this.spec = field.spec();
    this.headings = Headings.of(spec);
  }

  /** Drives a way; {@code heightM} holds the height of each cell. */
  static Drive along(Way way, TraversalCost field, Floats heightM) {
    Drive d = new Drive(field, heightM);
    d.startHeightM = d.heightAt(way.row(0), way.col(0));
    d.note(d.cellAt(way.row(0), way.col(0)), way.row(0), way.col(0));
    for (int i = 1; i < way.corners() && d.barred == null; i++) {
      d.line(way.row(i - 1), way.col(i - 1), way.row(i), way.col(i), way.within(i));
    }
    return d;
  }

  /** Number of moments at which sums are recorded: the start, and the end of each piece. */
  int moments() {
    return pieces;
  }

  int cell(int i) {
    return cell[i];
  }

  double row(int i) {
    return row[i];
  }

  double col(int i) {
    return col[i];
  }

  double timeS(int i) {
    return timeS[i];
  }

  double distanceM(int i) {
    return distanceM[i];
  }

  /** Energy used up to a moment (J); NaN without an energy model. */
  double energyJ(int i) {
    return energyJ[i];
  }

  /** The reason why the drive ended before the end of the way, null if it did not. */
  String barred() {
    return barred;
  }

  private void line(double r0, double c0, double r1, double c1, int within) {
    double dr = r1 - r0;
    double dc = c1 - c0;
    if (dr == 0 && dc == 0) {
      return;
    }
    double[] cuts = within == Way.ANY ? cuts(r0, c0, dr, dc) : new double[] {0, 1};
    double planM = Math.hypot(dr * spec.cellYM(), dc * spec.cellXM());
    double east = dc * spec.cellXM() / planM;
    double north = -dr * spec.cellYM() / planM;
    for (int i = 1; i < cuts.length && barred == null; i++) {
      double from = cuts[i - 1];
      double to = cuts[i];
      if (to - from > ROUNDING) {
        double middle = 0.5 * (from + to);
        int in =
            within == Way.ANY ? allowing(r0 + middle * dr, c0 + middle * dc, east, north) : within;
        piece(in, east, north, (to - from) * planM, r0 + to * dr, c0 + to * dc);
      }
    }
  }

  /** Shares of a line at which it passes from one cell to the next, in order, with 0 and 1. */
  private static double[] cuts(double r0, double c0, double dr, double dc) {
    double[] all = new double[4 + (int) (Math.abs(dr) + Math.abs(dc) + 2)];
    int n = 0;
    all[n++] = 0;
    n = cuts(r0, dr, all, n);
    n = cuts(c0, dc, all, n);
    all[n++] = 1;
    Arrays.sort(all, 0, n);
    return Arrays.copyOf(all, n);
  }

  private static int cuts(double from, double d, double[] all, int n) {
    int at = n;
    if (d != 0) {
      double low = Math.min(from, from + d);
      double high = Math.max(from, from + d);
      for (double edge = Math.floor(low - 0.5) + 0.5; edge < high; edge++) {
        if (edge > low) {
          all[at++] = (edge - from) / d;
        }
      }
    }
    return at;
  }

  /** The cell of a point; on a border, the adjacent cell that allows the travel. */
  private int allowing(double r, double c, double east, double north) {
    int best = cellAt(r, c);
    double besideR = Math.abs(r + 0.5 - Math.rint(r + 0.5)) < BORDER ? BORDER : 0;
    double besideC = Math.abs(c + 0.5 - Math.rint(c + 0.5)) < BORDER ? BORDER : 0;
    for (int side = -1; side <= 1; side += 2) {
      int other = cellAt(r + side * besideR, c + side * besideC);
      best = timeSPerM(best, east, north) < timeSPerM(other, east, north) ? best : other;
    }
    return best;
  }

  private void piece(int in, double east, double north, double planM, double r, double c) {
    double sPerM = timeSPerM(in, east, north);
    if (!(sPerM < Double.POSITIVE_INFINITY)) {
      barred = "drives ground or a heading that is not allowed";
      note(in, r, c);
      return;
    }
    double g = grade(in, east, north);
    double surface = Math.sqrt(1 + g * g);
    GradeTable table = field.table(field.soil(in));
    double way = way(in, east, north);
    double traction = table.tractionJPerM(g) + (way - 1) * table.tractionJPerM(0);
    nowS += sPerM * planM;
    nowM += surface * way * planM;
    reducedJ += (traction * surface + table.hotelW() * sPerM - field.potentialJPerM() * g) * planM;
    note(in, r, c);
  }

  private void note(int in, double r, double c) {
    if (pieces == cell.length) {
      cell = Arrays.copyOf(cell, 2 * pieces);
      row = Arrays.copyOf(row, 2 * pieces);
      col = Arrays.copyOf(col, 2 * pieces);
      timeS = Arrays.copyOf(timeS, 2 * pieces);
      distanceM = Arrays.copyOf(distanceM, 2 * pieces);
      energyJ = Arrays.copyOf(energyJ, 2 * pieces);
    }
    cell[pieces] = in;
    row[pieces] = r;
    col[pieces] = c;
    timeS[pieces] = nowS;
    distanceM[pieces] = nowM;
    energyJ[pieces++] = reducedJ + field.potentialJPerM() * (heightAt(r, c) - startHeightM);
  }

  private double grade(int in, double east, double north) {
    return field.gradEast(in) * east + field.gradNorth(in) * north;
  }

  /** Length driven per metre of the straight line, including detours around rocks and tacks. */
  private double way(int in, double east, double north) {
    int k = headingBefore(east, north);
    double share = shareOfNext(k, east, north);
    double low = field.pathRatio(in, k);
    return share == 0
        ? low
        : (1 - share) * low + share * field.pathRatio(in, (k + 1) % Headings.COUNT);
  }

  private double timeSPerM(int in, double east, double north) {
    int k = headingBefore(east, north);
    boolean both = shareOfNext(k, east, north) > 0;
    if (!field.allows(in, k) || (both && !field.allows(in, (k + 1) % Headings.COUNT))) {
      return Double.POSITIVE_INFINITY;
    }
    double g = grade(in, east, north);
    double speedMs = Math.min(field.speedCapMs(in), field.table(field.soil(in)).speedMs(g));
    return speedMs > 0
        ? Math.sqrt(1 + g * g) * way(in, east, north) / speedMs
        : Double.POSITIVE_INFINITY;
  }

  /** The last heading, clockwise, that is not beyond a direction. */
  private int headingBefore(double east, double north) {
    int best = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int k = 0; k < Headings.COUNT; k++) {
      double clockwise =
          Math.atan2(
              headings.north(k) * east - headings.east(k) * north,
              headings.east(k) * east + headings.north(k) * north);
      clockwise = clockwise < -ROUNDING ? clockwise + 2 * Math.PI : clockwise;
      if (clockwise < least) {
        least = clockwise;
        best = k;
      }
    }
    return best;
  }

  /** Position of a direction between a heading (0) and the next one (1). */
  private double shareOfNext(int k, double east, double north) {
    int next = (k + 1) % Headings.COUNT;
    double off = headings.north(k) * east - headings.east(k) * north;
    double left = east * headings.north(next) - north * headings.east(next);
    return off < ROUNDING ? 0 : off / (off - left);
  }

  private int cellAt(double r, double c) {
    int inRow = Math.min(spec.rows() - 1, Math.max(0, (int) Math.floor(r + 0.5)));
    int inCol = Math.min(spec.cols() - 1, Math.max(0, (int) Math.floor(c + 0.5)));
    return inRow * spec.cols() + inCol;
  }

  /**
   * Height interpolated bilinearly between four cell centres (m); the cell's own height if one of
   * them has none.
   */
  private double heightAt(double r, double c) {
    double inRow = Math.min(spec.rows() - 1.0, Math.max(0, r));
    double inCol = Math.min(spec.cols() - 1.0, Math.max(0, c));
    int r0 = (int) inRow;
    int c0 = (int) inCol;
    int r1 = Math.min(r0 + 1, spec.rows() - 1);
    int c1 = Math.min(c0 + 1, spec.cols() - 1);
    double fr = inRow - r0;
    double fc = inCol - c0;
    double z =
        (1 - fr) * ((1 - fc) * heightM(r0, c0) + fc * heightM(r0, c1))
            + fr * ((1 - fc) * heightM(r1, c0) + fc * heightM(r1, c1));
    return Double.isNaN(z) ? heightM.get(cellAt(r, c)) : z;
  }

  private double heightM(int r, int c) {
    return heightM.get(r * spec.cols() + c);
  }
}
