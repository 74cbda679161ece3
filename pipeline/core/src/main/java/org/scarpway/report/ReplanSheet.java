package org.scarpway.report;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.locationtech.jts.geom.Coordinate;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.question.Left;
import org.scarpway.reach.question.ReachState;
import org.scarpway.reach.question.ReplanResult;
import org.scarpway.reach.question.ReplanResult.Amount;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.reach.question.ReplanResult.Homeward;
import org.scarpway.reach.question.ReplanResult.StopLeft;
import org.scarpway.reach.question.ReplanResult.TurnBack;
import org.scarpway.report.Section.Line;
import org.scarpway.report.Section.MapView;

/** Writes the sheet for a crew underway: one HTML file that opens offline and prints. */
public final class ReplanSheet {
  private static final int MAP_PIXELS = 1000;

  private final ReplanSheetData data;
  private final ReplanResult answer;
  private final GridSpec spec;

  private ReplanSheet(ReplanSheetData data) {
    this.data = data;
    this.answer = data.answer();
    this.spec = data.heightM().spec();
  }

  /**
   * Writes the sheet completely or not at all.
   *
   * @throws org.scarpway.stage.StageFailure if the file cannot be written
   */
  public static void write(Path file, ReplanSheetData data) {
    String html = Template.render("replan.html", new ReplanSheet(data).model());
    AtomicFileWrite.write(file, part -> Files.writeString(part, html));
  }

  private Map<String, Object> model() {
    LayerFactory layers = ClosedGround.layers(data.heightM(), MAP_PIXELS);
    Layer ground = ClosedGround.of(layers, "Ways of the crew", data.closed(), answer.vehicle());
    Relief relief = new Relief(layers.pixels, data.heightM(), data.gradEast(), data.gradNorth());
    Map<String, Object> m = new LinkedHashMap<>();
    m.put("job", data.job());
    m.put("pageTitle", data.job() + " – crew underway");
    m.put("state", ReplanAnswer.state(answer.state()).toUpperCase(Locale.ROOT));
    m.put("crewAt", place(answer.request().xM(), answer.request().yM()));
    m.put("left", left());
    m.put("facts", facts());
    m.put("sentences", ReplanAnswer.sentences(answer, data.placeText()));
    m.put("caution", ReplanAnswer.CAUTION);
    m.put("cautions", cautions());
    m.put("frame", new MapFrame(spec, data.lonLat()));
    m.put("relief", Layer.Image.of(layers.pixels, Paint.relief(layers.pixels, relief.shade01)));
    m.put("reliefNote", relief.note());
    m.put("layers", List.of(ground));
    m.put("map", new MapView("map", ground, "", labels(), lines()));
    m.put("keepOut", SvgPath.outline(spec, data.lost()));
    m.put("ellipses", "");
    List<TableView> tables = new ArrayList<>();
    if (answer.home() != null) {
      String how = answer.driveAlone() ? ", the drive of the vehicle by itself" : "";
      tables.add(amounts("Home from here" + how, answer.home()));
    }
    if (answer.turnBack() != null) {
      tables.add(turn());
      tables.add(amounts("Home from " + turnName(), answer.turnBack().home()));
    }
    tables.add(stops());
    tables.add(places());
    m.put("tables", tables);
    List<String> warnings = new ArrayList<>(answer.warnings());
    warnings.addAll(data.warnings());
    m.put("warnings", warnings);
    m.put("warningCount", warnings.size());
    m.put("command", data.command());
    m.put("jobDigest", data.jobDigest());
    return m;
  }

  private String turnName() {
    return answer.turnBack().whole() ? "the end of the plan" : "the point of no return";
  }

