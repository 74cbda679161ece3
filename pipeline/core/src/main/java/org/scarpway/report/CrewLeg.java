package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.geodata.crs.TrueNorth;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.PinchPoint;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.question.HomeAlong.Turn;
import org.scarpway.reach.question.ReplanResult.Amount;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.survey.RouteLeg;
import org.scarpway.reach.survey.Waypoint;
import org.scarpway.report.CrewSheetData.TurnBack;

/** The page of one leg of a crew's sheet. */
public final class CrewLeg {
  /** A time between waypoints that is earlier than theirs by less is not told (s). */
  private static final double TOLD_S = 60;

  /** Coordinates have decimals of a metre where cells are smaller (m). */
  private static final double FINE_M = 5;

  private static final double J_PER_KWH = 3.6e6;

  private final CrewSheetData data;
  private final CorridorResult route;
  private final int leg;
  private final RouteLeg surveyed;
  private final List<Waypoint> at;
  private final Visit from;
  private final Visit to;

  CrewLeg(CrewSheetData data, int leg, RouteLeg surveyed) {
    this.data = data;
    this.route = data.route();
    this.leg = leg;
    this.surveyed = surveyed;
    this.at = data.waypoints().ofLeg(leg);
    this.from = route.visits().get(leg);
    this.to = route.visits().get(leg + 1);
  }

  /** A leg as the template shows it. */
  record View(
      String id,
      String title,
      String times,
      List<String> sentences,
      CrewLegMap.View map,
      List<TableView> tables) {}

  View view() {
    List<String> sentences = new ArrayList<>();
    sentences.add(
        "Rises "
            + Figures.fixed(surveyed.riseM(), 0)
            + " m, falls "
            + Figures.fixed(surveyed.fallM(), 0)
            + " m; steepest "
            + surveyed.steepestUpPct()
            + " % up, "
            + surveyed.steepestDownPct()
            + " % down.");
    straight(sentences);
    sentences.add(
        to.stayS() > 0
            ? "Stay at '" + to.name() + "': " + Figures.duration(to.stayS()) + "."
            : "No stay at '" + to.name() + "'.");
    tooLong(sentences);
    bailOut(sentences);
    between(sentences);
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
    return new View(
        "leg-" + (leg + 1),
        "Leg "
            + (leg + 1)
            + " of "
            + data.waypoints().legs()
            + ": "
            + from.name()
            + " to "
            + to.name(),
        "Leave "
            + earliest(at.get(0).timeS())
            + ", arrive "
            + earliest(to.timeS())
            + "; "
            + Figures.distance(surveyed.lengthM())
            + ", "
            + Figures.duration(surveyed.timeS())
            + " driving",
        sentences,
        new CrewLegMap(data, at).view(),
        tables);
  }

  /** Tells what straight lines between the waypoints are held to. */
  private void straight(List<String> sentences) {
    double longerS = data.waypoints().longerS().get(leg);
    sentences.add(
        "Straight lines between the waypoints cross no ground that is closed to the vehicle as"
            + " mapped; the line lies within "
            + Figures.brief(Math.ceil(data.waypoints().asideM().get(leg)))
            + " m of them. Times, amounts and turn-back times are those of the line"
            + (longerS >= 1
                ? "; straight lines take up to "
                    + SafeSide.up(Consumable.TIME, longerS)
                    + " longer on this leg."
                : "."));
  }

  /** Tells that the stay at the end of the leg is longer than the crew can afford. */
  private void tooLong(List<String> sentences) {
    TurnBack t = data.turnBackAt(at.get(at.size() - 1).vertex());
    if (t.turn() != null
        && t.turn().sure()
        && !t.turn().atBase()
        && t.turn().latestS() < to.timeS() + to.stayS()) {
      sentences.add(
          "The planned stay at '"
              + to.name()
              + "' is TOO LONG: leave it for home "
              + (data.turnBackBy(t, to.timeS()).startsWith("at") ? "" : "by ")
              + data.turnBackBy(t, to.timeS())
              + ", after at most "
              + SafeSide.down(Consumable.TIME, t.turn().latestS() - to.timeS())
              + " ("
              + because(t)
              + ").");
    }
  }

