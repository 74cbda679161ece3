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
 * Rasterises keep-out areas: the cells of which any point lies in an area or closer to one than the
 * margin. A vehicle assumed to be anywhere in an unmarked cell is therefore never closer than the
 * margin. Polygons are neither merged nor buffered, which may take time quadratic in the number of
 * vertices. Instead every edge is rasterised over the rows that it and its margin touch, and all
 * other cells are inside or outside as their centres are. The cost is proportional to edges times
 * those rows and is bounded; memory is proportional to the number of cells.
 */
public final class KeepOutCells {
  /** Job key of keep-out areas. */
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

  /**
   * Maximum number of rows touched by edges, and of rows crossed by outlines: a few seconds of
   * computation.
   */
  private static final long MOST_REACHED = 200_000_000;

  /** Maximum number of crossings sorted at a time. */
  private static final int MOST_AT_ONCE = 2_000_000;

  /** Relative tolerance of rounding at the ends of an edge. */
  private static final double AT_ENDS = 1e-9;

  /**
   * Overlap, as a share of a cell, that is attributed to rounding if an area is drawn along the
   * cell's edge.
   */
  static final double ROUNDING = 1e-6;

  private final GridSpec spec;
  private final double marginM;

  /** Cells whose centres lie inside. */
  private final RowRanges inside;

  /** Cells within the margin of an edge. */
  private final RowRanges near;

  /**
   * @param areas geometries in the CRS of the grid; points and lines are included if there is a
   *     margin
   * @param marginM distance kept from every area (m)
   * @param source file or job key of the areas, for error messages
   * @throws UserError if the margin is invalid, or if rasterising would take too long
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
   * @param mask one byte per cell of these rows; {@code mark} is combined by OR
   */
  public void mark(int firstRow, int rows, byte[] mask, int mark) {
    mark(firstRow, 0, rows, spec.cols(), mask, mark);
  }

  /** Marks cells of a window; bit-identical to marking whole rows. */
  public void mark(int firstRow, int firstCol, int rows, int cols, byte[] mask, int mark) {
    mark(firstRow, firstCol, rows, cols, mask, mark, mark);
  }

  /**
   * Marks cells of a window with two marks. Without a margin, a cell that is marked as inside but
   * not as crossed lies entirely in an area.
   *
   * @param insideMark mark for cells whose centre lies in an area
   * @param crossedMark mark for cells that an edge crosses or that lie within its margin
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

  /** Finds the cells whose centre is inside by the even-odd rule, in bands of rows. */
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
   * Finds the crossings of the ring with the centre line of each row and counts them or stores
   * their east coordinate. An edge covers the rows with north end >= centre > south end, so that a
   * vertex on a centre line is counted once.
   */
  private void walk(double[] ring, int fromRow, int toRow, int[] at, double[] crossings) {
    for (int k = 2; k < ring.length; k += 2) {
      // Always from north to south, so that an edge shared by two polygons gives identical
      // crossings.
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
      // A point is an edge from itself to itself.
      int from = Math.max(0, k - 2);
      around(line[from], line[from + 1], line[k], line[k + 1]);
    }
  }

  /**
   * Marks the cells closer to an edge than the margin. They form one range per row, because the
   * buffer of an edge is convex and so is its intersection with the row. Its westernmost point is
   * at the northing of the edge's western end, or at the nearest northing within the row; east
   * likewise.
   */
  private void around(double xA, double yA, double xB, double yB) {
    double top = Math.max(yA, yB);
    double low = Math.min(yA, yB);
    // On an edge that runs north, western and eastern end both span all northings of the edge.
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

  /** Easting of the eastern (side 1) or western (-1) boundary of an edge's buffer at northing y. */
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
    // Beside the edge: on the line parallel to it at the margin, between its ends.
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

  /** First row whose centre is at or south of y, within [0, rows]. */
  private int firstRowAtOrBelow(double yM) {
    // Start one row early, since the quotient is rounded; the centres themselves decide.
    int row = (int) Math.max(0, Math.min(spec.rows(), (spec.northM() - yM) / spec.cellYM()) - 1);
    while (row < spec.rows() && spec.yM(row) > yM) {
      row++;
    }
    return row;
  }

  /** First column whose centre is at or east of x, within [0, cols]. */
  private int firstColAtOrEastOf(double xM) {
    int col = (int) Math.max(0, Math.min(spec.cols(), (xM - spec.westM()) / spec.cellXM()) - 1);
    while (col < spec.cols() && spec.xM(col) < xM) {
      col++;
    }
    return col;
  }

  /** Northing of the north edge of a row. */
  private double northM(int row) {
    return spec.northM() - row * spec.cellYM();
  }

  /** First row that extends south of y by more than rounding, within [0, rows]. */
  private int firstRowBelow(double yM) {
    double row = Math.floor((spec.northM() - yM) / spec.cellYM() + ROUNDING);
    return (int) within(0, spec.rows(), row);
  }

  /** One past the last row that extends north of y by more than rounding, within [0, rows]. */
  private int endRowAbove(double yM) {
    double row = Math.ceil((spec.northM() - yM) / spec.cellYM() - ROUNDING);
    return (int) within(0, spec.rows(), row);
  }

  /** First column whose east edge is east of x. */
  private int firstColEndingEastOf(double xM) {
    return (int) within(0, spec.cols(), Math.floor((xM - spec.westM()) / spec.cellXM()));
  }

  /** First column whose west edge is at or east of x. */
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

  /** Returns the coordinates as x, y, x, y ... */
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
