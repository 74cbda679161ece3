package org.scarpway.config;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.scarpway.light.SkyTable;

/**
 * Settings of light and shadow.
 *
 * @param from beginning of the window (UTC)
 * @param to end of the window (UTC)
 * @param step time between two looks at the sky
 * @param azimuths number of azimuths of a horizon
 * @param cellM side of a product cell (m), rounded to whole cells of the ground
 * @param panelM height above the ground (m) of what shall be lit
 * @param darkShare share of the sun's disk up to which it is dark, 0 for no part of it
 * @param horizonErrorDeg by how much horizons are raised for cautious products (degrees)
 * @param at times for which the next light and the light left are told
 * @param horizonMaps map azimuths (degrees) whose horizons become rasters
 * @param far wider and coarser elevation model, or null
 * @param table the mission's own positions of sun and Earth, or null
 * @param tableFile its file, or null
 * @param bending share of the body's curvature by which rays of light bend
 * @param where position in the job, for messages
 */
public record LightSettings(
    Instant from,
    Instant to,
    Duration step,
    int azimuths,
    double cellM,
    double panelM,
    double darkShare,
    double horizonErrorDeg,
    List<Instant> at,
    List<Integer> horizonMaps,
    Path far,
    SkyTable table,
    Path tableFile,
    double bending,
    String where) {
  public LightSettings {
    at = List.copyOf(at);
    horizonMaps = List.copyOf(horizonMaps);
  }
}
