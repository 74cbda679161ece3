package org.scarpway.terrain;

import java.util.List;
import org.scarpway.grid.FloatGrid;

/**
 * Terrain derivatives, one value per cell, NaN where the window of a derivative touches a void or
 * the edge. Gradients are rise over run towards east and north; aspect is the downslope azimuth
 * clockwise from north, NaN on level ground.
 *
 * @param ruggednessM Riley et al. 1999, not detrended
 * @param slopeSigmaDeg one-sigma error of the slope, null if the height error is unknown
 * @param aspectSigmaDeg one-sigma error of the aspect, null likewise
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
