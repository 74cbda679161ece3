package org.scarpway.reach.question;

import java.util.List;
import org.scarpway.grid.FloatGrid;

/**
 * The answer to a {@link CorridorRequest}.
 *
 * @param excessPct by how much the best way through a cell costs more than the best of all; NaN
 *     beyond the widest corridor (percent)
 * @param bestCost in s, J or m by the request's cost, of the best way as it was found, before it is
 *     bent to the turning circle and slowed by curves
 * @param visits stops in the order of travel with what is used up on arrival
 * @param order how good the order of the stops is; null where the request gives it
 * @param centreline the best way, stop to stop
 * @param turning how the centreline keeps to the turning circle; null for vehicles that turn on the
 *     spot
 * @param pinchPoints narrow places on the centreline, narrowest first
 * @param besideM what counts as the ground of a way: up to this far from it (m)
 * @param tradeOffs ways none of which is better than another in time, energy and hazard at once
 * @param beyond what the ways need beyond battery or life support; among the warnings too
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

  public CorridorResult {
    visits = List.copyOf(visits);
    centreline = List.copyOf(centreline);
    pinchPoints = List.copyOf(pinchPoints);
    alternatives = List.copyOf(alternatives);
    tradeOffs = List.copyOf(tradeOffs);
    beyond = List.copyOf(beyond);
    warnings = List.copyOf(warnings);
  }

  /** With the layer of some rows or of the whole. */
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
   * A stop and what has been used up on arrival, with the stays at the stops between it and the
   * start.
   *
   * @param stayS that follows; 0 at the start, where a trip begins with leaving
   * @param stayJ that is used up by it
   */
  public record Visit(
      String name,
      double xM,
      double yM,
      double timeS,
      double energyJ,
      double distanceM,
      double stayS,
      double stayJ) {
    /** A stop that is only passed. */
    public Visit(
        String name, double xM, double yM, double timeS, double energyJ, double distanceM) {
      this(name, xM, yM, timeS, energyJ, distanceM, 0, 0);
    }
  }

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

  /** Of the driving time of the centreline what curves cost (s). */
  public double curvesS() {
    double sum = 0;
    for (int i = 0; i + 1 < centreline.size(); i++) {
      sum += centreline.get(i).curvesS(centreline.get(i + 1));
    }
    return sum;
  }

  /** All stays together (s). */
  public double stayS() {
    return visits.stream().mapToDouble(Visit::stayS).sum();
  }

  /**
   * How good an order is.
   *
   * @param proven whether no order is better
   * @param atLeast no order costs less, by the fronts from stop to stop (0.5 % over exact answers
   *     at most), in s, J or m by the request's cost
   * @param gapPct how far at most the order lies above the best possible
   */
  public record Order(boolean proven, double atLeast, double gapPct) {}

  /**
   * One vertex of the centreline with what the vehicle does from there on.
   *
   * @param distanceM surface length from the first stop
   * @param pitchDeg nose up positive
   * @param rollDeg right side down positive
   * @param timeS since the first stop
   * @param energyJ since the first stop
   * @param speedMs as driven, in curves too
   * @param margin01 of the binding limit
   * @param straightMs speed that the ground alone allows, more than {@code speedMs} where a curve
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

    /** Time that curves cost up to the next vertex (s). */
    public double curvesS(ProfilePoint next) {
      double lengthM = next.distanceM - distanceM;
      return speedMs < straightMs && lengthM > 0 ? lengthM / speedMs - lengthM / straightMs : 0;
    }
  }

  /**
   * How the centreline keeps to the vehicle's turning circle.
   *
   * @param radiusM least radius of the line
   * @param extraPct by how much it costs more than the best way, curves not counted in either
   * @param tooTight places where no way with that radius was found and the line turns more tightly
   */
  public record Turning(double radiusM, double extraPct, List<Place> tooTight) {
    public Turning {
      tooTight = List.copyOf(tooTight);
    }
  }

  /** A point (m). */
  public record Place(double xM, double yM) {}

  /**
   * A narrow place on the way.
   *
   * @param widthM between the edges of the no-go cells on either side
   * @param behindM2 driveable ground that cannot be had from the first stop without this passage, 0
   *     where there is another way; NaN where that cannot be told
   */
  public record PinchPoint(
      double xM, double yM, double widthM, double distanceM, double behindM2) {}

  /**
   * Another way that shares little ground with the best and with each other.
   *
   * @param mostJ most of the battery that is used at any moment, stays included; NaN without an
   *     energy model
   * @param excessPct by how much it costs more than the best way, curves not counted in either
   * @param sharedPct share of its length that runs over the ground of the ways before it
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
    public Alternative {
      line = List.copyOf(line);
    }
  }

  /**
   * A way that is best for some weights of time, energy and hazard.
   *
   * @param mostJ most of the battery that is used at any moment, stays included; NaN without an
   *     energy model
   * @param hazardM hazard of the ground, 0 to 1, times the length driven over it
   * @param weights of time, energy and hazard, in shares of their ranges; add up to 1
   */
  public record TradeOff(
      double timeS,
      double energyJ,
      double mostJ,
      double hazardM,
      double distanceM,
      List<Double> weights,
      List<ProfilePoint> line) {
    public TradeOff {
      weights = List.copyOf(weights);
      line = List.copyOf(line);
    }
  }
}
