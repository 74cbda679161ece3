package org.scarpway.reach.clearance;

import org.scarpway.grid.GridSpec;
import org.scarpway.grid.LowerEnvelope;
import org.scarpway.stage.Floats;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.TraversalCost;

/**
 * Clearance of the open ground: exact Euclidean distances to the nearest barrier, measured from its
 * edge (Felzenszwalb &amp; Huttenlocher 2012, <i>Distance transforms of sampled functions</i>,
 * Theory of Computing 8:415-428), infinite without any. The edge of the grid is no barrier.
 *
 * <p>Distances are stored at the centres, corners and edge midpoints of all cells, a lattice of
 * half cells. The narrowest place between two barrier cells is the midpoint between their nearest
 * points, which is always a point of this lattice. The bottleneck width of a passage, twice the
 * largest distance across it, is therefore exact, whether the passage is an odd or even number of
 * cells wide, straight or slanting.
 */
public final class Clearance {
  private final TraversalCost field;
  private final GridSpec spec;
  private final int rows;
  private final int cols;
  private final Floats widthM;

  private Clearance(TraversalCost field, Floats widthM) {
    this.field = field;
    this.spec = field.spec();
    this.rows = 2 * spec.rows() + 1;
    this.cols = 2 * spec.cols() + 1;
    this.widthM = widthM;
  }

  public static Clearance of(TraversalCost field, Workers workers) {
    GridSpec spec = field.spec();
    int rows = 2 * spec.rows() + 1;
    int cols = 2 * spec.cols() + 1;
    Floats widthM = lattice(spec, field.scratch((long) Float.BYTES * rows * cols));
    workers.overRows(
        rows,
        (from, to) -> {
          float[] row = new float[cols];
          for (int r = from; r < to; r++) {
            markBarriers(field, row, r);
            widthM.write(r * cols, row, 0, cols);
          }
        });
    toNearest(spec, widthM, 2, workers);
    return new Clearance(field, widthM);
  }

  private static Floats lattice(GridSpec spec, ScratchFile file) {
    return Floats.of(Math.multiplyExact(2 * spec.rows() + 1, 2 * spec.cols() + 1), file);
  }

  /**
   * Sets the lattice to 0 on the points of barrier cells, their edges included, and to infinity
   * elsewhere.
   */
  private static void markBarriers(TraversalCost field, float[] points, int row) {
    GridSpec spec = field.spec();
    int above = Math.max(0, (row - 1) / 2);
    int below = Math.min(spec.rows() - 1, row / 2);
    for (int c = 0; c < points.length; c++) {
      int left = Math.max(0, (c - 1) / 2);
      int right = Math.min(spec.cols() - 1, c / 2);
      boolean barrier =
          field.allowed(above * spec.cols() + left) == 0
              || field.allowed(above * spec.cols() + right) == 0
              || field.allowed(below * spec.cols() + left) == 0
              || field.allowed(below * spec.cols() + right) == 0;
      points[c] = barrier ? 0 : Float.POSITIVE_INFINITY;
    }
  }

  /**
   * Distance transform: replaces a lattice of 0 and infinity by the distance (m) to the nearest
   * point with 0, times a factor.
   */
  private static void toNearest(GridSpec spec, Floats lattice, double factor, Workers workers) {
    int rows = 2 * spec.rows() + 1;
    int cols = 2 * spec.cols() + 1;
    workers.overRows(
        rows,
        (from, to) -> {
          float[] row = new float[cols];
          for (int r = from; r < to; r++) {
            lattice.read(r * cols, row, 0, cols);
            alongRow(row, spec.cellXM() / 2);
            lattice.write(r * cols, row, 0, cols);
          }
        });
    // Columns are processed in bands for cache locality.
    workers.overRows(
        cols,
        (from, to) -> {
          int n = to - from;
          float[] band = new float[rows * n];
          for (int r = 0; r < rows; r++) {
            lattice.read(r * cols + from, band, r * n, n);
          }
          LowerEnvelope envelope = new LowerEnvelope(rows);
          for (int c = 0; c < n; c++) {
            envelope.along(band, c, n, rows, spec.cellYM() / 2);
          }
          for (int i = 0; i < band.length; i++) {
            band[i] = (float) (factor * Math.sqrt(band[i]));
          }
          for (int r = 0; r < rows; r++) {
            lattice.write(r * cols + from, band, r * n, n);
          }
        });
  }

  /** Distance (m) of every lattice point to the nearest of some cell centres. */
  public Floats toCentresM(Iterable<Integer> cells, Workers workers) {
    Floats distanceM = lattice(spec, scratch((long) Float.BYTES * rows * cols));
    distanceM.fill(Float.POSITIVE_INFINITY);
    for (int cell : cells) {
      distanceM.set(centre(cell), 0);
    }
    toNearest(spec, distanceM, 1, workers);
    return distanceM;
  }

  /** A scratch file for working data of that size, null if they fit on the heap. */
  public ScratchFile scratch(long bytes) {
    return field.scratch(bytes);
  }

  /** Releases working data in scratch files that are no longer used. */
  public void giveBack() {
    if (field.beyondHeap()) {
      field.memory().freeScratch();
    }
  }

  /** Lattice rows. */
  public int rows() {
    return rows;
  }

  /** Lattice columns. */
  public int cols() {
    return cols;
  }

  /** Lattice point in the middle of a cell. */
  public int centre(int cell) {
    return (2 * (cell / spec.cols()) + 1) * cols + 2 * (cell % spec.cols()) + 1;
  }

  /** Easting of a lattice point (m). */
  public double xM(int point) {
    return spec.westM() + point % cols * spec.cellXM() / 2;
  }

  /** Northing of a lattice point (m). */
  public double yM(int point) {
    int row = point / cols;
    return spec.northM() - row * spec.cellYM() / 2;
  }

  public GridSpec spec() {
    return spec;
  }

  /** Diameter of the largest disc about a lattice point that touches no barrier (m). */
  public float widthAtM(int point) {
    return widthM.get(point);
  }

  /** Reads the diameters of {@code n} points from {@code first} on (m). */
  void readWidthsM(int first, float[] into, int n) {
    readWidthsM(first, into, 0, n);
  }

  /** Reads the diameters of {@code n} points from {@code first} on (m) to {@code at}. */
  void readWidthsM(int first, float[] into, int at, int n) {
    widthM.read(first, into, at, n);
  }

  /** Diameter of the largest disc about the cell's centre that touches no barrier (m). */
  public float widthM(int cell) {
    return widthM.get(centre(cell));
  }

  /**
   * Diameter of the largest free disc about the cell's centre or one of its lattice points to the
   * south and east (m).
   */
  float widestM(int cell) {
    int centre = centre(cell);
    float inRow = Math.max(widthM.get(centre), widthM.get(centre + 1));
    float below = Math.max(widthM.get(centre + cols), widthM.get(centre + cols + 1));
    return Math.max(inRow, below);
  }

  private static void alongRow(float[] row, double stepM) {
    double d = Double.POSITIVE_INFINITY;
    for (int i = 0; i < row.length; i++) {
      d = row[i] == 0 ? 0 : d + stepM;
      row[i] = (float) d;
    }
    d = Double.POSITIVE_INFINITY;
    for (int i = row.length - 1; i >= 0; i--) {
      d = row[i] == 0 ? 0 : d + stepM;
      double near = Math.min(d, row[i]);
      row[i] = (float) (near * near);
    }
  }
}
