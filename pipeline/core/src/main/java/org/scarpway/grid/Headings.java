package org.scarpway.grid;

/**
 * The 32 discrete headings, clockwise from north: the directions from a cell to the cells of the
 * square ring four cells away. They include the directions to the 8 neighbours, to the 16 cells of
 * the ring two cells away, and the headings midway between these, so that a wavefront can be
 * interpolated between any two adjacent directions of either ring. On cells that are not square the
 * unit vectors follow the cell's shape.
 */
public final class Headings {
  /** Number of headings; headings are numbered from 0 (north) clockwise. */
  public static final int COUNT = 32;

  private static final int RING = 4;

  private final double[] east = new double[COUNT];
  private final double[] north = new double[COUNT];

  private Headings(double cellXM, double cellYM) {
    for (int k = 0; k < COUNT; k++) {
      double dx = dCol(k) * cellXM;
      double dy = -dRow(k) * cellYM;
      double length = Math.sqrt(dx * dx + dy * dy);
      east[k] = dx / length;
      north[k] = dy / length;
    }
  }

  /** Returns the headings on the cells of a grid. */
  public static Headings of(GridSpec spec) {
    return new Headings(spec.cellXM(), spec.cellYM());
  }

  /** Column offset (positive east) of the ring cell in the direction of heading k, -4 to 4. */
  public static int dCol(int k) {
    int side = Math.floorMod(k + RING, COUNT) / (2 * RING);
    int along = Math.floorMod(k + RING, COUNT) % (2 * RING) - RING;
    return switch (side) {
      case 0 -> along;
      case 1 -> RING;
      case 2 -> -along;
      default -> -RING;
    };
  }

  /** Row offset (positive south) of the ring cell in the direction of heading k, -4 to 4. */
  public static int dRow(int k) {
    return dCol(Math.floorMod(k - COUNT / 4, COUNT));
  }

  /** East component of the unit vector of heading k. */
  public double east(int k) {
    return east[k];
  }

  /** North component of the unit vector of heading k. */
  public double north(int k) {
    return north[k];
  }

  /** Azimuth of heading k, degrees clockwise from grid north, [0, 360). */
  public double azimuthDeg(int k) {
    double a = Math.toDegrees(Math.atan2(east[k], north[k]));
    return a < 0 ? a + 360 : a;
  }
}
