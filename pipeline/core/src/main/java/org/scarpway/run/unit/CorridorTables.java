package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.geodata.table.CsvTable.Column;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.survey.RouteLeg;
import org.scarpway.reach.survey.RouteSurvey;
import org.scarpway.run.product.PlaceTable;

/** Writes the tables of corridor/NAME/. */
final class CorridorTables {
  private CorridorTables() {}

  /**
   * @param frame of the elevation model
   */
  static void write(Path dir, CorridorResult c, PlaceFrame frame) {
    writeProfile(dir.resolve("profile.csv"), c.centreline(), frame);
    writeRoute(dir.resolve("route.csv"), RouteSurvey.legs(c));
    writeStops(dir.resolve("stops.csv"), c.visits(), frame);
    writePinchPoints(dir.resolve("pinch_points.csv"), c.pinchPoints(), frame);
    writeAlternatives(dir.resolve("alternatives.csv"), c);
    if (!c.tradeOffs().isEmpty()) {
      writeTradeOffs(dir.resolve("trade_offs.csv"), c.tradeOffs());
    }
  }

  private static void writeStops(Path file, List<CorridorResult.Visit> visits, PlaceFrame frame) {
    List<List<Object>> rows = new ArrayList<>();
    for (CorridorResult.Visit v : visits) {
      rows.add(
          List.of(
              (long) rows.size() + 1,
              v.name(),
              v.xM(),
              v.yM(),
              v.timeS(),
              v.energyJ() / 3.6e6,
              v.distanceM(),
              v.stayS() / 60));
    }
    PlaceTable.write(
        file,
        List.of(
            Column.text("position"),
            Column.text("name"),
            Column.number("x_m", 2),
            Column.number("y_m", 2),
            Column.number("time_s", 1),
            Column.number("energy_kwh", 4),
            Column.number("distance_m", 1),
            Column.number("stay_min", 1)),
        rows,
        frame);
  }

  private static void writeTradeOffs(Path file, List<CorridorResult.TradeOff> tradeOffs) {
    List<List<Object>> rows = new ArrayList<>();
    for (CorridorResult.TradeOff t : tradeOffs) {
      rows.add(
          List.of(
              (long) rows.size() + 1,
              t.timeS(),
              t.energyJ(),
              t.hazardM(),
              t.distanceM(),
              t.weights().get(0),
              t.weights().get(1),
              t.weights().get(2)));
    }
    CsvTable.write(
        file,
        List.of(
            Column.text("way"),
            Column.number("time_s", 1),
            Column.number("energy_j", 0),
            Column.number("hazard_m", 2),
            Column.number("distance_m", 1),
            Column.number("time_weight", 3),
            Column.number("energy_weight", 3),
            Column.number("hazard_weight", 3)),
        rows);
  }

  private static void writeProfile(
      Path file, List<CorridorResult.ProfilePoint> points, PlaceFrame frame) {
    List<List<Object>> rows = new ArrayList<>();
    for (CorridorResult.ProfilePoint p : points) {
      rows.add(
          List.of(
              p.distanceM(),
              p.xM(),
              p.yM(),
              p.heightM(),
              p.pitchDeg(),
              p.rollDeg(),
              p.speedMs(),
              p.timeS(),
              p.energyJ() / 1000,
              p.margin01(),
              p.straightMs()));
    }
    PlaceTable.write(
        file,
        List.of(
            Column.number("distance_m", 2),
            Column.number("x_m", 2),
            Column.number("y_m", 2),
            Column.number("height_m", 3),
            Column.number("pitch_deg", 2),
            Column.number("roll_deg", 2),
            Column.number("speed_ms", 3),
            Column.number("time_s", 1),
            Column.number("energy_kj", 2),
            Column.number("margin", 3),
            Column.number("straight_ms", 3)),
        rows,
        frame);
  }

  private static void writeRoute(Path file, List<RouteLeg> legs) {
    List<List<Object>> rows = new ArrayList<>();
    for (RouteLeg leg : legs) {
      rows.add(
          List.of(
              (long) rows.size() + 1,
              leg.from(),
              leg.to(),
              leg.lengthM(),
              leg.riseM(),
              leg.fallM(),
              leg.steepestUpPct(),
              leg.steepestDownPct(),
              leg.steepestAtM(),
              leg.grade().label(),
              leg.recordedM(),
              leg.obstructedM(),
              leg.timeS(),
              leg.curvesS(),
              leg.slowestCurveMs(),
              leg.tightestM(),
              leg.tightestAtM(),
              leg.curve().label()));
    }
    CsvTable.write(
        file,
        List.of(
            Column.text("leg"),
            Column.text("from"),
            Column.text("to"),
            Column.number("length_m", 1),
            Column.number("rise_m", 2),
            Column.number("fall_m", 2),
            Column.text("steepest_up_pct"),
            Column.text("steepest_down_pct"),
            Column.number("steepest_at_m", 1),
            Column.text("grade_class"),
            Column.number("from_5_pct_m", 1),
            Column.number("from_7_pct_m", 1),
            Column.number("time_s", 1),
            Column.number("lost_in_curves_s", 1),
            Column.number("slowest_curve_ms", 3),
            Column.number("tightest_radius_m", 2),
            Column.number("tightest_at_m", 1),
            Column.text("curve_class")),
        rows);
  }

  private static void writePinchPoints(
      Path file, List<CorridorResult.PinchPoint> points, PlaceFrame frame) {
    List<List<Object>> rows = new ArrayList<>();
    for (CorridorResult.PinchPoint p : points) {
      rows.add(List.of(p.xM(), p.yM(), p.widthM(), p.distanceM(), p.behindM2() / 1e6));
    }
    PlaceTable.write(
        file,
        List.of(
            Column.number("x_m", 2),
            Column.number("y_m", 2),
            Column.number("width_m", 2),
            Column.number("distance_m", 1),
            Column.number("area_behind_km2", 6)),
        rows,
        frame);
  }

  private static void writeAlternatives(Path file, CorridorResult c) {
    List<List<Object>> rows = new ArrayList<>();
    CorridorResult.ProfilePoint end = c.centreline().get(c.centreline().size() - 1);
    rows.add(
        List.of(0L, end.timeS(), end.energyJ() / 3.6e6, end.distanceM(), 0.0, 100.0, c.besideM()));
    for (CorridorResult.Alternative a : c.alternatives()) {
      rows.add(
          List.of(
              (long) a.rank(),
              a.timeS(),
              a.energyJ() / 3.6e6,
              a.distanceM(),
              a.excessPct(),
              a.sharedPct(),
              c.besideM()));
    }
    CsvTable.write(
        file,
        List.of(
            Column.text("rank"),
            Column.number("time_s", 1),
            Column.number("energy_kwh", 4),
            Column.number("distance_m", 1),
            Column.number("excess_pct", 2),
            Column.number("shared_pct", 1),
            Column.number("ground_within_m", 1)),
        rows);
  }
}
