package org.scarpway.terrain;

import java.util.List;
import org.scarpway.grid.FloatGrid;

/**
 * The terrain of the cells that a report shows: all of them, or every so manieth of ground larger
 * than memory.
 *
 * @param slopeDeg slope of the ground (degrees)
 * @param gradEast rise over run towards the east
 * @param gradNorth rise over run towards the north
 * @param lengths baselines over which the layers are measured, null if unknown
 * @param notes scales of measurement and their limitations, one line each
 */
public record ShownTerrain(
    FloatGrid slopeDeg,
    FloatGrid gradEast,
    FloatGrid gradNorth,
    Lengths lengths,
    List<String> notes) {
  /** Checks that every layer has the same cells, and copies the notes. */
  public ShownTerrain {
    slopeDeg.spec().requireCellsOf(gradEast.spec(), gradNorth.spec());
    notes = List.copyOf(notes);
  }
}
