package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.Alternative;
import org.scarpway.reach.question.CorridorResult.PinchPoint;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.CorridorResult.TradeOff;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.survey.RouteLeg;
import org.scarpway.reach.survey.RouteSurvey;
import org.scarpway.run.product.PlaceTable;

/** Writes the tables of corridor/NAME/. */
final class CorridorTables {
  private static final List<Column<ProfilePoint>> PROFILE =
      List.of(
          Column.number("distance_m", 2, ProfilePoint::distanceM),
          Column.number("x_m", 2, ProfilePoint::xM),
          Column.number("y_m", 2, ProfilePoint::yM),
          Column.number("height_m", 3, ProfilePoint::heightM),
          Column.number("pitch_deg", 2, ProfilePoint::pitchDeg),
          Column.number("roll_deg", 2, ProfilePoint::rollDeg),
          Column.number("speed_ms", 3, ProfilePoint::speedMs),
          Column.number("time_s", 1, ProfilePoint::timeS),
          Column.number("energy_kj", 2, p -> p.energyJ() / 1000),
          Column.number("margin", 3, ProfilePoint::margin01),
          Column.number("straight_ms", 3, ProfilePoint::straightMs));

  private static final List<Column<RouteLeg>> ROUTE =
      List.of(
          Column.position("leg"),
          Column.text("from", RouteLeg::from),
          Column.text("to", RouteLeg::to),
          Column.number("length_m", 1, RouteLeg::lengthM),
          Column.number("rise_m", 2, RouteLeg::riseM),
          Column.number("fall_m", 2, RouteLeg::fallM),
          Column.whole("steepest_up_pct", RouteLeg::steepestUpPct),
          Column.whole("steepest_down_pct", RouteLeg::steepestDownPct),
          Column.number("steepest_at_m", 1, RouteLeg::steepestAtM),
          Column.number("from_5_pct_m", 1, RouteLeg::recordedM),
          Column.number("from_7_pct_m", 1, RouteLeg::obstructedM),
          Column.number("time_s", 1, RouteLeg::timeS),
          Column.number("lost_in_curves_s", 1, RouteLeg::curvesS),
          Column.number("slowest_curve_ms", 3, RouteLeg::slowestCurveMs),
          Column.number("tightest_radius_m", 2, RouteLeg::tightestM),
          Column.number("tightest_at_m", 1, RouteLeg::tightestAtM));

  /** Classes of route reconnaissance, for routes on Earth or where the job asks. */
  private static final List<Column<RouteLeg>> CLASSES =
      List.of(
          Column.text("grade_class", leg -> leg.grade().label()),
          Column.text("curve_class", leg -> leg.curve().label()));

  private static final List<Column<Visit>> STOPS =
      List.of(
          Column.position("position"),
          Column.text("name", Visit::name),
          Column.number("x_m", 2, Visit::xM),
          Column.number("y_m", 2, Visit::yM),
          Column.number("time_s", 1, Visit::timeS),
          Column.number("energy_kwh", 4, v -> v.energyJ() / 3.6e6),
          Column.number("distance_m", 1, Visit::distanceM),
          Column.number("stay_min", 1, v -> v.stayS() / 60));

  private static final List<Column<PinchPoint>> PINCH_POINTS =
      List.of(
          Column.number("x_m", 2, PinchPoint::xM),
          Column.number("y_m", 2, PinchPoint::yM),
          Column.number("width_m", 2, PinchPoint::widthM),
          Column.number("distance_m", 1, PinchPoint::distanceM),
          Column.number("area_behind_km2", 6, p -> p.behindM2() / 1e6));

  private static final List<Column<TradeOff>> TRADE_OFFS =
      List.of(
          Column.position("way"),
          Column.number("time_s", 1, TradeOff::timeS),
          Column.number("energy_j", 0, TradeOff::energyJ),
          Column.number("hazard_m", 2, TradeOff::hazardM),
          Column.number("distance_m", 1, TradeOff::distanceM),
          Column.number("time_weight", 3, TradeOff::timeWeight),
          Column.number("energy_weight", 3, TradeOff::energyWeight),
          Column.number("hazard_weight", 3, TradeOff::hazardWeight));

  private CorridorTables() {}

  /**
   * @param frame of the elevation model
   * @param reconnaissance true if the table of legs names classes of route reconnaissance
   */
  static void write(Path dir, CorridorResult c, PlaceFrame frame, boolean reconnaissance) {
    PlaceTable.write(dir.resolve("profile.csv"), PROFILE, c.centreline(), frame);
    List<Column<RouteLeg>> route = new ArrayList<>(ROUTE);
    if (reconnaissance) {
      route.addAll(CLASSES);
    }
    CsvTable.write(dir.resolve("route.csv"), route, RouteSurvey.legs(c));
    PlaceTable.write(dir.resolve("stops.csv"), STOPS, c.visits(), frame);
    PlaceTable.write(dir.resolve("pinch_points.csv"), PINCH_POINTS, c.pinchPoints(), frame);
    writeAlternatives(dir.resolve("alternatives.csv"), c);
    if (!c.tradeOffs().isEmpty()) {
      CsvTable.write(dir.resolve("trade_offs.csv"), TRADE_OFFS, c.tradeOffs());
    }
  }

  private static void writeAlternatives(Path file, CorridorResult c) {
    CsvTable.write(
        file,
        List.of(
            Column.whole("rank", Alternative::rank),
            Column.number("time_s", 1, Alternative::timeS),
            Column.number("energy_kwh", 4, a -> a.energyJ() / 3.6e6),
            Column.number("distance_m", 1, Alternative::distanceM),
            Column.number("excess_pct", 2, Alternative::excessPct),
            Column.number("shared_pct", 1, Alternative::sharedPct),
            Column.number("ground_within_m", 1, a -> c.besideM())),
        withBest(c));
  }

  /** The best way shares all of its ground with itself and costs nothing more. */
  private static List<Alternative> withBest(CorridorResult c) {
    ProfilePoint end = c.centreline().get(c.centreline().size() - 1);
    List<Alternative> ways = new ArrayList<>();
    ways.add(
        new Alternative(
            0, end.timeS(), end.energyJ(), Double.NaN, end.distanceM(), 0, 100, c.centreline()));
    ways.addAll(c.alternatives());
    return ways;
  }
}
