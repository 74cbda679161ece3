package org.scarpway.run.replan;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.Column;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.ReplanResult;
import org.scarpway.reach.question.ReplanResult.Amount;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.question.ReplanResult.Homeward;
import org.scarpway.reach.question.ReplanResult.StopLeft;
import org.scarpway.reach.question.ReplanResult.TurnBack;
import org.scarpway.reach.question.WhyNot.Shortfall;
import org.scarpway.report.SafeSide;
import org.scarpway.run.product.AuditTable;
import org.scarpway.run.product.PlaceTable;

/** The tables of replan/. */
final class ReplanTables {
  private static final double J_PER_KWH = 3.6e6;

  private static final List<Column<StopLeft>> STOPS =
      List.of(
          Column.position("position"),
          Column.text("name", s -> s.stop().name()),
          Column.number("x_m", 2, s -> s.stop().xM()),
          Column.number("y_m", 2, s -> s.stop().yM()),
          Column.number("stay_min", 1, s -> s.stop().stayS() / 60),
          Column.text("alone", s -> state(s.state())),
          Column.text("what_ends_it", StopLeft::end),
          needed("alone_arrive_s", 1, StopLeft::timeS),
          needed("alone_home_s", 1, s -> s.home() == null ? Double.NaN : s.home().timeS()),
          left("alone_time_spare_s", 1, s -> spare(s.home(), Consumable.TIME)),
          left("alone_life_support_spare_s", 1, s -> spare(s.home(), Consumable.LIFE_SUPPORT)),
          left("alone_energy_spare_kwh", 3, s -> spare(s.home(), Consumable.ENERGY) / J_PER_KWH),
          left("alone_distance_spare_m", 1, s -> spare(s.home(), Consumable.DISTANCE)),
          Column.text("in_order", s -> s.inOrder() ? "surely" : "no"),
          needed("in_order_arrive_s", 1, StopLeft::arriveS));

  private ReplanTables() {}

  static void write(
      Path dir,
      ReplanResult r,
      List<String> lost,
      String limitsNotResolved,
      List<String> warnings,
      PlaceFrame frame) {
    List<Column<ReplanResult>> summary = summary();
    summary.add(Column.foreignText("lost_ground", any -> String.join("; ", lost)));
    summary.add(Column.text("limits_not_resolved", any -> limitsNotResolved));
    summary.add(
        Column.text(
            "warnings",
            any ->
                Stream.concat(r.warnings().stream(), warnings.stream())
                    .collect(Collectors.joining(" | "))));
    PlaceTable.write(dir.resolve("summary.csv"), summary, List.of(r), frame);
    PlaceTable.write(dir.resolve("stops.csv"), STOPS, r.stops(), frame);
    AuditTable.write(dir.resolve("audit.csv"), r.drivenAgain(), frame);
  }

  private static List<Column<ReplanResult>> summary() {
    List<Column<ReplanResult>> all = new ArrayList<>();
    all.add(Column.text("question", r -> r.request().question().name()));
    all.add(Column.number("x_m", 2, r -> r.request().xM()));
    all.add(Column.number("y_m", 2, r -> r.request().yM()));
    all.add(Column.text("home", r -> state(r.state())));
    all.add(Column.text("what_ends_it", ReplanResult::end));
    all.add(
        Column.text(
            "rule_short",
            r -> String.join("; ", r.ruleShort().stream().map(Shortfall::text).toList())));
    all.add(needed("home_time_s", 1, r -> of(r.home(), Homeward::timeS)));
    all.add(needed("home_energy_kwh", 3, r -> of(r.home(), Homeward::energyJ) / J_PER_KWH));
    all.add(needed("home_distance_m", 1, r -> of(r.home(), Homeward::distanceM)));
    all.add(Column.text("first_to_bind", ReplanTables::bindsFirst));
    amounts(all, "time", "_s", Consumable.TIME, 1, 1);
    amounts(all, "life_support", "_s", Consumable.LIFE_SUPPORT, 1, 1);
    amounts(all, "energy", "_kwh", Consumable.ENERGY, J_PER_KWH, 3);
    amounts(all, "distance", "_m", Consumable.DISTANCE, 1, 1);
    all.add(Column.text("whole_plan_fits", r -> r.wholePlanFits() ? "yes" : "no"));
    all.add(left("turn_by_s", 1, r -> of(r.turnBack(), TurnBack::timeS)));
    all.add(left("turn_distance_m", 1, r -> of(r.turnBack(), TurnBack::distanceM)));
    all.add(needed("turn_energy_kwh", 3, r -> of(r.turnBack(), TurnBack::energyJ) / J_PER_KWH));
    all.add(Column.number("turn_x_m", 2, r -> of(r.turnBack(), TurnBack::xM)));
    all.add(Column.number("turn_y_m", 2, r -> of(r.turnBack(), TurnBack::yM)));
    all.add(Column.text("turn_after", r -> r.turnBack() == null ? "" : r.turnBack().from()));
    all.add(Column.text("turn_before", r -> r.turnBack() == null ? "" : r.turnBack().to()));
    all.add(Column.text("turn_because", r -> r.turnBack() == null ? "" : r.turnBack().end()));
    return all;
  }

  private static void amounts(
      List<Column<ReplanResult>> all,
      String name,
      String unit,
      Consumable of,
      double scale,
      int digits) {
    add(all, name + "_left" + unit, digits, of, a -> SafeSide.down(a.now() / scale, digits));
    add(all, name + "_reserve" + unit, digits, of, a -> SafeSide.up(a.reserve() / scale, digits));
    add(all, name + "_needed" + unit, digits, of, a -> SafeSide.up(a.needed() / scale, digits));
    add(all, name + "_spare" + unit, digits, of, a -> SafeSide.down(a.spare() / scale, digits));
  }

  private static void add(
      List<Column<ReplanResult>> all,
      String heading,
      int digits,
      Consumable of,
      ToDoubleFunction<Amount> value) {
    all.add(
        Column.number(
            heading,
            digits,
            r -> {
              Amount a = amount(r.home(), of);
              return a == null ? Double.NaN : value.applyAsDouble(a);
            }));
  }

  /** A column of what a crew may still use, or a deadline: never rounded up. */
  private static <T> Column<T> left(String heading, int digits, ToDoubleFunction<T> value) {
    return Column.number(heading, digits, row -> SafeSide.down(value.applyAsDouble(row), digits));
  }

  /** A column of what a crew needs: never rounded down. */
  private static <T> Column<T> needed(String heading, int digits, ToDoubleFunction<T> value) {
    return Column.number(heading, digits, row -> SafeSide.up(value.applyAsDouble(row), digits));
  }

  private static Amount amount(Homeward home, Consumable of) {
    return home == null
        ? null
        : home.amounts().stream().filter(a -> a.of() == of).findFirst().orElse(null);
  }

  private static double spare(Homeward home, Consumable of) {
    Amount a = amount(home, of);
    return a == null ? Double.NaN : a.spare();
  }

  private static <T> double of(T part, ToDoubleFunction<T> value) {
    return part == null ? Double.NaN : value.applyAsDouble(part);
  }

  private static String bindsFirst(ReplanResult r) {
    return r.state() == ReachState.SURELY ? r.bindsFirst() : "";
  }

  static String state(byte state) {
    return state == ReachState.SURELY
        ? "surely"
        : state == ReachState.POSSIBLY ? "possibly" : "not";
  }
}
