package org.scarpway.terrain;

import java.util.List;
import java.util.Optional;
import org.scarpway.grid.FloatGrid;

/**
 * All terrain derivatives: those that later stages use, and those that are only products.
 *
 * @param aspectDeg azimuth of the steepest descent (degrees clockwise from grid north), [0, 360);
 *     NaN on level ground
 * @param ruggednessM ruggedness of Riley et al. 1999 (m), not detrended
 * @param errors errors of slope and aspect, empty if the height error is unknown
 * @param notes scales of measurement and their limitations, one line each
 */
public record TerrainLayers(
    Terrain terrain,
    FloatGrid aspectDeg,
    FloatGrid ruggednessM,
    Optional<SlopeErrors> errors,
    List<String> notes) {

  /**
   * Errors that follow from the height error.
   *
   * @param slopeDeg one-sigma error of the slope (degrees)
   * @param aspectDeg one-sigma error of the aspect (degrees)
   * @param overLimit01 probability that the slope exceeds the limit of the parameters, empty if
   *     they give none
   */
  public record SlopeErrors(
      FloatGrid slopeDeg, FloatGrid aspectDeg, Optional<FloatGrid> overLimit01) {
    /** Checks that every layer has the same cells. */
    public SlopeErrors {
      slopeDeg.spec().requireCellsOf(aspectDeg.spec());
      overLimit01.ifPresent(p -> slopeDeg.spec().requireCellsOf(p.spec()));
    }
  }

  /** Checks that every layer has the same cells, and copies the notes. */
  public TerrainLayers {
    terrain.heightM().spec().requireCellsOf(aspectDeg.spec(), ruggednessM.spec());
    errors.ifPresent(e -> aspectDeg.spec().requireCellsOf(e.slopeDeg().spec()));
    notes = List.copyOf(notes);
  }
}
