package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.Column;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.question.HomeAlong.Turn;
import org.scarpway.reach.question.ReplanResult.Amount;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.question.ReplanResult.Homeward;
import org.scarpway.reach.survey.Waypoint;
import org.scarpway.report.CrewSheetData;
import org.scarpway.report.CrewSheetData.TurnBack;
import org.scarpway.report.SafeSide;
import org.scarpway.run.product.PlaceTable;

/** Writes sheet/NAME/waypoints.csv. */
final class SheetTables {
  private static final double J_PER_KWH = 3.6e6;

  private final CrewSheetData data;

  private SheetTables(CrewSheetData data) {
    this.data = data;
  }

  static void write(Path dir, CrewSheetData data, PlaceFrame frame) {
    PlaceTable.write(
        dir.resolve("waypoints.csv"),
        new SheetTables(data).columns(),
        data.waypoints().all(),
        frame);
  }

  private List<Column<Waypoint>> columns() {
    List<Column<Waypoint>> all = new ArrayList<>();
    all.add(Column.position("waypoint"));
    all.add(Column.whole("leg", w -> w.leg() + 1L));
    all.add(Column.text("name", Waypoint::name));
    all.add(Column.number("x_m", 2, w -> w.at().xM()));
    all.add(Column.number("y_m", 2, w -> w.at().yM()));
    all.add(Column.text("planned", w -> data.departs().notEarlier(w.timeS())));
    all.add(Column.number("time_s", 1, w -> SafeSide.up(w.timeS(), 1)));
    all.add(Column.number("distance_m", 1, w -> w.at().distanceM()));
    all.add(Column.number("on_leg_m", 1, Waypoint::legM));
    all.add(Column.number("next_m", 1, Waypoint::nextM));
    all.add(Column.number("heading_true_deg", 1, data::trueDeg));
    all.add(Column.number("heading_grid_deg", 1, Waypoint::gridDeg));
    all.add(Column.number("speed_ms", 2, Waypoint::speedMs));
    all.add(Column.number("stay_min", 1, w -> stayS(w) / 60));
    all.add(Column.text("home_on_arrival", w -> of(w, t -> t.turn().sure() ? "surely" : "no")));
    all.add(
        Column.text(
            "turn_back_by",
            w ->
                of(
                    w,
                    t ->
                        t.turn().sure() && !t.turn().atBase()
                            ? data.turnBackBy(t, w.timeS())
                            : "")));
    all.add(left("turn_back_s", 1, w -> number(w, t -> t.atBase() ? Double.NaN : t.latestS())));
    all.add(
        Column.text(
            "turn_back_because",
            w -> of(w, t -> t.turn().sure() && t.turn().atBase() ? "" : t.turn().end())));
    all.add(Column.text("question", w -> of(w, t -> t.question().question().name())));
    all.add(needed("home_s", 1, w -> home(w, Homeward::timeS)));
    all.add(needed("home_m", 1, w -> home(w, Homeward::distanceM)));
    all.add(needed("home_kwh", 3, w -> home(w, Homeward::energyJ) / J_PER_KWH));
    all.add(needed("longest_home_s", 1, this::longestS));
    all.add(left("time_spare_s", 1, w -> spare(w, Consumable.TIME)));
    all.add(left("life_support_spare_s", 1, w -> spare(w, Consumable.LIFE_SUPPORT)));
    all.add(left("energy_spare_kwh", 3, w -> spare(w, Consumable.ENERGY) / J_PER_KWH));
    all.add(left("distance_spare_m", 1, w -> spare(w, Consumable.DISTANCE)));
    return all;
  }

  private static Column<Waypoint> left(
      String heading, int digits, ToDoubleFunction<Waypoint> value) {
    return Column.number(heading, digits, w -> SafeSide.down(value.applyAsDouble(w), digits));
  }

  private static Column<Waypoint> needed(
      String heading, int digits, ToDoubleFunction<Waypoint> value) {
    return Column.number(heading, digits, w -> SafeSide.up(value.applyAsDouble(w), digits));
  }

  /** The stay at a waypoint that ends a leg (s). */
  private double stayS(Waypoint w) {
    Visit to = data.route().visits().get(w.leg() + 1);
    return Double.isNaN(w.nextM()) ? to.stayS() : Double.NaN;
  }

  private String of(Waypoint w, Function<TurnBack, String> words) {
    TurnBack t = data.turnBackAt(w.vertex());
    return t.turn() == null ? "" : words.apply(t);
  }

  private double number(Waypoint w, ToDoubleFunction<Turn> value) {
    TurnBack t = data.turnBackAt(w.vertex());
    return t.turn() == null ? Double.NaN : value.applyAsDouble(t.turn());
  }

  private double home(Waypoint w, ToDoubleFunction<Homeward> value) {
    Turn t = data.turnBackAt(w.vertex()).turn();
    return t == null || t.way() == null ? Double.NaN : value.applyAsDouble(t.way().home());
  }

  /** The longest time of all rules until everybody is home after a stop for good (s). */
  private double longestS(Waypoint w) {
    return data.home().stream()
        .map(h -> h.at().get(w.vertex()).way())
        .filter(way -> way != null)
        .mapToDouble(HomeAlong.Way::stoppedS)
        .max()
        .orElse(Double.NaN);
  }

  private double spare(Waypoint w, Consumable of) {
    Turn t = data.turnBackAt(w.vertex()).turn();
    if (t == null || t.way() == null) {
      return Double.NaN;
    }
    return t.way().home().amounts().stream()
        .filter(a -> a.of() == of)
        .mapToDouble(Amount::spare)
        .findFirst()
        .orElse(Double.NaN);
  }
}
