package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.geodata.crs.LonLat;
import org.scarpway.geodata.crs.TrueNorth;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.PinchPoint;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.question.HomeAlong.Turn;
import org.scarpway.reach.question.ReplanResult.Amount;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.question.ReplanResult.Homeward;
import org.scarpway.reach.survey.DepartureClock;
import org.scarpway.reach.survey.RouteLeg;
import org.scarpway.reach.survey.Waypoint;
import org.scarpway.report.CrewSheetData.TurnBack;

/** The page of one leg of a crew's sheet. */
public final class CrewLeg {
  /** Share of a leg's size that its map shows about it. */
  private static final double RIM = 0.15;

  /** A time between waypoints that is earlier than theirs by less is not told (s). */
  private static final double TOLD_S = 60;

  private final CrewSheetData data;
  private final CorridorResult route;
  private final GridSpec spec;
  private final int leg;
  private final RouteLeg surveyed;
  private final List<Waypoint> at;
  private final Visit from;
  private final Visit to;

  CrewLeg(CrewSheetData data, int leg, RouteLeg surveyed) {
    this.data = data;
    this.route = data.route();
    this.spec = data.heightM().spec();
    this.leg = leg;
    this.surveyed = surveyed;
    this.at = data.waypoints().ofLeg(leg);
    this.from = route.visits().get(leg);
    this.to = route.visits().get(leg + 1);
  }

  /**
   * A leg as the template shows it.
   *
   * @param viewBox part of the map that shows it
   * @param ground how much ground that part shows, and which way is up
   */
  record View(
      String id,
      String title,
      String times,
      List<String> sentences,
      String viewBox,
      String ground,
      List<MapPoint> points,
      List<TableView> tables) {}

  /** A waypoint on the map of a leg, in drawing units. */
  record MapPoint(String x, String y, String r, String number) {}

