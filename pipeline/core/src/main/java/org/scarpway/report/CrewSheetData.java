package org.scarpway.report;

import java.util.List;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.geodata.crs.TrueNorth;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.survey.DepartureClock;
import org.scarpway.reach.survey.Waypoint;
import org.scarpway.reach.survey.Waypoints;

/**
 * The data of the sheet by which a crew drives a corridor, on the part of the ground that it shows.
 *
 * @param route the corridor
 * @param waypoints of its centreline
 * @param home when to turn back, one for each question whose rules hold; possibly none
 * @param departs clock of the sheet
 * @param limitsNotResolved names of limits of the vehicle that the cells do not resolve, or empty
 * @param heightM elevation (m), NaN without data
 * @param gradEast rise over run towards the east
 * @param gradNorth rise over run towards the north
 * @param closed 1 where the vehicle cannot enter a cell on any heading, or nothing is known of it
 * @param cellM longer side of a cell of the ground that was computed (m)
 * @param lonLat maps grid coordinates to longitude and latitude; may return null
 * @param placeText tells places in the elevation model's own system
 */
public record CrewSheetData(
    CorridorResult route,
    Waypoints waypoints,
    List<HomeAlong> home,
    DepartureClock departs,
    String limitsNotResolved,
    FloatGrid heightM,
    FloatGrid gradEast,
    FloatGrid gradNorth,
    ByteGrid closed,
    double cellM,
    LonLat lonLat,
    PlaceText placeText) {
  public CrewSheetData {
    heightM.spec().requireCellsOf(gradEast.spec(), gradNorth.spec(), closed.spec());
    home = List.copyOf(home);
  }

  /** Less time in hand is told in seconds, since plans and deadlines are rounded apart (s). */
  private static final double AT_ONCE_S = 120;

  /**
   * When to turn back at a waypoint: the earliest of the questions' times.
   *
   * @param question that gives it; null if no question holds
   * @param turn its answer there
   */
  public record TurnBack(HomeAlong question, HomeAlong.Turn turn) {}

  /**
   * The earliest turn-back time at a vertex; one where home is not sure comes before all others.
   */
  public TurnBack turnBackAt(int vertex) {
    TurnBack first = new TurnBack(null, null);
    for (HomeAlong h : home) {
      HomeAlong.Turn t = h.at().get(vertex);
      boolean unsure = first.turn != null && !first.turn.sure();
      if (first.turn == null || (!unsure && !(t.latestS() >= first.turn.latestS()))) {
        first = new TurnBack(h, t);
      }
    }
    return first;
  }

  /**
   * Words on the latest time to turn back.
   *
   * @param arrivesS planned arrival at that place, since departure (s)
   */
  public String turnBackBy(TurnBack t, double arrivesS) {
    if (t.turn == null || (t.turn.sure() && t.turn.atBase())) {
      return Figures.NONE;
    }
    if (!t.turn.sure()) {
      return "NONE";
    }
    double inHandS = t.turn.latestS() - arrivesS;
    if (inHandS == Double.POSITIVE_INFINITY) {
      return "no limit";
    }
    return inHandS < AT_ONCE_S
        ? "at once, " + Figures.fixed(Math.max(0, SafeSide.down(inHandS, 0)), 0) + " s in hand"
        : departs.notLater(t.turn.latestS());
  }

  /** What ends the time to turn back, with the question; a dash where nothing does. */
  String because(TurnBack t) {
    return t.turn == null || t.turn.end().isEmpty() || (t.turn.sure() && t.turn.atBase())
        ? Figures.NONE
        : t.turn.end() + " (" + t.question.question().name() + ")";
  }

  /** Direction to the next waypoint of a leg, clockwise from true north, NaN where unknown. */
  public double trueDeg(Waypoint w) {
    double deg = w.gridDeg() - TrueNorth.azimuthDeg(lonLat, w.at().xM(), w.at().yM());
    return Double.isNaN(deg) ? deg : ((deg % 360) + 360) % 360;
  }
}