  /** The longest time until everybody is home, over all rules asked, and the longest drive. */
  private void bailOut(List<String> sentences) {
    HomeAlong by = null;
    int far = -1;
    double longestS = -1;
    double driveM = 0;
    double curvesS = 0;
    boolean none = false;
    for (int i = 0; i < at.size(); i++) {
      for (HomeAlong h : data.home()) {
        Turn t = h.at().get(at.get(i).vertex());
        none |= !t.sure();
        if (t.way() != null) {
          driveM = Math.max(driveM, t.way().home().distanceM());
          curvesS = Math.max(curvesS, t.way().curvesS());
          if (t.way().stoppedS() > longestS) {
            longestS = t.way().stoppedS();
            by = h;
            far = i;
          }
        }
      }
    }
    if (by != null) {
      sentences.add(
          "Bail-out to '"
              + by.question().baseName()
              + "' from any waypoint of this leg before its turn-back time: at most "
              + SafeSide.up(Consumable.TIME, longestS)
              + " until everybody is home (waypoint "
              + (far + 1)
              + ", '"
              + by.question().name()
              + "': "
              + CrewRules.afterAStop(by)
              + "); drives home are at most "
              + SafeSide.up(Consumable.DISTANCE, driveM)
              + ".");
    }
    if (curvesS > TOLD_S) {
      sentences.add(
          "Curves add up to "
              + SafeSide.up(Consumable.TIME, curvesS)
              + " to a drive home, which turn-back times do not count.");
    }
    if (none) {
      sentences.add(
          "A place marked NONE has no way home by the rule named: do not go there without leave of"
              + " mission control.");
    }
  }

  private String earliest(double s) {
    return data.departs().notEarlier(s);
  }

  /** Tells turn-back times between waypoints that are earlier than at both. */
  private void between(List<String> sentences) {
    for (int i = 0; i + 1 < at.size(); i++) {
      double endsS = Math.min(latestS(at.get(i).vertex()), latestS(at.get(i + 1).vertex()));
      int worst = at.get(i).vertex();
      for (int v = worst; v <= at.get(i + 1).vertex(); v++) {
        worst = latestS(v) < latestS(worst) ? v : worst;
      }
      if (latestS(worst) < endsS - TOLD_S) {
        String by = data.turnBackBy(data.turnBackAt(worst), arrivesS(worst));
        sentences.add(
            "Between waypoints "
                + (i + 1)
                + " and "
                + (i + 2)
                + (latestS(worst) == Double.NEGATIVE_INFINITY
                    ? " there is a place with NO way home by a rule named."
                    : " there is a place to turn back "
                        + (by.startsWith("at") ? "" : "by ")
                        + by
                        + "."));
      }
    }
  }

  /** Planned arrival at a vertex of the leg (s). */
  private double arrivesS(int vertex) {
    Waypoint start = at.get(0);
    return start.timeS() + route.centreline().get(vertex).timeS() - start.at().timeS();
  }

  /** The earliest turn-back time at a vertex; before all others where home is not sure (s). */
  private double latestS(int vertex) {
    Turn t = data.turnBackAt(vertex).turn();
    if (t == null || (t.sure() && t.atBase())) {
      return Double.POSITIVE_INFINITY;
    }
    return t.sure() ? t.latestS() : Double.NEGATIVE_INFINITY;
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
          earliest(w.timeS()),
          "",
          Figures.fixed(w.legM() / 1000, 2),
          degrees(trueDeg(w)),
          degrees(w.gridDeg()),
          Figures.fixed(w.nextM(), 0),
          Figures.fixed(w.speedMs(), 1),
          data.turnBackBy(t, w.timeS()),
          because(t));
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

  private static String because(TurnBack t) {
    return t.turn() == null || t.turn().end().isEmpty() || (t.turn().sure() && t.turn().atBase())
        ? Figures.NONE
        : t.turn().end() + " (" + t.question().question().name() + ")";
  }

  /** Direction to the next waypoint from true north; NaN where it is not known. */
  private double trueDeg(Waypoint w) {
    return trueDeg(w, data.lonLat());
  }

  /** Direction to the next waypoint of a leg, clockwise from true north, NaN where unknown. */
  public static double trueDeg(Waypoint w, LonLat lonLat) {
    double deg = w.gridDeg() - TrueNorth.azimuthDeg(lonLat, w.at().xM(), w.at().yM());
    return Double.isNaN(deg) ? deg : ((deg % 360) + 360) % 360;
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
              "On arrival at '" + to.name() + "', by '" + h.question().name() + "'",
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
