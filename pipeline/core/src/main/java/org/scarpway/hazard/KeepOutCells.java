package org.scarpway.hazard;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryComponentFilter;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.PolygonExtracter;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Digits;
import org.scarpway.stage.UserError;

/**
 * The cells of a grid of which any point lies in one of several areas or nearer to one than a
 * margin; of a vehicle that is taken to be anywhere in a cell no point comes nearer. Polygons are
 * neither joined nor grown for it, which may take the square of their vertices: every edge is laid
 * over the rows that it and its margin reach, and cells that no edge comes near lie inside or
 * outside as their centres do. Work grows with edges times such rows and is bounded, memory with
 * cells.
 */
public final class KeepOutCells {
  /** The job's key for such areas. */
  static final String KEY = "hazard.keep_out";

  static void requireMargin(double marginM) {
    if (!(marginM >= 0) || Double.isInfinite(marginM)) {
      throw UserError.of(
          "hazard.margin_m",
          "margin is " + marginM + " m",
          "0 or more, finite",
          "correct it in the job file");
    }
  }

  /** Rows reached by edges, and rows crossed by outlines: some seconds. */
  private static final long MOST_REACHED = 200_000_000;

  /** Crossings that are sorted at a time. */
  private static final int MOST_AT_ONCE = 2_000_000;

  /** Share of an edge by which its ends may be missed by rounding. */
  private static final double AT_ENDS = 1e-9;

  /** Share of a cell by which an area that is drawn along its edge may overlap it by rounding. */
  static final double ROUNDING = 1e-6;

  private final GridSpec spec;
  private final double marginM;

  /** Cells whose centres lie inside. */
  private final RowRanges inside;

  /** Cells that edges come near. */
  private final RowRanges near;

  /**
   * @param areas in the CRS of the grid; points and lines count where there is a margin
   * @param source of the areas, as a refusal names it: a file or a key of the job
   * @throws UserError for a margin that is none, or more than can be laid out in good time
   */
  public KeepOutCells(List<Geometry> areas, double marginM, GridSpec spec, String source) {
    requireMargin(marginM);
    this.spec = spec;
    this.marginM = marginM;
    this.inside = new RowRanges(spec.rows());
    this.near = new RowRanges(spec.rows());
    List<double[]> lines = new ArrayList<>();
    areas.forEach(a -> a.apply((GeometryComponentFilter) g -> addLine(g, lines)));
    requireFew(lines, source);
    for (Geometry area : areas) {
      for (Object polygon : PolygonExtracter.getPolygons(area)) {
        double[][] rings = rings((Polygon) polygon);
        fill(rings);
        if (marginM == 0) {
          for (double[] ring : rings) {
            alongLine(ring);
          }
        }
      }
    }
    if (marginM > 0) {
      lines.forEach(this::alongLine);
    }
    inside.join();
    near.join();
  }

  /**
   * Marks cells of some rows.
   *
   * @param mask one byte per cell of these rows; {@code mark} is or-ed in
   */
  public void mark(int firstRow, int rows, byte[] mask, int mark) {
    mark(firstRow, 0, rows, spec.cols(), mask, mark);
  }

  /** Marks cells of a window; the same ones as of whole rows, to the last bit. */
  public void mark(int firstRow, int firstCol, int rows, int cols, byte[] mask, int mark) {
    mark(firstRow, firstCol, rows, cols, mask, mark, mark);
  }

  /**
   * Marks cells of a window in two ways; without a margin one that is marked as inside and not as
   * crossed lies in an area as a whole.
   *
   * @param insideMark for cells whose centres lie in an area
   * @param crossedMark for cells that an edge crosses or comes near
   */
  public void mark(
      int firstRow,
      int firstCol,
      int rows,
      int cols,
      byte[] mask,
      int insideMark,
      int crossedMark) {
    for (int row = firstRow; row < firstRow + rows; row++) {
      int at = (row - firstRow) * cols;
      inside.mark(row, firstCol, cols, at, mask, insideMark);
      near.mark(row, firstCol, cols, at, mask, crossedMark);
    }
  }

