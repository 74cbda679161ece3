package org.scarpway.terrain;

import java.util.List;
import org.scarpway.grid.FloatGrid;

/**
 * Terrain derivatives, one value per cell, NaN where the window of a derivative touches a void or
 * the edge. Gradients are rise over run towards east and north; aspect is the downslope azimuth
 * clockwise from north, NaN on level ground.
 *
 * @param heightM heights above the datum of the elevation model (m), NaN for no data
 * @param slopeDeg slope of the ground (degrees), 0 to 90
 * @param aspectDeg azimuth of the steepest descent (degrees clockwise from grid north), [0, 360);
 *     NaN on level ground
 * @param gradEast rise over run towards the east
 * @param gradNorth rise over run towards the north
 * @param roughnessM RMS distance from the plane of the footprint (m), 0 or more
 * @param stepM largest height difference within the wheel spacing, less the local plane (m), 0 or
 *     more
 * @param ruggednessM ruggedness of Riley et al. 1999 (m), not detrended
 * @param convexityM height above the middle of a chord as long as the wheelbase (m), largest of all
 *     headings; negative in a hollow
 * @param slopeSigmaDeg one-sigma error of the slope (degrees), null if the height error is unknown
 * @param aspectSigmaDeg one-sigma error of the aspect (degrees), null likewise
 * @param slopeOverLimit01 probability that the slope exceeds the limit of the parameters, null if
 *     the height error or the limit is unknown
 * @param extrapolation extrapolation of roughness or step below the cell size, null if both were
 *     measured at the vehicle's own scale
 * @param lengths baselines over which the layers are measured, null if unknown
 * @param notes scales of measurement and their limitations, one line each
 */
public record Terrain(
    FloatGrid heightM,
    FloatGrid slopeDeg,
    FloatGrid aspectDeg,
    FloatGrid gradEast,
    FloatGrid gradNorth,
    FloatGrid roughnessM,
    FloatGrid stepM,
    FloatGrid ruggednessM,
    FloatGrid convexityM,
    FloatGrid slopeSigmaDeg,
    FloatGrid aspectSigmaDeg,
    FloatGrid slopeOverLimit01,
    Extrapolation extrapolation,
    Lengths lengths,
    List<String> notes) {

  /** Copies the notes. */
  public Terrain {
    notes = List.copyOf(notes);
  }

  /** Creates terrain without error figures. */
  public Terrain(
      FloatGrid heightM,
      FloatGrid slopeDeg,
      FloatGrid aspectDeg,
      FloatGrid gradEast,
      FloatGrid gradNorth,
      FloatGrid roughnessM,
      FloatGrid stepM,
      FloatGrid ruggednessM,
      FloatGrid convexityM) {
    this(
        heightM,
        slopeDeg,
        aspectDeg,
        gradEast,
        gradNorth,
        roughnessM,
        stepM,
        ruggednessM,
        convexityM,
        null,
        null,
        null,
        null,
        null,
        List.of());
  }
}
