package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.grid.FloatGrid;

/**
 * The answer to a {@link CorridorRequest}.
 *
 * @param request the request that was solved
 * @param vehicle name of the vehicle
 * @param excessPct per cell, the excess cost of the best route through the cell over the best route
 *     of all (%); NaN beyond the widest corridor
 * @param bestCost cost of the best route as found, before it is fitted to the turning circle and
 *     slowed by curves (s, J or m, by the request's cost)
 * @param visits stops in the order of travel, with the time, energy and distance used on arrival
 * @param order quality of the computed order of stops; null if the request fixes the order
 * @param centreline the best route, from stop to stop
 * @param turning fit of the centreline to the turning circle; null for vehicles that turn on the
 *     spot
 * @param pinchPoints narrow places on the centreline, narrowest first
 * @param besideM half width of the ground that counts as used by a route (m)
 * @param alternatives routes on other ground, in the order in which they were found; possibly fewer
 *     than requested
 * @param tradeOffs routes on the Pareto front of time, energy and hazard: none is better than
 *     another in all three
 * @param beyond sentences on routes that need more than battery or life support give; repeated in
 *     the warnings
 * @param warnings remarks that a reviewer must know, one line each
 */
public record CorridorResult(
    CorridorRequest request,
    String vehicle,
    FloatGrid excessPct,
    double bestCost,
    List<Visit> visits,
    Order order,
    List<ProfilePoint> centreline,
    Turning turning,
    List<PinchPoint> pinchPoints,
    double besideM,
    List<Alternative> alternatives,
    List<TradeOff> tradeOffs,
    List<String> beyond,
    List<String> warnings) {

  /** Copies the lists. */
  public CorridorResult {
    visits = List.copyOf(visits);
    centreline = List.copyOf(centreline);
    pinchPoints = List.copyOf(pinchPoints);
    alternatives = List.copyOf(alternatives);
    tradeOffs = List.copyOf(tradeOffs);
    beyond = List.copyOf(beyond);
    warnings = List.copyOf(warnings);
  }

  /** Returns this result with the given excess layer, which may hold some rows only. */
  public CorridorResult with(FloatGrid layer) {
    return new CorridorResult(
        request,
        vehicle,
        layer,
        bestCost,
        visits,
        order,
        centreline,
        turning,
        pinchPoints,
        besideM,
        alternatives,
        tradeOffs,
        beyond,
        warnings);
  }

  /**
   * A stop and the time, energy and distance used on arrival, stays at the stops between it and the
   * start included.
   *
   * @param name name of the stop
   * @param xM east coordinate in the CRS of the grid (m)
   * @param yM north coordinate in the CRS of the grid (m)
   * @param timeS time from the start to the arrival (s)
   * @param energyJ energy used from the start to the arrival (J), NaN without an energy model
   * @param distanceM surface length from the first stop (m)
   * @param stayS length of the stay that follows (s); 0 at the start, where the trip begins with
   *     departure
   * @param stayJ energy used during that stay (J)
   */
  public record Visit(
      String name,
      double xM,
      double yM,
      double timeS,
      double energyJ,
      double distanceM,
      double stayS,
      double stayJ) {}

  /** Time from the start to the end of the last stay (s). */
  public double wholeTimeS() {
    Visit last = visits.get(visits.size() - 1);
    return last.timeS + last.stayS;
  }

  /** Energy from the start to the end of the last stay (J), NaN without an energy model. */
  public double wholeEnergyJ() {
    Visit last = visits.get(visits.size() - 1);
    return last.energyJ + last.stayJ;
  }

  /** Part of the centreline's driving time that is due to curves (s). */
  public double curvesS() {
    double sum = 0;
    for (int i = 0; i + 1 < centreline.size(); i++) {
      sum += centreline.get(i).curvesS(centreline.get(i + 1));
    }
    return sum;
  }

  /** Sum of all stays (s). */
  public double stayS() {
    return visits.stream().mapToDouble(Visit::stayS).sum();
  }

  /**
   * The quality of an order of stops.
   *
   * @param proven true if no order is better
   * @param atLeast lower bound on the cost of any order, from the fronts between stops (at most 0.5
   *     % above exact costs); s, J or m, by the request's cost
   * @param gapPct upper bound on the excess over the best possible order (%)
   */
  public record Order(boolean proven, double atLeast, double gapPct) {}

  /**
   * One vertex of the centreline, with the state of the vehicle from there to the next vertex.
   *
   * @param distanceM surface length from the first stop (m)
   * @param xM east coordinate in the CRS of the grid (m)
   * @param yM north coordinate in the CRS of the grid (m)
   * @param heightM height of the ground, above the datum of the elevation model (m)
   * @param pitchDeg pitch, positive nose up (deg)
   * @param rollDeg roll, positive right side down (deg)
   * @param speedMs driven speed, reduced in curves (m/s)
   * @param timeS time since the first stop (s)
   * @param energyJ energy used since the first stop (J)
   * @param margin01 margin left to the binding limit, 0 to 1
   * @param straightMs speed that the ground alone allows (m/s); above {@code speedMs} where a curve
   *     slows the vehicle
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
      double margin01,
      double straightMs) {

    /** Extra time due to curves up to the next vertex (s). */
    public double curvesS(ProfilePoint next) {
      double lengthM = next.distanceM - distanceM;
      return speedMs < straightMs && lengthM > 0 ? lengthM / speedMs - lengthM / straightMs : 0;
    }
  }

  /**
   * The fit of the centreline to the vehicle's turning circle.
   *
   * @param radiusM smallest radius of the line (m)
   * @param extraPct excess cost over the best route, without the cost of curves in either (%)
   * @param tooTight places where no path with that radius was found and the line turns more tightly
   */
  public record Turning(double radiusM, double extraPct, List<Place> tooTight) {
    /** Copies the list. */
    public Turning {
      tooTight = List.copyOf(tooTight);
    }
  }

  /**
   * A point in the CRS of the grid (m).
   *
   * @param xM east coordinate in the CRS of the grid (m)
   * @param yM north coordinate in the CRS of the grid (m)
   */
  public record Place(double xM, double yM) {}

  /**
   * A narrow place on the route.
   *
   * @param xM east coordinate in the CRS of the grid (m)
   * @param yM north coordinate in the CRS of the grid (m)
   * @param widthM bottleneck width, between the edges of the no-go cells on either side (m)
   * @param distanceM surface length of the centreline from the first stop to the place (m)
   * @param behindM2 area of driveable ground that is disconnected from the first stop if this
   *     passage is closed (m2); 0 if there is another way, NaN if that cannot be determined
   */
  public record PinchPoint(
      double xM, double yM, double widthM, double distanceM, double behindM2) {}

  /**
   * An alternative route that shares little ground with the best route and with the other
   * alternatives.
   *
   * @param rank 1 for the first alternative
   * @param timeS driving time without stays, curves included (s)
   * @param energyJ energy used while driving (J), NaN without an energy model
   * @param mostJ largest amount used from the battery at any moment, stays included (J); NaN
   *     without an energy model
   * @param distanceM surface length (m)
   * @param excessPct excess cost over the best route, without the cost of curves in either (%)
   * @param sharedPct share of its length on the ground of the routes ranked before it (%)
   * @param line vertices of the route, from the first stop to the last
   */
  public record Alternative(
      int rank,
      double timeS,
      double energyJ,
      double mostJ,
      double distanceM,
      double excessPct,
      double sharedPct,
      List<ProfilePoint> line) {
    /** Copies the list. */
    public Alternative {
      line = List.copyOf(line);
    }
  }

  /**
   * A route that is optimal for some weights of time, energy and hazard.
   *
   * @param timeS driving time without stays, curves included (s)
   * @param energyJ energy used while driving (J), NaN without an energy model
   * @param mostJ largest amount used from the battery at any moment, stays included (J); NaN
   *     without an energy model
   * @param hazardM hazard of the ground (0 to 1) integrated over the driven length (m)
   * @param distanceM surface length (m)
   * @param weights weights of time, energy and hazard, as shares of their ranges; they sum to 1
   * @param line vertices of the route, from the first stop to the last
   */
  public record TradeOff(
      double timeS,
      double energyJ,
      double mostJ,
      double hazardM,
      double distanceM,
      List<Double> weights,
      List<ProfilePoint> line) {
    /** Copies the lists. */
    public TradeOff {
      weights = List.copyOf(weights);
      line = List.copyOf(line);
    }

    /** Weight of time. */
    public double timeWeight() {
      return weights.get(0);
    }

    /** Weight of energy. */
    public double energyWeight() {
      return weights.get(1);
    }

    /** Weight of hazard. */
    public double hazardWeight() {
      return weights.get(2);
    }
  }
}
