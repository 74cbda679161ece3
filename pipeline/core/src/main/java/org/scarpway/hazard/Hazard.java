package org.scarpway.hazard;

import org.locationtech.jts.geom.Geometry;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * What may stop or harm a vehicle.
 *
 * @param hazard01 0 none to 1 certain, the largest of its causes
 * @param causes one bit per {@link Cause} that contributes
 * @param keepOut the buffered keep-out ground in the CRS of the grid, may be empty
 * @param detourFactor path length over straight length that rocks force, at least 1; infinite where
 *     no way is left
 */
public record Hazard(
    FloatGrid hazard01, ByteGrid causes, Geometry keepOut, FloatGrid detourFactor) {

  /** Causes in the order of their bits. */
  public enum Cause {
    SLOPE,
    STEP,
    ROUGHNESS,
    ROCKS,
    KEEP_OUT,
    VOID;

    public int bit() {
      return 1 << ordinal();
    }
  }
}