  private void requireFew(List<double[]> lines, String source) {
    long reached = 0;
    long edges = 0;
    for (double[] line : lines) {
      for (int k = 2; k < line.length; k += 2) {
        double north = Math.max(line[k - 1], line[k + 1]) + marginM;
        double south = Math.min(line[k - 1], line[k + 1]) - marginM;
        reached += 1 + endRowAbove(south) - firstRowBelow(north);
        edges++;
      }
    }
    if (reached > MOST_REACHED) {
      double share = MOST_REACHED / (double) reached;
      throw UserError.of(
          source,
          String.format(
              Locale.ROOT,
              "%d edges of polygons with a margin of %.4g m lie over %d rows of cells",
              edges,
              marginM,
              reached),
          "at most " + MOST_REACHED,
          Digits.text(
              "simplify the polygons to %d vertices, or set dem.cell_size_m to %s or more",
              (long) (edges * share), spec.cellYM() / share));
    }
  }

  /** Cells with their centres inside, by the even-odd rule, band of rows by band. */
  private void fill(double[][] rings) {
    int[] counts = new int[spec.rows() + 1];
    int top = spec.rows();
    int end = 0;
    for (double[] ring : rings) {
      for (int k = 1; k < ring.length; k += 2) {
        int row = firstRowAtOrBelow(ring[k]);
        top = Math.min(top, row);
        end = Math.max(end, row);
      }
      walk(ring, 0, spec.rows(), counts, null);
    }
    for (int from = top; from < end; ) {
      long room = 0;
      int to = from;
      while (to < end && (to == from || room + counts[to] <= MOST_AT_ONCE)) {
        room += counts[to++];
      }
      fillRows(rings, from, to, counts, new double[(int) room]);
      from = to;
    }
  }

  private void fillRows(double[][] rings, int from, int to, int[] counts, double[] crossings) {
    int[] next = new int[to];
    for (int row = from, at = 0; row < to; row++) {
      next[row] = at;
      at += counts[row];
    }
    for (double[] ring : rings) {
      walk(ring, from, to, next, crossings);
    }
    for (int row = from; row < to; row++) {
      int first = next[row] - counts[row];
      Arrays.sort(crossings, first, next[row]);
      for (int k = first; k + 1 < next[row]; k += 2) {
        inside.add(row, firstColAtOrEastOf(crossings[k]), firstColAtOrEastOf(crossings[k + 1]));
      }
    }
  }

  /**
   * Visits where the ring crosses the centre line of each row: counts, or stores the east
   * coordinate. An edge covers the rows with north end >= centre > south end, so that a vertex on a
   * centre line counts once.
   */
  private void walk(double[] ring, int fromRow, int toRow, int[] at, double[] crossings) {
    for (int k = 2; k < ring.length; k += 2) {
      // Always from north to south: an edge of two polygons is crossed at one place.
      int a = ring[k - 1] >= ring[k + 1] ? k - 2 : k;
      int b = 2 * k - 2 - a;
      int end = Math.min(toRow, firstRowAtOrBelow(ring[b + 1]));
      for (int row = Math.max(fromRow, firstRowAtOrBelow(ring[a + 1])); row < end; row++) {
        if (crossings == null) {
          at[row]++;
        } else {
          double share = (spec.yM(row) - ring[a + 1]) / (ring[b + 1] - ring[a + 1]);
          crossings[at[row]++] = ring[a] + share * (ring[b] - ring[a]);
        }
      }
    }
  }

  private void alongLine(double[] line) {
    for (int k = line.length == 2 ? 0 : 2; k < line.length; k += 2) {
      // A point is an edge to itself.
      int from = Math.max(0, k - 2);
      around(line[from], line[from + 1], line[k], line[k + 1]);
    }
  }

  /**
   * Cells that come nearer to an edge than the margin: on each row one range, as what lies about an
   * edge is convex, and so is what of that lies in the row. It reaches furthest west at the height
   * of the edge's western end, or as near to that as the row comes; east likewise.
   */
  private void around(double xA, double yA, double xB, double yB) {
    double top = Math.max(yA, yB);
    double low = Math.min(yA, yB);
    // Of an edge that runs north all heights between its ends are those of both.
    double westTop = xA == xB ? top : xA < xB ? yA : yB;
    double westLow = xA == xB ? low : westTop;
    double eastTop = xA == xB ? top : xA < xB ? yB : yA;
    double eastLow = xA == xB ? low : eastTop;
    double hairX = ROUNDING * spec.cellXM();
    double hairY = ROUNDING * spec.cellYM();
    int end = endRowAbove(low - marginM);
    for (int row = firstRowBelow(top + marginM); row < end; row++) {
      double north = Math.min(northM(row) - hairY, top + marginM);
      double south = Math.max(northM(row + 1) + hairY, low - marginM);
      double atWest = within(south, north, within(westLow, westTop, south));
      double atEast = within(south, north, within(eastLow, eastTop, south));
      double west = sideM(-1, xA, yA, xB, yB, atWest);
      double east = sideM(1, xA, yA, xB, yB, atEast);
      near.add(row, firstColEndingEastOf(west + hairX), firstColFrom(east - hairX));
    }
  }

