package org.scarpway.report;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.CorridorResult.ProfilePoint;
import org.scarpway.reach.question.CorridorResult.Visit;
import org.scarpway.reach.question.HomeAlong;
import org.scarpway.reach.question.HomeAlong.Turn;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.survey.RouteLeg;
import org.scarpway.reach.survey.RouteSurvey;
import org.scarpway.reach.survey.Waypoint;
import org.scarpway.report.Section.Line;
import org.scarpway.report.Section.MapView;

/**
 * Writes the sheet by which a crew drives a corridor: a page for the whole and one for each leg, in
 * one HTML file that opens offline and prints.
 */
public final class CrewSheet {
  private static final int MAP_PIXELS = 1000;

  private final CrewSheetData data;
  private final CorridorResult route;
  private final GridSpec spec;

  private CrewSheet(CrewSheetData data) {
    this.data = data;
    this.route = data.route();
    this.spec = data.heightM().spec();
  }

  /**
   * Writes the sheet completely or not at all.
   *
   * @throws org.scarpway.stage.StageFailure if the file cannot be written
   */
  public static void write(Path file, CrewSheetData data) {
    String html = Template.render("crew.html", new CrewSheet(data).model());
    AtomicFileWrite.write(file, part -> Files.writeString(part, html));
  }

  /** Returns what the sheet tells of the whole drive, the most important first. */
  public static List<String> sentences(CrewSheetData data) {
    return new CrewSheet(data).sentences();
  }

  private Map<String, Object> model() {
    LayerFactory layers = ClosedGround.layers(data.heightM(), MAP_PIXELS);
    Layer ground = ClosedGround.of(layers, "Way of the crew", data.closed(), route.vehicle());
    Relief relief = new Relief(layers.pixels, data.heightM(), data.gradEast(), data.gradNorth());
    Map<String, Object> m = new LinkedHashMap<>();
    m.put("title", route.request().name());
    m.put("pageTitle", route.request().name() + " – crew sheet");
    m.put("vehicle", route.vehicle());
    m.put("clock", data.departs().about());
    m.put("sentences", sentences());
    m.put("caution", ReplanAnswer.CAUTION);
    m.put("cautions", cautions());
    m.put("relief", Layer.Image.of(layers.pixels, Paint.relief(layers.pixels, relief.shade01)));
    m.put("layers", List.of(ground));
    String line = SvgPath.line(spec, route.centreline());
    m.put("line", line);
    m.put("frame", new MapFrame(spec, data.lonLat()));
    m.put("reliefNote", relief.note());
    m.put("map", new MapView("map", ground, "", stops(), List.of(new Line("centre", line, "way"))));
    m.put("keepOut", "");
    m.put("ellipses", "");
    List<CrewLeg.View> legs = new ArrayList<>();
    List<RouteLeg> surveyed = RouteSurvey.legs(route);
    for (int i = 0; i < data.waypoints().legs(); i++) {
      legs.add(new CrewLeg(data, i, surveyed.get(i)).view());
    }
    m.put("legs", legs);
    m.put("tables", List.of(legTable(surveyed), CrewRules.table(data.home())));
    List<String> warnings = route.warnings();
    m.put("warnings", warnings);
    m.put("warned", !warnings.isEmpty());
    return m;
  }

  /** Names of the stops, each place once. */
  private MapLabels stops() {
    MapLabels labels = new MapLabels(spec);
    Set<String> named = new HashSet<>();
    for (Visit v : route.visits()) {
      if (named.add(v.name())) {
        labels.add(v.xM(), v.yM(), named.size() == 1 ? "base" : "target", v.name());
      }
    }
    return labels;
  }

  private String earliest(double s) {
    return data.departs().notEarlier(s);
  }

