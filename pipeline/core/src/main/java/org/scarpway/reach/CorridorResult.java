package org.scarpway.reach;

import java.util.List;
import org.scarpway.grid.FloatGrid;

/**
 * The answer to a {@link CorridorRequest}.
 *
 * @param excessPct by how much the best way through a cell costs more than the best of all
 *     (percent)
 * @param bestCost in s, J or m by the request's cost
 * @param centreline the best way, stop to stop
 * @param pinchPoints narrowest passages on the centreline, narrowest first
 */
public record CorridorResult(
    CorridorRequest request,
    String vehicle,
    FloatGrid excessPct,
    double bestCost,
    List<ProfilePoint> centreline,
    List<PinchPoint> pinchPoints,
    List<Alternative> alternatives,
    List<String> warnings) {

  public CorridorResult {
    centreline = List.copyOf(centreline);
    pinchPoints = List.copyOf(pinchPoints);
    alternatives = List.copyOf(alternatives);
    warnings = List.copyOf(warnings);
  }

  /**
   * One vertex of the centreline with what the vehicle does from there on.
   *
   * @param distanceM surface length from the first stop
   * @param pitchDeg nose up positive
   * @param rollDeg right side down positive
   * @param timeS since the first stop
   * @param energyJ since the first stop
   * @param margin01 of the binding limit
   */
  public record ProfilePoint(
      double distanceM,
      double xM,
      double yM,
      double heightM,
      double pitchDeg,
      double rollDeg,
      double speedMs,
      double timeS,
      double energyJ,
      double margin01) {}

  /** A narrow place on the way. */
  public record PinchPoint(double xM, double yM, double widthM, double distanceM) {}

  /**
   * Another way that shares little ground with the best and with each other.
   *
   * @param sharedPct share of its length that runs inside the corridors before it
   */
  public record Alternative(
      int rank,
      double timeS,
      double energyJ,
      double distanceM,
      double excessPct,
      double sharedPct,
      List<ProfilePoint> line) {
    public Alternative {
      line = List.copyOf(line);
    }
  }
}
