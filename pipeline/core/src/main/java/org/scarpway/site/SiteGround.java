package org.scarpway.site;

import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;

/**
 * The ground on which sites are compared, read row by row: in memory or, if it is larger than
 * memory, from finished rasters. Classes are those of the vehicle whose no-go ground is used.
 */
public interface SiteGround extends AutoCloseable {
  GridSpec spec();

  /** Reads the slope (deg) of the cells of a row. */
  void readSlopeDeg(int row, float[] into);

  /** Reads the hazard (0 to 1) of the cells of a row. */
  void readHazard01(int row, float[] into);

  /** Reads the class of the cells of a row, as in {@link org.scarpway.vehicle.Mobility}. */
  void readClass(int row, byte[] into);

  @Override
  default void close() {}

  /** Creates ground from grids in memory. */
  static SiteGround of(FloatGrid slopeDeg, FloatGrid hazard01, ByteGrid cls) {
    GridSpec spec = slopeDeg.spec();
    int cols = spec.cols();
    return new SiteGround() {
      @Override
      public GridSpec spec() {
        return spec;
      }

      @Override
      public void readSlopeDeg(int row, float[] into) {
        System.arraycopy(slopeDeg.values(), row * cols, into, 0, cols);
      }

      @Override
      public void readHazard01(int row, float[] into) {
        System.arraycopy(hazard01.values(), row * cols, into, 0, cols);
      }

      @Override
      public void readClass(int row, byte[] into) {
        System.arraycopy(cls.values(), row * cols, into, 0, cols);
      }
    };
  }
}