  private List<String> sentences() {
    List<String> all = new ArrayList<>();
    Visit last = route.visits().get(route.visits().size() - 1);
    all.add(
        "From '"
            + route.visits().get(0).name()
            + "' to '"
            + last.name()
            + "' in "
            + count(data.waypoints().legs(), "leg")
            + ": "
            + Figures.distance(last.distanceM())
            + ", "
            + Figures.duration(last.timeS())
            + " with stays"
            + (Double.isFinite(last.energyJ()) ? ", " + Figures.energy(last.energyJ()) : "")
            + ".");
    if (data.home().isEmpty()) {
      all.add(
          "No reach question of the job from '"
              + route.visits().get(0).name()
              + "' with this vehicle asks the crew home: this sheet has NO turn-back times.");
    }
    for (HomeAlong h : data.home()) {
      all.add(homeSentence(h));
    }
    return all;
  }

  private static String count(int n, String what) {
    return n + " " + what + (n == 1 ? "" : "s");
  }

  private String homeSentence(HomeAlong h) {
    String by = "By '" + h.question().name() + "' (" + CrewRules.name(h) + ") ";
    for (int i = 0; i < h.at().size(); i++) {
      Turn t = h.at().get(i);
      if (!t.sure()) {
        ProfilePoint p = route.centreline().get(Math.max(0, i - 1));
        return by
            + "home is NOT sure on all of the way: it is from the start to "
            + Figures.distance(p.distanceM())
            + ", where "
            + t.end()
            + " ends it. The whole drive breaks that rule.";
      }
    }
    int tightest = -1;
    double spareS = Double.POSITIVE_INFINITY;
    for (Waypoint w : data.waypoints().all()) {
      Turn t = h.at().get(w.vertex());
      double s = t.latestS() - leavesS(w);
      if (!t.atBase() && s < spareS) {
        spareS = s;
        tightest = w.vertex();
      }
    }
    if (tightest < 0) {
      return by + "home is sure from every place of the way, and no limit sets a time.";
    }
    if (spareS < 0) {
      return by + "home is sure on the way, but NOT after the whole of the last stay.";
    }
    return by
        + "home is sure from every place of the way; least time in hand "
        + SafeSide.down(Consumable.TIME, spareS)
        + " after "
        + Figures.distance(route.centreline().get(tightest).distanceM())
        + " ("
        + h.at().get(tightest).end()
        + ").";
  }

  /** When the plan leaves a waypoint: after the stay at the end of a leg (s). */
  private double leavesS(Waypoint w) {
    boolean stop = Double.isNaN(w.nextM());
    return w.timeS() + (stop ? route.visits().get(w.leg() + 1).stayS() : 0);
  }

  private TableView legTable(List<RouteLeg> surveyed) {
    TableView table =
        new TableView(
            "Legs (" + data.departs().about() + ")",
            "leg",
            "leave",
            "arrive",
            "length",
            "driving",
            "stay",
            "turn back from its end by");
    for (int i = 0; i < surveyed.size(); i++) {
      List<Waypoint> at = data.waypoints().ofLeg(i);
      Visit to = route.visits().get(i + 1);
      table.row(
          (i + 1) + " to " + to.name(),
          earliest(at.get(0).timeS()),
          earliest(to.timeS()),
          Figures.distance(surveyed.get(i).lengthM()),
          Figures.duration(surveyed.get(i).timeS()),
          to.stayS() > 0 ? Figures.duration(to.stayS()) : Figures.NONE,
          data.turnBackBy(data.turnBackAt(at.get(at.size() - 1).vertex()), to.timeS()));
    }
    return table;
  }

  private List<String> cautions() {
    List<String> all = new ArrayList<>();
    all.add(ReplanAnswer.CAUTION);
    if (!data.limitsNotResolved().isEmpty()) {
      all.add(ReplanAnswer.notResolved(data.limitsNotResolved()));
    }
    all.addAll(
        List.of(
            "Turn-back times hold for a crew that set out with what the questions give it, drove as"
                + " planned to the waypoint and waits there. They are rounded down, arrivals up."
                + " The drive home told beside each is the one by which it holds; another may be quicker."
                + " A crew that is late on the way but rests nowhere has used other amounts: ask"
                + " 'scarpway replan' with what is left.",
            "Speeds are those of the model on this ground, not a permission.",
            "Obstacles smaller than about "
                + Figures.brief(2 * data.cellM())
                + " m cannot be seen in the elevation model."));
    return all;
  }
}
