package org.scarpway.hazard;

import java.util.List;
import org.locationtech.jts.geom.Geometry;

/**
 * Thresholds and sources of hazard.
 *
 * @param rocks rock coverage, uniform or by a raster
 * @param keepOut polygons in the CRS of the grid
 * @param marginM distance kept from every keep-out edge, including half width and position error
 *     (m)
 * @param slopeDeg slope at which slope hazard is 1 (degrees); infinite if slope is no hazard;
 *     likewise stepM and roughnessM
 * @param stepM step at which step hazard is 1 (m)
 * @param roughnessM roughness at which roughness hazard is 1 (m)
 * @param footprintM baseline (m) that this roughness refers to; roughness over a much longer
 *     baseline is no hazard
 * @param room room that the vehicle needs between blocked ground, null for no such hazard
 */
public record HazardParams(
    RockParams rocks,
    List<Geometry> keepOut,
    double marginM,
    double slopeDeg,
    double stepM,
    double roughnessM,
    double footprintM,
    Room room) {

  /**
   * Room between blocked ground. Blocked is ground that is keep-out, void, impassable because of
   * rocks, has a step above {@code stepM}, or is steeper than {@code blockedDeg}.
   *
   * @param gapM minimum passable width (m)
   * @param turnM minimum length (m) of a usable closed pocket, along at least one axis
   * @param blockedDeg slope (deg) that is impassable on every heading
   */
  public record Room(double gapM, double turnM, double blockedDeg) {}

  /**
   * Checks the values.
   *
   * @throws IllegalArgumentException if a value at which a hazard is certain, or the footprint, is
   *     not positive
   */
  public HazardParams {
    keepOut = List.copyOf(keepOut);
    RockBody.requirePositive("slopeDeg", slopeDeg);
    RockBody.requirePositive("stepM", stepM);
    RockBody.requirePositive("roughnessM", roughnessM);
    RockBody.requirePositive("footprintM", footprintM);
  }
}
