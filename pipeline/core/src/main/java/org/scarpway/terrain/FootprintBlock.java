package org.scarpway.terrain;

/**
 * Running footprint sums over a block of cells, row by row; the implementation of {@link
 * FootprintPlane}. Not thread-safe.
 *
 * <p>Local coordinates: x counts columns from the west edge of the westernmost footprint, y rows
 * from the north edge of the northernmost one. Runs of cells are indexed by the quantity that is
 * constant along them: x for vertical runs, x + y for the runs down the south-east and north-west
 * sides, x - y for the other two. Three sums are stored per run: z, y z and z2; the sum of x z
 * follows from that of y z.
 */
final class FootprintBlock {
  private final int firstRow;
  private final int firstCol;
  private final int outCols;
  private final int width;
  private final int stripRows;
  private final int pad;
  private final int halfRows;
  private final int halfCols;
  private final int halfDiagonal;
  private final int fullRows;
  private final long n;
  private final double sumDx2;
  private final double sumDy2;
  private final double quantumM;
  private final int cols;

  /** Quantised heights, 0 where void. */
  private final int[] z;

  /** 1 where void; null if the block has no voids. */
  private final byte[] voids;

  private final Runs vertical;
  private final Runs southEast;
  private final Runs southWest;
  private final Runs northWest;
  private final Runs northEast;
  private int nextRow;

  /** Sums along runs of cells, each array indexed by the run. */
  private static final class Runs {
    final long[] z;
    final long[] yz;
    final long[] zz;
    final int[] voids;

    /** The cell (x, y) belongs to run origin + x + perRow * y. */
    final int origin;

    final int perRow;

    Runs(int length, int origin, int perRow, boolean withVoids) {
      this.origin = origin;
      this.perRow = perRow;
      z = new long[length];
      yz = new long[length];
      zz = new long[length];
      voids = withVoids ? new int[length] : null;
    }
  }

  FootprintBlock(
      float[] heightM,
      int cols,
      int firstRow,
      int endRow,
      int firstCol,
      int endCol,
      Footprint footprint,
      HeightScale scale) {
    this.cols = cols;
    this.firstRow = firstRow;
    this.firstCol = firstCol;
    this.outCols = endCol - firstCol;
    this.halfRows = footprint.halfRows();
    this.halfCols = footprint.halfCols();
    this.halfDiagonal = footprint.halfDiagonal();
    this.fullRows = footprint.fullRows();
    this.n = footprint.cells();
    this.sumDx2 = footprint.sumDx2();
    this.sumDy2 = footprint.sumDy2();
    this.quantumM = scale.quantumM();
    this.width = outCols + 2 * halfCols;
    this.stripRows = endRow - firstRow + 2 * halfRows;
    this.pad = halfDiagonal + halfCols + 1;
    this.z = new int[width * stripRows];
    this.voids = quantise(heightM, scale);
    int length = width + stripRows + 2 * pad;
    boolean withVoids = voids != null;
    vertical = new Runs(length, 0, 0, withVoids);
    southEast = new Runs(length, 0, 1, withVoids);
    southWest = new Runs(length, stripRows, -1, withVoids);
    northWest = new Runs(length, 0, 1, withVoids);
    northEast = new Runs(length, stripRows, -1, withVoids);
    // Sums for the centre in row halfRows.
    for (int y = halfRows - fullRows; y <= halfRows + fullRows; y++) {
      add(vertical, y, 1);
    }
    for (int y = halfRows + fullRows + 1; y <= 2 * halfRows; y++) {
      add(southEast, y, 1);
      add(southWest, y, 1);
    }
    for (int y = 0; y < halfRows - fullRows; y++) {
      add(northWest, y, 1);
      add(northEast, y, 1);
    }
    nextRow = firstRow;
  }

  private byte[] quantise(float[] heightM, HeightScale scale) {
    double perM = 1 / scale.quantumM();
    double middle = scale.middleM();
    byte[] found = null;
    for (int y = 0; y < stripRows; y++) {
      int from = (firstRow - halfRows + y) * cols + firstCol - halfCols;
      int to = y * width;
      for (int x = 0; x < width; x++) {
        double h = heightM[from + x];
        // The cast turns NaN into 0.
        z[to + x] = (int) Math.rint((h - middle) * perM);
        if (Double.isNaN(h)) {
          found = found == null ? new byte[z.length] : found;
          found[to + x] = 1;
        }
      }
    }
    return found;
  }

  /** Adds ({@code sign} 1) or subtracts (-1) the cells of row y. */
  private void add(Runs runs, int y, int sign) {
    int from = y * width;
    int to = pad + runs.origin + runs.perRow * y;
    long signedY = (long) sign * y;
    long[] sumZ = runs.z;
    long[] sumYz = runs.yz;
    long[] sumZz = runs.zz;
    for (int x = 0; x < width; x++) {
      long v = z[from + x];
      long signed = sign * v;
      sumZ[to + x] += signed;
      sumYz[to + x] += signedY * v;
      sumZz[to + x] += signed * v;
    }
    if (voids != null) {
      for (int x = 0; x < width; x++) {
        runs.voids[to + x] += sign * voids[from + x];
      }
    }
  }

