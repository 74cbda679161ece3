package org.scarpway.terrain;

import org.scarpway.grid.FloatGrid;

/**
 * The terrain as hazard, mobility and walking are computed from it: all of the ground, or some rows
 * or a window of it. One value per cell, NaN where the window of a derivative touches a void or the
 * edge. Gradients are rise over run towards east and north.
 *
 * @param heightM heights above the datum of the elevation model (m), NaN for no data
 * @param slopeDeg slope of the ground (degrees), 0 to 90
 * @param gradEast rise over run towards the east
 * @param gradNorth rise over run towards the north
 * @param roughnessM RMS distance from the plane of the footprint (m), 0 or more
 * @param stepM largest height difference within the wheel spacing, less the local plane (m), 0 or
 *     more
 * @param convexityM height above the middle of a chord as long as the wheelbase (m), largest of all
 *     headings; negative in a hollow
 * @param extrapolation extrapolation of roughness or step below the cell size, null if both were
 *     measured at the vehicle's own scale
 * @param lengths baselines over which the layers are measured, null if unknown
 */
public record Terrain(
    FloatGrid heightM,
    FloatGrid slopeDeg,
    FloatGrid gradEast,
    FloatGrid gradNorth,
    FloatGrid roughnessM,
    FloatGrid stepM,
    FloatGrid convexityM,
    Extrapolation extrapolation,
    Lengths lengths) {

  /**
   * Checks that every layer is there and has the same cells.
   *
   * @throws IllegalArgumentException for layers of different grids
   */
  public Terrain {
    heightM
        .spec()
        .requireCellsOf(
            slopeDeg.spec(),
            gradEast.spec(),
            gradNorth.spec(),
            roughnessM.spec(),
            stepM.spec(),
            convexityM.spec());
  }

  /** Creates terrain whose layers were measured over unknown lengths. */
  public Terrain(
      FloatGrid heightM,
      FloatGrid slopeDeg,
      FloatGrid gradEast,
      FloatGrid gradNorth,
      FloatGrid roughnessM,
      FloatGrid stepM,
      FloatGrid convexityM) {
    this(heightM, slopeDeg, gradEast, gradNorth, roughnessM, stepM, convexityM, null, null);
  }
}
