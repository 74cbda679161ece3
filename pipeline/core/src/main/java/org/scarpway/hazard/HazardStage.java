package org.scarpway.hazard;

import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.Terrain;

/**
 * Weighs what the ground may do to a vehicle. Each cause has its own hazard from 0 to 1: slope,
 * step and roughness as shares of the value at which they count as certain; rocks as the
 * probability that a place picked at random is blocked, 1 where rocks leave no way; keep-out ground
 * 1; ground whose slope, step, roughness or rock coverage is not known 1; gaps too narrow and
 * pockets without room to turn 1. The hazard of a cell is the largest.
 */
public final class HazardStage {
  private HazardStage() {}

  /**
   * All ground at once; {@link HazardStrips} works on ground larger than memory.
   *
   * @throws org.scarpway.stage.UserError where a rock coverage is outside [0, 1) or a keep-out
   *     margin is negative
   */
  public static Hazard compute(
      Terrain terrain, HazardParams params, Workers workers, Progress progress) {
    HazardStrips strips = new HazardStrips(terrain.slopeDeg().spec(), params);
    progress.begin("hazard", terrain.slopeDeg().spec().cells());
    Hazard hazard = strips.strip(terrain, 0, params.rockCoverageGrid(), workers, progress);
    progress.end();
    return hazard;
  }
}
