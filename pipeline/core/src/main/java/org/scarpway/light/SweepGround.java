package org.scarpway.light;

import java.util.BitSet;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Floats;
import org.scarpway.stage.ScratchFile;

/**
 * Heights (m) of a grid by rows and by columns, so that a sweep in any direction passes over lines
 * that lie one behind the other. Where no height is known, that of wider ground; NaN where that has
 * none either.
 */
public final class SweepGround {
  /** Rows that are turned into columns at a time. */
  private static final int STRIP_ROWS = 64;

  private final GridSpec spec;
  private final Floats byRows;
  private final Floats byColumns;

  /** Cells whose height is that of the wider ground; null for none. */
  private final BitSet filled;

  private final double lowestM;

  private SweepGround(
      GridSpec spec, Floats byRows, Floats byColumns, BitSet filled, double lowestM) {
    this.spec = spec;
    this.byRows = byRows;
    this.byColumns = byColumns;
    this.filled = filled;
    this.lowestM = lowestM;
  }

  /**
   * Copies the heights.
   *
   * @param file where the copies go; null for the heap
   */
  public static SweepGround of(HeightRows heights, ScratchFile file) {
    return of(heights, null, file);
  }

  /**
   * Copies the heights.
   *
   * @param far wider ground for cells without height, or null
   * @param file where the copies go; null for the heap
   */
  public static SweepGround of(HeightRows heights, FarGround far, ScratchFile file) {
    GridSpec spec = heights.spec();
    Floats rows = Floats.of(spec.cells(), file);
    Floats columns = Floats.of(spec.cells(), file);
    float[] strip = new float[STRIP_ROWS * spec.cols()];
    float[] column = new float[STRIP_ROWS];
    BitSet filled = far == null ? null : new BitSet(spec.cells());
    double lowest = far == null ? Double.POSITIVE_INFINITY : far.lowestM();
    for (int from = 0; from < spec.rows(); from += STRIP_ROWS) {
      int n = Math.min(STRIP_ROWS, spec.rows() - from);
      heights.read(from, n, strip);
      for (int i = 0; i < n * spec.cols(); i++) {
        float z = strip[i];
        lowest = z < lowest ? z : lowest;
        if (far != null && Float.isNaN(z)) {
          strip[i] =
              (float)
                  far.heightM(
                      spec.xM(i % spec.cols()), spec.yM(from + Math.floorDiv(i, spec.cols())));
          filled.set(from * spec.cols() + i);
        }
      }
      rows.write(from * spec.cols(), strip, 0, n * spec.cols());
      for (int col = 0; col < spec.cols(); col++) {
        for (int k = 0; k < n; k++) {
          column[k] = strip[k * spec.cols() + col];
        }
        columns.write(col * spec.rows() + from, column, 0, n);
      }
    }
    return new SweepGround(spec, rows, columns, filled, lowest);
  }

  /** Georeference of the heights. */
  public GridSpec spec() {
    return spec;
  }

  /** True if the height of a cell is known, other than by wider ground. */
  public boolean knows(int row, int col) {
    return !Double.isNaN(heightM(row, col))
        && (filled == null || !filled.get(row * spec.cols() + col));
  }

  /**
   * Tangent of the dip of the horizon over level ground at the lowest height known: where rays run
   * off the data the body itself is taken to stand there, so that no slope which falls to the edge
   * of the data is a horizon far below it.
   *
   * @param radiusM radius of the body
   * @param eyeRadiusM way from its centre to the eye
   */
  double lowestTangent(double radiusM, double eyeRadiusM) {
    double low = radiusM + lowestM;
    return -StrictMath.sqrt(Math.max(0, (eyeRadiusM - low) * (eyeRadiusM + low))) / low;
  }

  /** Height (m) of a cell. */
  double heightM(int row, int col) {
    return byRows.get(row * spec.cols() + col);
  }

  /** Reads a row, or a column from the north. */
  void read(boolean column, int index, float[] into) {
    int n = column ? spec.rows() : spec.cols();
    (column ? byColumns : byRows).read(index * n, into, 0, n);
  }

  /**
   * Height (m) between cells: straight along the grid line that the point lies on.
   *
   * @param alongColumn true if the point lies on the line through the centres of column {@code
   *     line}, false on that of row {@code line}
   * @param at place on that line in cells, from the centre of the first one
   */
  double onLine(boolean alongColumn, int line, double at) {
    int n = alongColumn ? spec.rows() : spec.cols();
    int first = Math.max(0, Math.min(n - 2, (int) Math.floor(at)));
    double f = at - first;
    Floats lines = alongColumn ? byColumns : byRows;
    double a = lines.get(line * n + first);
    return f == 0 ? a : a * (1 - f) + lines.get(line * n + Math.min(n - 1, first + 1)) * f;
  }
}
