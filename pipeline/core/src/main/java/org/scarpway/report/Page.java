package org.scarpway.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.ReportData.Place;
import org.scarpway.report.Section.Answer;
import org.scarpway.report.Section.Line;
import org.scarpway.report.Section.MapView;
import org.scarpway.stage.Workers;

/** The values of the page template, in the order of the page. */
final class Page {
  private static final int LATTICE = 8;

  /** Number of line styles for centrelines. */
  private static final int WAYS = 4;

  private final ReportData data;
  private final Ground ground;
  private final Relief relief;

  /**
   * @param maxPixels longest side of the images
   */
  Page(ReportData data, int maxPixels) {
    this.data = data;
    this.ground = new Ground(data, maxPixels);
    this.relief =
        new Relief(
            ground.pixels,
            data.dem().heightM(),
            data.terrain().gradEast(),
            data.terrain().gradNorth());
  }

  /**
   * @param unanswered why parts of the question have no answer
   */
  record Question(
      String id,
      String title,
      List<Brief> answers,
      List<Section> sections,
      List<String> unanswered) {
    boolean asked() {
      return !sections.isEmpty() || !unanswered.isEmpty();
    }
  }

  record Fact(String name, String value) {}

  /**
   * An answer on the first screen.
   *
   * @param id of the section that tells it in full
   * @param show what the map shows of it, as kind and number; empty for nothing
   */
  record Brief(
      String id, String title, String show, List<Section.KeyNumber> keys, List<String> sentences) {
    static Brief of(Section section, String kind, int number) {
      return new Brief(
          section.id(),
          section.title(),
          kind.isEmpty() ? "" : kind + " " + number,
          section.answer().keys(),
          section.answer().sentences());
    }
  }

  /** Returns the data of the map, in at most so many characters. */
  MapData.Packed blocks(long mostChars, Workers workers) {
    return MapData.of(ground, relief, lattice(), mostChars, workers);
  }

  /** Makes a section of each result, side by side; layers come in the order of the results. */
  private <T> List<Section> sections(List<T> results, SectionOf<T> of, Workers workers) {
    Section[] sections = new Section[results.size()];
    List<Ground> parts = new ArrayList<>();
    List<Runnable> tasks = new ArrayList<>();
    for (int k = 0; k < sections.length; k++) {
      int i = k;
      Ground part = ground.part();
      parts.add(part);
      tasks.add(() -> sections[i] = of.of(part, results.get(i), i + 1));
    }
    workers.all(tasks);
    parts.forEach(part -> ground.all.addAll(part.all));
    return List.of(sections);
  }

  private interface SectionOf<T> {
    Section of(Ground ground, T result, int number);
  }

  Map<String, Object> model(Workers workers) {
    List<Section> whereNot = sections(data.mobility(), MobilitySection::of, workers);
    Section terrain = GroundSection.of(ground);
    List<Section> howFar = sections(data.reaches(), ReachSection::of, workers);
    List<Section> whichWay = sections(data.corridors(), CorridorSection::of, workers);
    List<Section> whichDays = sections(data.sorties(), SortieSection::of, workers);
    List<Section> light = sections(data.light(), LightSection::of, workers);
    List<Section> whichSite = sites();
    List<Section> withGround = new ArrayList<>(whereNot);
    withGround.add(terrain);

    List<Question> questions =
        new ArrayList<>(
            List.of(
                question("where-not", "Where not?", "vehicle", whereNot, withGround, List.of()),
                question(
                    "how-far",
                    "How far and still home?",
                    "reach",
                    howFar,
                    howFar,
                    unanswered("reach/")),
                question(
                    "which-corridor",
                    "Which corridor?",
                    "corridor",
                    whichWay,
                    whichWay,
                    unanswered("corridor/")),
                question(
                    "which-site", "Which site?", "", whichSite, whichSite, unanswered("site"))));
    Question days =
        question("which-days", "Which days?", "", whichDays, whichDays, unanswered("sortie/"));
    if (days.asked()) {
      questions.add(questions.size() - 1, days);
    }

    List<String> noLight = new ArrayList<>(unanswered("light"));
    noLight.addAll(unanswered("contact"));
    Question lit = question("light", "When light and contact?", "", light, light, noLight);
    if (lit.asked()) {
      questions.add(questions.size() - 1, lit);
    }

    Map<String, Object> m = new LinkedHashMap<>();
    m.put("job", data.facts().job());
    m.put("facts", facts());
    m.put("inShort", inShort());
    m.put("tooLarge", "");
    m.put("hasProfile", !data.corridors().isEmpty() || !data.reaches().isEmpty());
    m.put("questions", questions);
    m.put("cautions", Cautions.of(ground));
    m.put("warnings", warnings());
    m.put("warningCount", warnings().size());
    m.put("frame", new MapFrame(ground.spec, data.lonLat()));
    m.put("pageTitle", data.facts().job() + " – traverse ground report");
    m.put("relief", Layer.Image.of(ground.pixels, Paint.relief(ground.pixels, relief.shade01)));
    m.put("reliefNote", relief.note());
    m.put("pixelNote", ground.layers.pixelNote());
    m.put("layers", ground.all);
    m.put("mainMap", mainMap());
    m.put("keepOut", keepOut());
    m.put("ellipses", ellipses());
    m.put("places", placeTable());
    m.put("sources", sourceTable());
    m.put("settings", settingTable());
    m.put("inputs", data.facts().inputs());
    m.put("command", data.facts().command());
    m.put("jobDigest", data.facts().jobDigest());
    return m;
  }

