package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.SortieAnswer;
import org.scarpway.report.SortieAnswer.Step;
import org.scarpway.report.SortieAnswer.Stop;
import org.scarpway.report.SortieAnswer.Told;
import org.scarpway.report.SortieAnswer.Way;
import org.scarpway.run.product.Layers;
import org.scarpway.run.product.PlaceTable;

/** Writes the timetable, the stops and the route of a sortie. */
final class SortieTables {
  private static final GeometryFactory GEOMETRY = new GeometryFactory();
  private static final double DAY_S = 86_400;
  private static final double J_PER_KWH = 3.6e6;

  private SortieTables() {}

  static void write(Path dir, SortieAnswer a, PlaceFrame frame) {
    double keptJ = a.supply().keptJ();
    double keptS = a.supply().keptS();
    List<Column<Step>> plan =
        List.of(
            Column.position("step"),
            Column.whole("day", Step::day),
            Column.text("clock_from", s -> clock(s.fromS() - (s.day() - 1) * DAY_S)),
            Column.text("clock_to", s -> clock(s.toS() - (s.day() - 1) * DAY_S)),
            Column.number("from_s", 1, Step::fromS),
            Column.number("to_s", 1, Step::toS),
            Column.text("act", s -> word(s.act())),
            Column.text("from", Step::from),
            Column.text("to", Step::to),
            Column.number("x_m", 2, Step::xM),
            Column.number("y_m", 2, Step::yM),
            Column.number("distance_m", 1, Step::distanceM),
            Column.whole("walks", Step::walks),
            Column.number("energy_kwh", 4, s -> s.energyJ() / J_PER_KWH),
            Column.number("battery_kwh", 4, s -> s.batteryJ() / J_PER_KWH),
            Column.number("battery_spare_kwh", 4, s -> (s.leastJ() - keptJ) / J_PER_KWH),
            Column.number("life_support_h", 4, s -> s.lifeS() / 3600),
            Column.number("life_support_spare_h", 4, s -> (s.lifeS() - keptS) / 3600),
            Column.text("binds", Step::binds));
    PlaceTable.write(dir.resolve("plan.csv"), plan, a.steps(), frame);
    List<Column<Stop>> stops =
        List.of(
            Column.text("name", Stop::name),
            Column.number("x_m", 2, Stop::xM),
            Column.number("y_m", 2, Stop::yM),
            Column.number("value", 4, Stop::value),
            Column.text("must", s -> s.must() ? "yes" : "no"),
            Column.text("done", s -> s.day() > 0 ? "yes" : "no"),
            Column.text("day", s -> s.day() > 0 ? Integer.toString(s.day()) : ""),
            Column.number("arrive_s", 1, Stop::arriveS),
            Column.number("stay_min", 1, s -> s.staysS() / 60),
            Column.whole("walks", Stop::walks),
            Column.text("why_not", Stop::why));
    PlaceTable.write(dir.resolve("stops.csv"), stops, a.stops(), frame);
  }

  /** Hours and minutes of a day, counted from its first hour. */
  static String clock(double s) {
    long min = Math.round(s / 60);
    return String.format(Locale.ROOT, "%d:%02d", min / 60, min % 60);
  }

  static String word(Told act) {
    return act.name().toLowerCase(Locale.ROOT);
  }

  static void writeRoute(Path dir, String name, SortieAnswer a, GridSpec spec, Body body) {
    List<Feature> days = new ArrayList<>();
    for (Way w : a.ways()) {
      if (w.line().size() > 1 && w.distanceM() > 0) {
        Map<String, Object> about = new LinkedHashMap<>();
        about.put("day", w.day());
        about.put("from", w.from());
        about.put("to", w.to());
        about.put("length_m", w.distanceM());
        about.put("time_s", w.timeS());
        about.put("energy_j", w.energyJ());
        Coordinate[] line =
            w.line().stream().map(p -> new Coordinate(p.xM(), p.yM())).toArray(Coordinate[]::new);
        days.add(new Feature(GEOMETRY.createLineString(line), about));
      }
    }
    List<Feature> halts = new ArrayList<>();
    for (Step s : a.steps()) {
      if (s.act() != Told.DRIVE && s.act() != Told.RESERVE) {
        Map<String, Object> about = new LinkedHashMap<>();
        about.put("day", s.day());
        about.put("act", word(s.act()));
        about.put("place", s.to().equals(s.from()) ? s.to() : "on the way to " + s.to());
        about.put("from_s", s.fromS());
        about.put("to_s", s.toS());
        halts.add(new Feature(GEOMETRY.createPoint(new Coordinate(s.xM(), s.yM())), about));
      }
    }
    Layers.write(
        dir.resolve("route.gpkg"),
        spec,
        Layers.lines(
            new Layers.Words(
                "route", name, "route of " + name, "What is driven in one go, day by day"),
            days),
        Layers.points(
            new Layers.Words(
                "halts", name, "halts of " + name, "Stops, walks and nights in order of time"),
            halts));
    Layers.writeGeoJson(dir.resolve("route.geojson"), spec, body, days);
    Layers.writeGeoJson(dir.resolve("halts.geojson"), spec, body, halts);
  }
}
