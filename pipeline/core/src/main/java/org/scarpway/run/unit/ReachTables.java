package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.reach.question.ReachByBudget;
import org.scarpway.reach.question.ReachFigure;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachResult.PinchPoint;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.question.WhyNot;
import org.scarpway.reach.question.WhyNot.Nearest;
import org.scarpway.reach.question.WhyNot.Supply;
import org.scarpway.run.product.AuditTable;
import org.scarpway.run.product.PlaceTable;

/** The tables of reach/NAME/. */
final class ReachTables {
  private static final List<Column<TargetReach>> TARGETS =
      List.of(
          Column.text("name", t -> t.target().name()),
          Column.number("x_m", 2, t -> t.target().xM()),
          Column.number("y_m", 2, t -> t.target().yM()),
          Column.number("weight", 3, t -> t.target().weight()),
          Column.number("stay_min", 1, t -> t.target().stayS() / 60),
          Column.text("reached", t -> t.reached() ? "yes" : "no"),
          Column.number("out_time_s", 1, TargetReach::outTimeS),
          Column.number("home_time_s", 1, TargetReach::homeTimeS),
          Column.number("total_time_s", 1, TargetReach::totalTimeS),
          Column.number("total_energy_kwh", 3, t -> t.totalEnergyJ() / 3.6e6),
          Column.number("distance_m", 1, TargetReach::distanceM),
          Column.number("time_spare_s", 1, TargetReach::timeSpareS),
          Column.number("energy_spare_kwh", 3, t -> t.energySpareJ() / 3.6e6),
          Column.number("life_support_spare_h", 3, t -> t.lifeSpareS() / 3600),
          Column.text("what_ends_it", TargetReach::end),
          shortOf("time_short_h", Supply.TIME),
          shortOf("energy_short_kwh", Supply.ENERGY),
          shortOf("distance_short_km", Supply.DISTANCE),
          shortOf("life_support_short_h", Supply.LIFE_SUPPORT),
          shortOf("walk_short_h", Supply.WALK),
          shortOf("walk_short_km", Supply.WALK_LENGTH),
          shortOf("walk_short_mj", Supply.WALK_ENERGY),
          shortOf("rescuer_life_support_short_h", Supply.RESCUER_LIFE),
          shortOf("rescuer_energy_short_kwh", Supply.RESCUER_ENERGY),
          shortOf("rescuer_distance_short_km", Supply.RESCUER_DISTANCE),
          ofNearest("nearest_reached_m", 1, Nearest::distanceM),
          ofNearest("nearest_reached_deg", 0, Nearest::azimuthDeg),
          Column.number("closed_ground_m", 1, t -> closedM(t.whyNot())),
          Column.text("closed_by", t -> closedBy(t.whyNot())),
          Column.text("would_reach_it", t -> t.whyNot() == null ? "" : t.whyNot().changes()));

  private static final List<Column<PinchPoint>> PASSAGES =
      List.of(
          Column.number("x_m", 2, PinchPoint::xM),
          Column.number("y_m", 2, PinchPoint::yM),
          Column.number("width_m", 2, PinchPoint::widthM),
          Column.number("area_behind_km2", 6, p -> p.behindM2() / 1e6),
          Column.number("share_behind_pct", 2, PinchPoint::behindPct),
          Column.text("targets_behind", p -> String.join("; ", p.targets())));

  private static Column<TargetReach> shortOf(String name, Supply of) {
    return Column.number(
        name, 3, t -> t.whyNot() == null ? Double.NaN : t.whyNot().missing(of) / of.perUnit());
  }

  private static Column<TargetReach> ofNearest(
      String name, int decimals, ToDoubleFunction<Nearest> value) {
    return Column.number(
        name,
        decimals,
        t ->
            t.whyNot() == null || t.whyNot().nearest() == null
                ? Double.NaN
                : value.applyAsDouble(t.whyNot().nearest()));
  }

  private static double closedM(WhyNot why) {
    return why == null || why.crossing() == null ? Double.NaN : why.crossing().lengthM();
  }

  private static String closedBy(WhyNot why) {
    return why == null || why.crossing() == null ? "" : String.join("; ", why.crossing().limits());
  }

  private record Line(ReachFigure figure, boolean restsOnLimits) {}

  private ReachTables() {}

  /**
   * @param notShown names of the vehicle's limits that the cells do not show
   * @param frame of the elevation model
   */
  static void write(Path dir, ReachResult r, String notShown, PlaceFrame frame) {
    PlaceTable.write(dir.resolve("targets.csv"), TARGETS, r.targets(), frame);
    writeSummary(dir.resolve("summary.csv"), r, notShown);
    PlaceTable.write(dir.resolve("pinch_points.csv"), PASSAGES, r.passages(), frame);
    AuditTable.write(dir.resolve("audit.csv"), r.drivenAgain(), frame);
    writeByBudget(dir.resolve("by_budget.csv"), r, notShown);
  }

  private record Step(ReachByBudget of, int step) {}

  private static boolean ofTime(Step s) {
    return s.of().quantity() == Quantity.TIME_S;
  }

  private static void writeByBudget(Path file, ReachResult r, String notShown) {
    List<Step> steps = new ArrayList<>();
    for (ReachByBudget b : r.byBudget()) {
      for (int k = 0; k < b.surelyM2().size(); k++) {
        steps.add(new Step(b, k));
      }
    }
    CsvTable.write(
        file,
        List.of(
            Column.text("quantity", s -> ofTime(s) ? "time" : "energy"),
            Column.number("budget", 4, s -> s.of().amount(s.step()) / (ofTime(s) ? 3600 : 3.6e6)),
            Column.text("unit", s -> ofTime(s) ? "h" : "kWh"),
            Column.number("share_pct", 1, s -> 100.0 * (s.step() + 1) / s.of().surelyM2().size()),
            Column.number("surely_km2", 6, s -> s.of().surelyM2().get(s.step()) / 1e6),
            Column.number("at_most_km2", 6, s -> s.of().possiblyM2().get(s.step()) / 1e6),
            Column.text("limits_not_resolved", s -> notShown)),
        steps);
  }

  private static void writeSummary(Path file, ReachResult r, String notShown) {
    List<Line> lines = new ArrayList<>();
    for (ReachFigure f : r.summary()) {
      lines.add(new Line(f, f.tellsReachedArea()));
    }
    for (int i = 0; i < r.request().bands().size(); i++) {
      String name = "area within " + r.request().bands().get(i).label();
      lines.add(new Line(new ReachFigure(name, r.bandAreasM2().get(i) / 1e6, "km2"), true));
    }
    CsvTable.write(
        file,
        List.of(
            Column.text("figure", l -> l.figure().name()),
            Column.number("value", 6, l -> l.figure().value()),
            Column.text("unit", l -> l.figure().unit()),
            Column.text("limits_not_resolved", l -> l.restsOnLimits() ? notShown : "")),
        lines);
  }
}