  private static Question question(
      String id,
      String title,
      String kind,
      List<Section> answering,
      List<Section> shown,
      List<String> unanswered) {
    List<Brief> answers = new ArrayList<>();
    for (Section s : answering) {
      if (!s.answer().keys().isEmpty() || !s.answer().sentences().isEmpty()) {
        answers.add(Brief.of(s, kind, answers.size()));
      }
    }
    return new Question(id, title, answers, shown, unanswered);
  }

  private List<String> unanswered(String stages) {
    return data.unanswered().entrySet().stream()
        .filter(e -> e.getKey().startsWith(stages))
        .map(Map.Entry::getValue)
        .toList();
  }

  private List<Section> sites() {
    List<Section> sections = new ArrayList<>();
    for (ReportData.Table t : data.sites()) {
      TableView table = new TableView(t.title(), t.header().stream().map(Figures::unit).toList());
      t.rows().forEach(row -> table.row(null, row));
      List<String> sentences = t.summary().isEmpty() ? List.of() : List.of(t.summary());
      sections.add(
          new Section(
              "site-table-" + (sections.size() + 1),
              t.title(),
              new Answer(List.of(), sentences),
              "",
              "",
              t.marks() == null ? List.of() : List.of(marked(t.marks(), sections.size() + 1)),
              t.contributions() == null ? List.of() : List.of(SiteBars.chart(t.contributions())),
              List.of(table)));
    }
    return sections;
  }

  /** Returns a map of places over the classes of their vehicle. */
  private MapView marked(ReportData.Marks marks, int number) {
    int vehicle = 0;
    while (!data.mobility().get(vehicle).vehicle().name().equals(marks.vehicle())) {
      vehicle++;
    }
    String id = MobilitySection.classLayer(vehicle + 1);
    Layer classes = ground.all.stream().filter(l -> l.id().equals(id)).findFirst().orElseThrow();
    return new MapView(
        "map-site-" + number,
        classes,
        "Cross in a circle: place found by the search.",
        ground.places(marks.places()),
        List.of());
  }

  /**
   * Returns the map at the top of the page; it shows the first vehicle's classes until a reader
   * chooses another layer.
   */
  private MapView mainMap() {
    List<Line> lines = new ArrayList<>();
    MapLabels labels = ground.places();
    for (int i = 0; i < data.corridors().size(); i++) {
      String own = "centre way" + (i % WAYS + 1);
      CorridorSection.lines(ground, data.corridors().get(i)).stream()
          .filter(line -> line.css().equals("centre"))
          .map(line -> new Line(own, line.d(), line.text()))
          .forEach(lines::add);
    }
    return new MapView("main", ground.all.get(0), "", labels, lines);
  }

  private String inShort() {
    GridSpec spec = ground.spec;
    return data.dem().body().name()
        + ", "
        + Figures.sig(spec.cols() * spec.cellXM() / 1000)
        + " x "
        + Figures.sig(spec.rows() * spec.cellYM() / 1000)
        + " km, cell "
        + Figures.brief(spec.cellXM())
        + " m";
  }