  private List<Page.Fact> facts() {
    List<Page.Fact> facts = new ArrayList<>();
    facts.add(new Page.Fact("Job", data.job()));
    facts.add(new Page.Fact("Vehicle", answer.vehicle()));
    facts.add(
        new Page.Fact("Rules and reserves of", "question " + answer.request().question().name()));
    facts.add(new Page.Fact("Plan", data.plan()));
    facts.add(new Page.Fact("Crew at", place(answer.request().xM(), answer.request().yM())));
    facts.add(new Page.Fact("Left", left()));
    if (data.lost() != null) {
      facts.add(new Page.Fact("Lost ground", String.join("; ", data.lostWords())));
    }
    if (Page.isNamed(data.crsName())) {
      facts.add(new Page.Fact("Reference system", data.crsName()));
    }
    facts.add(new Page.Fact("Cell", Figures.brief(data.cellM()) + " m"));
    facts.add(new Page.Fact("Program", data.version()));
    return facts;
  }

  private String left() {
    List<String> parts = new ArrayList<>();
    Left left = answer.request().left();
    add(parts, Consumable.TIME, left.timeS());
    add(parts, Consumable.LIFE_SUPPORT, left.lifeSupportS());
    add(parts, Consumable.ENERGY, left.energyJ());
    add(parts, Consumable.DISTANCE, left.distanceM());
    return parts.isEmpty() ? "nothing is limited" : String.join(", ", parts);
  }

  private static void add(List<String> parts, Consumable of, Double amount) {
    if (amount != null) {
      String figure = SafeSide.down(of, amount);
      parts.add(of == Consumable.LIFE_SUPPORT ? figure + " of life support" : figure);
    }
  }

  private String place(double xM, double yM) {
    String lonLat = Figures.lonLat(data.lonLat().at(xM, yM));
    return data.placeText().of(xM, yM) + (lonLat.isEmpty() ? "" : " (" + lonLat + ")");
  }

  private List<String> cautions() {
    List<String> all = new ArrayList<>();
    all.add(ReplanAnswer.CAUTION);
    if (!data.limitsNotResolved().isEmpty()) {
      all.add(ReplanAnswer.notResolved(data.limitsNotResolved()));
    }
    all.addAll(
        List.of(
            "'Surely' means that one way was found in the model that keeps every budget, reserve and"
                + " rule at every place of it, and that was driven again by independent code; it does"
                + " not describe the drive. Obstacles smaller than about "
                + Figures.brief(2 * data.cellM())
                + " m cannot be seen in the elevation model.",
            "Times count from the moment of the amounts left that were stated. What the job assumes of"
                + " ground and vehicle stands under Warnings, as in its report, and holds here too.",
            "Ways follow what was known when the job was made, and the lost areas given here. Ground"
                + " that changed otherwise, a damaged vehicle and a crew that is worse off are not in"
                + " these figures.",
            "The planned way is the best way from here over the remaining stops; a crew that leaves it"
                + " has another point of no return."));
    return all;
  }

  private MapLabels labels() {
    MapLabels labels = new MapLabels(spec);
    labels.add(answer.request().xM(), answer.request().yM(), "crew", "crew");
    TurnBack t = answer.turnBack();
    if (t != null && !t.whole()) {
      labels.add(t.xM(), t.yM(), "turn", "turn by " + SafeSide.down(Consumable.TIME, t.timeS()));
    }
    for (int i = 0; data.lost() != null && i < data.lost().getNumGeometries(); i++) {
      Coordinate in = data.lost().getGeometryN(i).getInteriorPoint().getCoordinate();
      labels.add(in.x, in.y, MapLabels.ON_LINE, data.lostWords().get(i));
    }
    for (ReportData.Place p : data.places()) {
      labels.add(p.xM(), p.yM(), Ground.symbol(p.kind()), p.name());
    }
    return labels;
  }

