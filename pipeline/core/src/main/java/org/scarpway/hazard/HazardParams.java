package org.scarpway.hazard;

import java.util.List;
import org.locationtech.jts.geom.Geometry;

/**
 * What counts as a hazard.
 *
 * @param rocks on all ground or by a raster
 * @param keepOut polygons in the CRS of the grid
 * @param marginM kept from every keep-out edge: half width and position error included
 * @param slopeDeg slope at which slope hazard is 1; infinite where slope is no hazard, as for the
 *     next two
 * @param stepM step at which step hazard is 1
 * @param roughnessM roughness at which roughness hazard is 1
 * @param footprintM length that this roughness is meant for; over much longer ones it is no hazard
 * @param room what room the vehicle needs between blocked ground, null for no such hazard
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
   * Room between ground that is blocked: kept out, void, barred by rocks, with a step above {@code
   * stepM}, or steeper than {@code blockedDeg}.
   *
   * @param gapM least width that is passable
   * @param turnM length that a closed pocket must have, one way at least, to be of use
   * @param blockedDeg slope that is passable on no heading
   */
  public record Room(double gapM, double turnM, double blockedDeg) {}

  public HazardParams {
    keepOut = List.copyOf(keepOut);
    RockBody.requirePositive("slopeDeg", slopeDeg);
    RockBody.requirePositive("stepM", stepM);
    RockBody.requirePositive("roughnessM", roughnessM);
    RockBody.requirePositive("footprintM", footprintM);
  }
}
