package org.scarpway.light;

import java.nio.ByteBuffer;
import java.nio.ShortBuffer;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.ScratchFile;

/**
 * Elevation of the horizon for every product cell and azimuth, for one eye height: a plane for each
 * azimuth, in steps of 1/364 degree, the finest that hold 90.
 */
public final class Horizons {
  private static final double PER_DEG = 364;

  private final GridSpec spec;
  private final ShortBuffer[] planes;
  private final int[] atEdge;

  /**
   * @param spec the product cells
   * @param azimuths number of azimuths, evenly spaced clockwise from the map's y axis
   * @param file where the planes go; null for the heap
   */
  Horizons(GridSpec spec, int azimuths, ScratchFile file) {
    this.spec = spec;
    this.planes = new ShortBuffer[azimuths];
    this.atEdge = new int[spec.cells()];
    for (int a = 0; a < azimuths; a++) {
      ByteBuffer room =
          file == null
              ? ByteBuffer.allocate(Short.BYTES * spec.cells())
              : file.take(Short.BYTES * spec.cells());
      planes[a] = room.asShortBuffer();
    }
  }

  /** Georeference of the product cells. */
  public GridSpec spec() {
    return spec;
  }

  /** Number of azimuths. */
  public int azimuths() {
    return planes.length;
  }

  /** Stores the plane of an azimuth, and counts the cells whose horizon lies at the data's edge. */
  void put(int azimuth, short[] steps, boolean[] edge) {
    planes[azimuth].put(0, steps);
    synchronized (atEdge) {
      for (int i = 0; i < edge.length; i++) {
        atEdge[i] += edge[i] ? 1 : 0;
      }
    }
  }

  /** The stored step of an elevation (degrees, from -90 to 90). */
  static short step(double elevationDeg) {
    return (short) Math.rint(elevationDeg * PER_DEG);
  }

  /** Elevation (degrees) of a stored step. */
  static float deg(int step) {
    return (float) (step / PER_DEG);
  }

  /** Elevation (degrees) of the horizon of a cell in an azimuth by its number. */
  public float elevationDeg(int azimuth, int cell) {
    return deg(planes[azimuth].get(cell));
  }

  /**
   * Reads cells of a plane, in steps.
   *
   * @param azimuth number of the azimuth
   * @param firstCell first cell
   * @param into receives as many cells as it has room for
   */
  void read(int azimuth, int firstCell, short[] into) {
    planes[azimuth].get(firstCell, into, 0, into.length);
  }

  /**
   * Share (0 to 1) of the azimuths in which the horizon of a cell lies at the edge of the data, so
   * that ground beyond may stand higher.
   */
  public float edgeShare(int cell) {
    return (float) atEdge[cell] / planes.length;
  }
}