  private List<Line> lines() {
    List<Line> lines = new ArrayList<>();
    if (answer.planned().size() > 1) {
      String d = SvgPath.line(spec, answer.planned());
      lines.add(new Line("alt alt3", d, "planned way, as far as home is sure"));
    }
    if (answer.wayHome().size() > 1) {
      boolean surely = answer.state() == ReachState.SURELY;
      String text =
          surely ? "way home from here" : "way home from here, which breaks a rule or may";
      lines.add(
          new Line(surely ? "centre" : "alt alt2", SvgPath.line(spec, answer.wayHome()), text));
    }
    return lines;
  }

  private TableView amounts(String caption, Homeward home) {
    TableView table =
        new TableView(
            caption
                + ": "
                + SafeSide.up(Consumable.TIME, home.timeS())
                + ", "
                + SafeSide.up(Consumable.DISTANCE, home.distanceM()),
            "",
            "left",
            "needed",
            "left at home",
            "reserve to keep",
            "spare");
    for (Amount a : home.amounts()) {
      table.row(
          a.of().label(),
          SafeSide.down(a.of(), a.now()),
          SafeSide.up(a.of(), a.needed()),
          SafeSide.down(a.of(), a.atHome()),
          SafeSide.up(a.of(), a.reserve()),
          SafeSide.down(a.of(), a.spare()));
    }
    return table;
  }

  private TableView turn() {
    TurnBack t = answer.turnBack();
    TableView table =
        new TableView(
            t.whole() ? "End of the plan" : "Point of no return on the planned way", "", "");
    table.row(
        "time from now",
        t.whole()
            ? SafeSide.up(Consumable.TIME, t.timeS())
            : SafeSide.down(Consumable.TIME, t.timeS()));
    table.row(
        "distance from here",
        t.whole()
            ? SafeSide.up(Consumable.DISTANCE, t.distanceM())
            : SafeSide.down(Consumable.DISTANCE, t.distanceM()));
    if (Double.isFinite(t.energyJ())) {
      table.row("energy until there", SafeSide.up(Consumable.ENERGY, t.energyJ()));
    }
    table.row("place", place(t.xM(), t.yM()));
    table.row("after", t.from().isEmpty() ? "here" : t.from());
    table.row("before", t.to().isEmpty() ? Figures.NONE : t.to());
    if (!Double.isNaN(t.stayS())) {
      table.row("stay there at most", SafeSide.down(Consumable.TIME, t.stayS()));
    }
    table.row("what ends it", t.end().isEmpty() ? Figures.NONE : t.end());
    return table;
  }

  private TableView stops() {
    TableView table =
        new TableView(
            "Remaining stops in the order of the plan",
            "stop",
            "in order",
            "arrive, in order",
            "alone",
            "arrive, alone",
            "home, alone",
            "stay",
            "what ends it, alone");
    for (StopLeft s : answer.stops()) {
      table.row(
          s.stop().name(),
          s.inOrder() ? "surely" : "no",
          SafeSide.up(Consumable.TIME, s.arriveS()),
          ReplanAnswer.state(s.state()),
          SafeSide.up(Consumable.TIME, s.timeS()),
          s.home() == null ? Figures.NONE : SafeSide.up(Consumable.TIME, s.home().timeS()),
          SafeSide.up(Consumable.TIME, s.stop().stayS()),
          s.end().isEmpty() ? Figures.NONE : s.end());
    }
    return table;
  }

  private TableView places() {
    TableView table =
        new TableView(
            "Places", "place", "in the elevation model's own system", "latitude, longitude");
    row(table, "crew", answer.request().xM(), answer.request().yM());
    if (answer.turnBack() != null) {
      row(table, turnName(), answer.turnBack().xM(), answer.turnBack().yM());
    }
    data.places().forEach(p -> row(table, p.name(), p.xM(), p.yM()));
    return table;
  }

  private void row(TableView table, String name, double xM, double yM) {
    String lonLat = Figures.lonLat(data.lonLat().at(xM, yM));
    table.row(name, data.placeText().of(xM, yM), lonLat.isEmpty() ? Figures.NONE : lonLat);
  }
}
