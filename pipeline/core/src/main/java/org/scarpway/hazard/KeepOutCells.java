package org.scarpway.hazard;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/**
 * The cells of a grid whose centres lie in an area. Work and memory grow with vertices plus rows
 * that outlines cross, and work with cells, never with their product.
 */
public final class KeepOutCells {
  private final GridSpec spec;
  private final int[] firstOfRow;
  private final double[] crossings;

  /**
   * @param area valid polygons in the CRS of the grid
   */
  public KeepOutCells(Geometry area, GridSpec spec) {
    this.spec = spec;
    double[][] rings = rings(area);
    firstOfRow = new int[spec.rows() + 1];
    for (double[] ring : rings) {
      walk(ring, spec, firstOfRow, null, null);
    }
    // Counts become starts.
    long total = 0;
    for (int row = 0; row <= spec.rows(); row++) {
      int count = firstOfRow[row];
      firstOfRow[row] = (int) Math.min(total, Integer.MAX_VALUE);
      total += count;
    }
    if (total > Integer.MAX_VALUE - 8) {
      throw UserError.of(
          "hazard.keep_out",
          "outlines cross the rows of the grid " + total + " times",
          "fewer than 2^31",
          "simplify the outlines");
    }
    crossings = new double[(int) total];
    int[] next = Arrays.copyOf(firstOfRow, spec.rows());
    for (double[] ring : rings) {
      walk(ring, spec, null, next, crossings);
    }
    for (int row = 0; row < spec.rows(); row++) {
      Arrays.sort(crossings, firstOfRow[row], firstOfRow[row + 1]);
    }
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
    for (int row = firstRow; row < firstRow + rows; row++) {
      markRow(row, firstCol, cols, (row - firstRow) * cols, mask, mark);
    }
  }

  /**
   * Visits where the ring crosses the centre line of each row: counts, or stores the east
   * coordinate. An edge covers the rows with north end >= centre > south end, so that a vertex on a
   * centre line counts once.
   */
  private static void walk(
      double[] ring, GridSpec spec, int[] counts, int[] next, double[] crossings) {
    for (int k = 2; k < ring.length; k += 2) {
      double xA = ring[k - 2];
      double yA = ring[k - 1];
      double xB = ring[k];
      double yB = ring[k + 1];
      double north = Math.max(yA, yB);
      double south = Math.min(yA, yB);
      int from = firstRowAtOrBelow(spec, north);
      int end = firstRowAtOrBelow(spec, south);
      for (int row = from; row < end; row++) {
        if (counts != null) {
          counts[row]++;
        } else {
          crossings[next[row]++] = xA + (spec.yM(row) - yA) / (yB - yA) * (xB - xA);
        }
      }
    }
  }

  /** First row whose centre is not north of y, within [0, rows]. */
  private static int firstRowAtOrBelow(GridSpec spec, double yM) {
    double guess = Math.ceil((spec.northM() - yM) / spec.cellYM() - 0.5);
    int row = (int) Math.max(0, Math.min(spec.rows(), guess));
    // The guess is rounded; the centres themselves decide.
    while (row > 0 && spec.yM(row - 1) <= yM) {
      row--;
    }
    while (row < spec.rows() && spec.yM(row) > yM) {
      row++;
    }
    return row;
  }

  private void markRow(int row, int firstCol, int cols, int at, byte[] mask, int mark) {
    for (int k = firstOfRow[row]; k + 1 < firstOfRow[row + 1]; k += 2) {
      int col = Math.max(firstCol, firstColAtOrEastOf(spec, crossings[k]));
      int endCol = Math.min(firstCol + cols, firstColAtOrEastOf(spec, crossings[k + 1]));
      for (int i = at + col - firstCol; i < at + endCol - firstCol; i++) {
        mask[i] |= (byte) mark;
      }
    }
  }

  /** First column whose centre is not west of x, within [0, cols]. */
  private static int firstColAtOrEastOf(GridSpec spec, double xM) {
    double guess = Math.ceil((xM - spec.westM()) / spec.cellXM() - 0.5);
    int col = (int) Math.max(0, Math.min(spec.cols(), guess));
    while (col > 0 && spec.xM(col - 1) >= xM) {
      col--;
    }
    while (col < spec.cols() && spec.xM(col) < xM) {
      col++;
    }
    return col;
  }

  /** Coordinates x, y, x, y ... of every ring of every polygon. */
  private static double[][] rings(Geometry area) {
    return collectRings(area).stream()
        .map(
            ring -> {
              var sequence = ring.getCoordinateSequence();
              double[] xy = new double[2 * sequence.size()];
              for (int k = 0; k < sequence.size(); k++) {
                xy[2 * k] = sequence.getX(k);
                xy[2 * k + 1] = sequence.getY(k);
              }
              return xy;
            })
        .toArray(double[][]::new);
  }

  private static List<LinearRing> collectRings(Geometry area) {
    List<LinearRing> rings = new ArrayList<>();
    for (int g = 0; g < area.getNumGeometries(); g++) {
      if (area.getGeometryN(g) instanceof Polygon polygon && !polygon.isEmpty()) {
        rings.add(polygon.getExteriorRing());
        for (int h = 0; h < polygon.getNumInteriorRing(); h++) {
          rings.add(polygon.getInteriorRingN(h));
        }
      }
    }
    return rings;
  }
}