  View view() {
    List<String> sentences = new ArrayList<>();
    sentences.add(
        "Rises "
            + Figures.brief(surveyed.riseM())
            + " m, falls "
            + Figures.brief(surveyed.fallM())
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
            + SafeSide.up(Consumable.TIME, surveyed.timeS())
            + " driving",
        sentences,
        viewBox(),
        ground(),
        points(),
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
    if (t.turn() != null && t.turn().sure() && t.turn().latestS() < to.timeS() + to.stayS()) {
      sentences.add(
          "The planned stay at '"
              + to.name()
              + "' is TOO LONG: leave it for home by "
              + data.departs().notLater(t.turn().latestS())
              + ", after at most "
              + SafeSide.down(Consumable.TIME, t.turn().latestS() - to.timeS())
              + " ("
              + because(t)
              + ").");
    }
  }

  /** The longest way home from a waypoint of the leg, by the question that leaves least time. */
  private void bailOut(List<String> sentences) {
    Waypoint far = null;
    Homeward longest = null;
    for (Waypoint w : at) {
      TurnBack t = data.turnBackAt(w.vertex());
      if (t.turn() != null && t.turn().home() != null) {
        Homeward h = t.turn().home();
        if (longest == null || h.timeS() > longest.timeS()) {
          longest = h;
          far = w;
        }
      }
    }
    if (longest == null) {
      return;
    }
    sentences.add(
        "Bail-out: turn for '"
            + data.home().get(0).question().baseName()
            + "' from any waypoint before its turn-back time; the longest way home on this leg, after "
            + Figures.distance(far.legM())
            + ", takes "
            + SafeSide.up(Consumable.TIME, longest.timeS())
            + " and "
            + SafeSide.up(Consumable.DISTANCE, longest.distanceM())
            + ". A place marked NONE has no way home by the rule named: do not go there without"
            + " leave of mission control.");
  }

  private String earliest(double s) {
    return data.departs().notEarlier(s);
  }

  /** Tells turn-back times between waypoints that are earlier than at both. */
  private void between(List<String> sentences) {
    for (int i = 0; i + 1 < at.size(); i++) {
      double endsS = Math.min(latestS(at.get(i).vertex()), latestS(at.get(i + 1).vertex()));
      double leastS = Double.POSITIVE_INFINITY;
      for (int v = at.get(i).vertex(); v <= at.get(i + 1).vertex(); v++) {
        leastS = Math.min(leastS, latestS(v));
      }
      if (leastS < endsS - TOLD_S) {
        sentences.add(
            "Between waypoints "
                + (i + 1)
                + " and "
                + (i + 2)
                + (leastS == Double.NEGATIVE_INFINITY
                    ? " there is a place with NO way home by a rule named."
                    : " turn back by " + data.departs().notLater(leastS) + "."));
      }
    }
  }

  /** The earliest turn-back time at a vertex; before all others where home is not sure (s). */
  private double latestS(int vertex) {
    Turn t = data.turnBackAt(vertex).turn();
    return t == null ? Double.POSITIVE_INFINITY : t.sure() ? t.latestS() : Double.NEGATIVE_INFINITY;
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
            "because",
            "home in");
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
          turnBy(t, data.departs()),
          because(t),
          t.turn() == null || t.turn().home() == null
              ? Figures.NONE
              : SafeSide.up(Consumable.TIME, t.turn().home().timeS()));
    }
    return table;
  }

  static String turnBy(TurnBack t, DepartureClock departs) {
    if (t.turn() == null) {
      return Figures.NONE;
    }
    if (!t.turn().sure()) {
      return "NONE";
    }
    return t.turn().latestS() == Double.POSITIVE_INFINITY
        ? "no limit"
        : departs.notLater(t.turn().latestS());
  }

  private static String because(TurnBack t) {
    return t.turn() == null || t.turn().end().isEmpty()
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
      if (t.home() == null || t.home().amounts().isEmpty()) {
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
      for (Amount a : t.home().amounts()) {
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

  /** The part of the map about a leg, with a rim, in drawing units. */
  private String viewBox() {
    double perM = SvgPath.WIDTH / (spec.cols() * spec.cellXM());
    double west = Double.POSITIVE_INFINITY;
    double east = Double.NEGATIVE_INFINITY;
    double top = Double.POSITIVE_INFINITY;
    double bottom = Double.NEGATIVE_INFINITY;
    for (int v = at.get(0).vertex(); v <= at.get(at.size() - 1).vertex(); v++) {
      ProfilePoint p = route.centreline().get(v);
      double x = (p.xM() - spec.westM()) * perM;
      double y = (spec.northM() - p.yM()) * perM;
      west = Math.min(west, x);
      east = Math.max(east, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
    }
    double side = Math.max(40, Math.max(east - west, bottom - top) * (1 + 2 * RIM));
    double height = Math.min(side, Math.max(0.5 * side, (bottom - top) * (1 + 2 * RIM)));
    double midX = (west + east) / 2;
    double midY = (top + bottom) / 2;
    return Figures.fixed(midX - side / 2, 1)
        + " "
        + Figures.fixed(midY - height / 2, 1)
        + " "
        + Figures.fixed(side, 1)
        + " "
        + Figures.fixed(height, 1);
  }

  private String ground() {
    String[] box = viewBox().split(" ");
    double mPerUnit = spec.cols() * spec.cellXM() / SvgPath.WIDTH;
    return "Up is grid north; the map shows "
        + Figures.distance(Double.parseDouble(box[2]) * mPerUnit)
        + " from west to east and "
        + Figures.distance(Double.parseDouble(box[3]) * mPerUnit)
        + " from south to north.";
  }

  private List<MapPoint> points() {
    double perM = SvgPath.WIDTH / (spec.cols() * spec.cellXM());
    double unit = Double.parseDouble(viewBox().split(" ")[2]) / 60;
    List<MapPoint> all = new ArrayList<>();
    for (int i = 0; i < at.size(); i++) {
      ProfilePoint p = at.get(i).at();
      all.add(
          new MapPoint(
              Figures.fixed((p.xM() - spec.westM()) * perM, 1),
              Figures.fixed((spec.northM() - p.yM()) * perM, 1),
              Figures.fixed(unit, 2),
              Integer.toString(i + 1)));
    }
    return all;
  }
}