  private List<Fact> facts() {
    GridSpec spec = ground.spec;
    ReportData.Facts f = data.facts();
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact("Job", f.job()));
    facts.add(
        new Fact(
            "Body",
            data.dem().body().name()
                + ", gravity "
                + Figures.fixed(data.dem().body().gravityMs2(), 2)
                + " m/s²"));
    if (isNamed(f.crsName())) {
      facts.add(new Fact("Reference system", f.crsName()));
    }
    facts.add(
        new Fact(
            "Window",
            Figures.sig(spec.cols() * spec.cellXM() / 1000)
                + " x "
                + Figures.sig(spec.rows() * spec.cellYM() / 1000)
                + " km, "
                + spec.cols()
                + " x "
                + spec.rows()
                + " cells"));
    String cell = Figures.brief(spec.cellXM());
    facts.add(
        new Fact(
            "Cell",
            spec.cellXM() == spec.cellYM()
                ? cell + " m"
                : cell + " x " + Figures.brief(spec.cellYM()) + " m"));
    facts.add(
        new Fact(
            "Ground with elevation",
            Figures.area(ground.groundM2)
                + " ("
                + Figures.percent(ground.groundM2, ground.windowM2)
                + " %)"));
    facts.add(new Fact("Program", f.version()));
    return facts;
  }

  /** True if the file names its reference system with more than a word that stands for none. */
  static boolean isNamed(String crsName) {
    return !crsName.isBlank() && !crsName.strip().equalsIgnoreCase("unknown");
  }

  private List<String> warnings() {
    Set<String> all = new LinkedHashSet<>(data.warnings());
    all.addAll(data.dem().warnings());
    return List.copyOf(all);
  }

  private String keepOut() {
    return data.hazard() == null ? "" : SvgPath.outline(ground.spec, data.hazard().keepOut());
  }

  /** Returns the outlines of the landing ellipses of all candidates. */
  private String ellipses() {
    StringBuilder all = new StringBuilder();
    for (Place p : data.places()) {
      if (p.ellipse() != null) {
        all.append(SvgPath.outline(ground.spec, p.ellipse().outline()));
      }
    }
    return all.toString();
  }

  /** Returns longitude and latitude on a coarse lattice over the grid; empty if unknown. */
  private String lattice() {
    GridSpec spec = ground.spec;
    StringBuilder lattice = new StringBuilder();
    for (int r = 0; r <= LATTICE; r++) {
      for (int c = 0; c <= LATTICE; c++) {
        double x = spec.westM() + (spec.eastM() - spec.westM()) * c / LATTICE;
        double y = spec.northM() - (spec.northM() - spec.southM()) * r / LATTICE;
        double[] at = data.lonLat().at(x, y);
        if (at == null || !Double.isFinite(at[0]) || !Double.isFinite(at[1])) {
          return "";
        }
        lattice.append(lattice.length() > 0 ? " " : "");
        lattice.append(Figures.fixed(at[0], 7)).append(',').append(Figures.fixed(at[1], 7));
      }
    }
    return lattice.toString();
  }

  private TableView placeTable() {
    TableView table =
        new TableView(
            "Places of the job", "place", "kind", "E (m)", "N (m)", "latitude, longitude");
    for (Place p : data.places()) {
      table.row(
          p.name(),
          p.kind().label(),
          Figures.fixed(p.xM(), 1),
          Figures.fixed(p.yM(), 1),
          ground.lonLat(p.xM(), p.yM()));
    }
    return table;
  }

  private TableView sourceTable() {
    TableView table = new TableView("Methods and where they are published", "method", "source");
    data.sources().forEach(s -> table.row(s.method(), s.publication()));
    table.row("shaded relief", "Horn 1981, Proc. IEEE 69(1):14-47");
    table.row("class colours", "Okabe and Ito 2008, Color Universal Design");
    table.row("continuous colours", "viridis, Smith and van der Walt 2015");
    return table;
  }

  private TableView settingTable() {
    TableView table = new TableView("Every setting in effect", "setting", "value", "from");
    data.settings().forEach(s -> table.row(s.key(), s.value(), s.origin()));
    return table;
  }
}
