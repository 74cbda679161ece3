package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.PinchPoint;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.question.HomeAlong.Turn;
import org.scarpway.reach.question.ReplanResult.Amount;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.survey.Waypoint;
import org.scarpway.report.CrewSheetData.TurnBack;

/** The tables on the page of one leg of a crew's sheet. */
final class CrewLegTables {
  /** Coordinates have decimals of a metre where cells are smaller (m). */
  private static final double FINE_M = 5;

  private static final double J_PER_KWH = 3.6e6;

  private final CrewSheetData data;
  private final CorridorResult route;
  private final List<Waypoint> at;
  private final String to;

  /**
   * @param at waypoints of the leg
   * @param to name of the stop at its end
   */
  CrewLegTables(CrewSheetData data, List<Waypoint> at, String to) {
    this.data = data;
    this.route = data.route();
    this.at = at;
    this.to = to;
  }

  List<TableView> all() {
    List<TableView> tables = new ArrayList<>();
    tables.add(waypointTable());
    tables.add(placeTable());
    TableView byRule = ruleTable();
    if (byRule != null) {
      tables.add(byRule);
    }
    tables.addAll(reserveTables(at.get(at.size() - 1)));
    TableView narrow = pinchTable();
    if (narrow != null) {
      tables.add(narrow);
    }
    return tables;
  }

  private TableView waypointTable() {
    TableView table =
        new TableView(
            "Waypoints (" + data.departs().about() + ")",
            "waypoint",
            "planned",
            "actual",
            "km",
            "° true",
            "° grid",
            "next m",
            "m/s",
            "turn back by",
            "because");
    for (int i = 0; i < at.size(); i++) {
      Waypoint w = at.get(i);
      TurnBack t = data.turnBackAt(w.vertex());
      table.row(
          (i + 1) + (w.name().isEmpty() ? "" : " " + w.name()),
          data.departs().notEarlier(w.timeS()),
          "",
          Figures.fixed(w.legM() / 1000, 2),
          degrees(data.trueDeg(w)),
          degrees(w.gridDeg()),
          Figures.fixed(w.nextM(), 0),
          Figures.fixed(w.speedMs(), 1),
          data.turnBackBy(t, w.timeS()),
          data.because(t));
    }
    return table;
  }

  /** Coordinates, the drive home that the turn-back time rests on, and the times of every rule. */
  private TableView placeTable() {
    boolean world = !lonLat(at.get(0)).isEmpty();
    List<String> header = new ArrayList<>(List.of("waypoint", "east m", "north m"));
    if (world) {
      header.add("latitude, longitude");
    }
    List<HomeAlong> rules = data.home();
    if (!rules.isEmpty()) {
      header.addAll(List.of("drive home", "km home", "kWh home"));
    }
    TableView table = new TableView("Where the waypoints are, and the drives home", header);
    for (int i = 0; i < at.size(); i++) {
      Waypoint w = at.get(i);
      List<String> row = new ArrayList<>();
      row.add(Integer.toString(i + 1));
      int decimals = data.cellM() < FINE_M ? 1 : 0;
      row.add(Figures.fixed(w.at().xM(), decimals));
      row.add(Figures.fixed(w.at().yM(), decimals));
      if (world) {
        row.add(lonLat(w));
      }
      if (!rules.isEmpty()) {
        Turn t = data.turnBackAt(w.vertex()).turn();
        row.addAll(driveHome(t.way()));
      }
      table.row(null, row);
    }
    return table;
  }

  /** The times of every rule, unless one asks for the drive home alone; null then. */
  private TableView ruleTable() {
    List<HomeAlong> rules = data.home();
    if (rules.size() < 2 && rules.stream().allMatch(CrewRules::drives)) {
      return null;
    }
    List<String> header = new ArrayList<>(List.of("waypoint"));
    rules.forEach(h -> header.add(h.question().name()));
    TableView table =
        new TableView("Turn back by, and time until everybody is home after a stop", header);
    for (int i = 0; i < at.size(); i++) {
      List<String> row = new ArrayList<>();
      row.add(Integer.toString(i + 1));
      for (HomeAlong h : rules) {
        row.add(byRule(h, at.get(i)));
      }
      table.row(null, row);
    }
    return table;
  }

  private String lonLat(Waypoint w) {
    return Figures.lonLat(data.lonLat().at(w.at().xM(), w.at().yM()));
  }

  private static List<String> driveHome(HomeAlong.Way way) {
    if (way == null) {
      return List.of(Figures.NONE, Figures.NONE, Figures.NONE);
    }
    double kWh = way.home().energyJ() / J_PER_KWH;
    return List.of(
        SafeSide.up(Consumable.TIME, way.home().timeS()),
        Figures.fixed(SafeSide.up(way.home().distanceM() / 1000, 2), 2),
        Double.isFinite(kWh) ? Figures.fixed(SafeSide.up(kWh, 2), 2) : Figures.NONE);
  }

  private String byRule(HomeAlong h, Waypoint w) {
    Turn t = h.at().get(w.vertex());
    String by = data.turnBackBy(new TurnBack(h, t), w.timeS());
    return t.way() == null ? by : by + ", " + SafeSide.up(Consumable.TIME, t.way().stoppedS());
  }

  private static String degrees(double deg) {
    return Double.isNaN(deg)
        ? Figures.NONE
        : String.format(Locale.ROOT, "%03d", Math.floorMod(Math.round(deg), 360));
  }

  private List<TableView> reserveTables(Waypoint end) {
    List<TableView> all = new ArrayList<>();
    for (HomeAlong h : data.home()) {
      Turn t = h.at().get(end.vertex());
      if (t.way() == null || t.way().home().amounts().isEmpty()) {
        continue;
      }
      TableView table =
          new TableView(
              "On arrival at '" + to + "', by '" + h.question().name() + "'",
              "",
              "left",
              "home needs",
              "reserve to keep",
              "spare");
      for (Amount a : t.way().home().amounts()) {
        table.row(
            a.of().label(),
            SafeSide.down(a.of(), a.now()),
            SafeSide.up(a.of(), a.needed()),
            SafeSide.up(a.of(), a.reserve()),
            SafeSide.down(a.of(), a.spare()));
      }
      all.add(table);
    }
    return all;
  }

  private TableView pinchTable() {
    double fromM = at.get(0).at().distanceM();
    double toM = at.get(at.size() - 1).at().distanceM();
    TableView table = null;
    for (int i = 0; i < route.pinchPoints().size(); i++) {
      PinchPoint p = route.pinchPoints().get(i);
      if (p.distanceM() >= fromM && p.distanceM() <= toM) {
        if (table == null) {
          table = new TableView("Narrow places on this leg", "place", "on leg", "width", "where");
        }
        table.row(
            "P" + (i + 1),
            Figures.distance(p.distanceM() - fromM),
            Figures.distance(p.widthM()),
            data.placeText().of(p.xM(), p.yM()));
      }
    }
    return table;
  }
}