  private static double within(double least, double most, double value) {
    return Math.max(least, Math.min(most, value));
  }

  /** How far east (side 1) or west (-1) what lies within the margin of an edge reaches at y. */
  private double sideM(int side, double xA, double yA, double xB, double yB, double y) {
    double reach = Double.NEGATIVE_INFINITY;
    double upA = y - yA;
    double upB = y - yB;
    if (Math.abs(upA) <= marginM) {
      reach = Math.max(reach, side * xA + Math.sqrt(marginM * marginM - upA * upA));
    }
    if (Math.abs(upB) <= marginM) {
      reach = Math.max(reach, side * xB + Math.sqrt(marginM * marginM - upB * upB));
    }
    double dx = xB - xA;
    double dy = yB - yA;
    double length = Math.sqrt(dx * dx + dy * dy);
    // Beside the edge: on the line that runs along it at the margin, between the ends of that.
    if (dy != 0) {
      double outX = marginM * Math.abs(dy) / length;
      double outY = -marginM * dx * Math.signum(dy) / length;
      double share = (upA - side * outY) / dy;
      if (share >= -AT_ENDS && share <= 1 + AT_ENDS) {
        reach = Math.max(reach, side * (xA + within(0, 1, share) * dx) + outX);
      }
    }
    return side * reach;
  }

  /** First row whose centre is not north of y, within [0, rows]. */
  private int firstRowAtOrBelow(double yM) {
    // One row early, since the quotient is rounded; the centres themselves decide.
    int row = (int) Math.max(0, Math.min(spec.rows(), (spec.northM() - yM) / spec.cellYM()) - 1);
    while (row < spec.rows() && spec.yM(row) > yM) {
      row++;
    }
    return row;
  }

  /** First column whose centre is not west of x, within [0, cols]. */
  private int firstColAtOrEastOf(double xM) {
    int col = (int) Math.max(0, Math.min(spec.cols(), (xM - spec.westM()) / spec.cellXM()) - 1);
    while (col < spec.cols() && spec.xM(col) < xM) {
      col++;
    }
    return col;
  }

  /** Where a row begins; the end of the row before. */
  private double northM(int row) {
    return spec.northM() - row * spec.cellYM();
  }

  /** First row that reaches below y, by more than rounding, within [0, rows]. */
  private int firstRowBelow(double yM) {
    double row = Math.floor((spec.northM() - yM) / spec.cellYM() + ROUNDING);
    return (int) within(0, spec.rows(), row);
  }

  /** Row after the last that reaches above y, by more than rounding, within [0, rows]. */
  private int endRowAbove(double yM) {
    double row = Math.ceil((spec.northM() - yM) / spec.cellYM() - ROUNDING);
    return (int) within(0, spec.rows(), row);
  }

  /** First column whose eastern end is east of x. */
  private int firstColEndingEastOf(double xM) {
    return (int) within(0, spec.cols(), Math.floor((xM - spec.westM()) / spec.cellXM()));
  }

  /** First column that does not begin west of x. */
  private int firstColFrom(double xM) {
    return (int) within(0, spec.cols(), Math.ceil((xM - spec.westM()) / spec.cellXM()));
  }

  private static double[][] rings(Polygon polygon) {
    if (polygon.isEmpty()) {
      return new double[0][];
    }
    double[][] rings = new double[1 + polygon.getNumInteriorRing()][];
    for (int k = 0; k < rings.length; k++) {
      LinearRing ring = k == 0 ? polygon.getExteriorRing() : polygon.getInteriorRingN(k - 1);
      rings[k] = coordinates(ring);
    }
    return rings;
  }

  private static void addLine(Geometry part, List<double[]> lines) {
    if (!part.isEmpty() && (part instanceof LineString || part instanceof Point)) {
      lines.add(coordinates(part));
    }
  }

  /** Coordinates x, y, x, y ... */
  private static double[] coordinates(Geometry line) {
    Coordinate[] c = line.getCoordinates();
    double[] xy = new double[2 * c.length];
    for (int k = 0; k < c.length; k++) {
      xy[2 * k] = c[k].x;
      xy[2 * k + 1] = c[k].y;
    }
    return xy;
  }
}