  /** Moves all runs one row south. */
  private void advance(int y) {
    int enters = y + 1 + fullRows;
    int leaves = y - fullRows;
    add(vertical, enters, 1);
    add(vertical, leaves, -1);
    if (fullRows == halfRows) {
      return;
    }
    int south = y + 1 + halfRows;
    int north = y - halfRows;
    add(southEast, south, 1);
    add(southEast, enters, -1);
    add(southWest, south, 1);
    add(southWest, enters, -1);
    add(northWest, leaves, 1);
    add(northWest, north, -1);
    add(northEast, leaves, 1);
    add(northEast, north, -1);
  }

  /** Computes one row; rows must be requested consecutively from the first. */
  void fillRow(
      int row,
      double cellXM,
      double cellYM,
      float[] gradEast,
      float[] gradNorth,
      float[] roughnessM) {
    if (row != nextRow) {
      throw new IllegalStateException("row " + row + " asked for, next is " + nextRow);
    }
    int y = row - firstRow + halfRows;
    if (row > firstRow) {
      advance(y - 1);
    }
    nextRow++;
    double eastScale = quantumM / (sumDx2 * cellXM);
    double northScale = -quantumM / (sumDy2 * cellYM);
    // Index of each run for the footprint centred on x: entering at the east, leaving at the west.
    int east = pad + halfCols;
    int southEastAt = pad + halfDiagonal + y;
    int northEastAt = pad + stripRows + halfDiagonal - y;
    int west = pad - halfCols - 1;
    int southWestAt = pad + stripRows - halfDiagonal - 1 - y;
    int northWestAt = pad - halfDiagonal - 1 + y;
    long sumZ = 0;
    long sumXz = 0;
    long sumYz = 0;
    long sumZz = 0;
    int voidCells = 0;
    int centreAt = y * width;
    int outAt = row * cols + firstCol - halfCols;
    for (int x = -halfCols; x < width - halfCols; x++) {
      long vE = vertical.z[east + x];
      long se = southEast.z[southEastAt + x];
      long ne = northEast.z[northEastAt + x];
      long vW = vertical.z[west + x];
      long sw = southWest.z[southWestAt + x];
      long nw = northWest.z[northWestAt + x];
      long seY = southEast.yz[southEastAt + x];
      long neY = northEast.yz[northEastAt + x];
      long swY = southWest.yz[southWestAt + x];
      long nwY = northWest.yz[northWestAt + x];
      sumZ += (vE + se + ne) - (vW + sw + nw);
      sumYz += (vertical.yz[east + x] + seY + neY) - (vertical.yz[west + x] + swY + nwY);
      sumZz +=
          (vertical.zz[east + x] + southEast.zz[southEastAt + x] + northEast.zz[northEastAt + x])
              - (vertical.zz[west + x]
                  + southWest.zz[southWestAt + x]
                  + northWest.zz[northWestAt + x]);
      // On a run x + y or x - y is constant, so its sum of x z follows from those of z and y z.
      sumXz +=
          (x + halfCols) * vE
              + ((x + halfDiagonal + y) * se - seY)
              + ((x + halfDiagonal - y) * ne + neY)
              - (x - halfCols - 1) * vW
              - ((x - halfDiagonal - 1 - y) * sw + swY)
              - ((x - halfDiagonal - 1 + y) * nw - nwY);
      if (voids != null) {
        voidCells +=
            (vertical.voids[east + x]
                    + southEast.voids[southEastAt + x]
                    + northEast.voids[northEastAt + x])
                - (vertical.voids[west + x]
                    + southWest.voids[southWestAt + x]
                    + northWest.voids[northWestAt + x]);
      }
      if (x < halfCols) {
        continue;
      }
      int out = outAt + x;
      if (voidCells != 0) {
        gradEast[out] = Float.NaN;
        gradNorth[out] = Float.NaN;
        roughnessM[out] = Float.NaN;
        continue;
      }
      long zc = z[centreAt + x];
      double xz = sumXz - x * sumZ;
      double yz = sumYz - y * sumZ;
      double rise = sumZ - n * zc;
      double squares = sumZz - 2 * zc * sumZ + n * zc * zc;
      double residual = squares - rise * rise / n - xz * xz / sumDx2 - yz * yz / sumDy2;
      gradEast[out] = (float) (xz * eastScale);
      gradNorth[out] = (float) (yz * northScale);
      roughnessM[out] = (float) (Math.sqrt(Math.max(0, residual) / n) * quantumM);
    }
  }
}
