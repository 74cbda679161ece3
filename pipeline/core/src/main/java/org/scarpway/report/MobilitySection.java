package org.scarpway.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.StringJoiner;
import java.util.function.IntToLongFunction;
import java.util.stream.Stream;
import org.scarpway.grid.ByteGrid;
import org.scarpway.report.Section.Answer;
import org.scarpway.report.Section.KeyNumber;
import org.scarpway.report.Section.MapView;
import org.scarpway.vehicle.ClassCells;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.ShownMobility;

/**
 * The section on one vehicle: the ground where it can drive, can drive slowly or cannot drive, and
 * the limits that stop it.
 */
final class MobilitySection {
  /** Limits that stand for missing data and leave ground without a verdict. */
  private static final List<Limit> NOT_KNOWN =
      List.of(Limit.VOID, Limit.ROCK_DATA, Limit.SOIL_DATA);

  private final Ground ground;
  private final ShownMobility mobility;
  private final String name;
  private final ClassCells cells;

  private MobilitySection(Ground ground, ShownMobility mobility) {
    this.ground = ground;
    this.mobility = mobility;
    this.name = mobility.vehicle().name();
    this.cells = mobility.cells();
  }

  /** Returns the id of the layer of a vehicle's classes. */
  static String classLayer(int number) {
    return "class-" + number;
  }

  static Section of(Ground ground, ShownMobility mobility, int number) {
    return new MobilitySection(ground, mobility).section(number);
  }

  private Section section(int number) {
    List<ClassStyle> styles = ClassStyle.mobility();
    MapView main =
        classMap(number)
            .captioned(
                "Layers of the map at the head of the page: the limit that binds, headings allowed, mean"
                    + " speed.");
    List<MapView> maps = new ArrayList<>();
    maps.add(main);
    double[] share = new double[styles.size()];
    StringBuilder words = new StringBuilder("Shares of the ground that is judged: ");
    for (int s = 0; s < share.length; s++) {
      double m2 = areaM2(styles.get(s).code());
      share[s] = judgedM2() > 0 ? m2 / judgedM2() : 0;
      words.append(styles.get(s).label()).append(' ');
      words.append(Figures.percent(m2, judgedM2())).append(" %, ");
    }
    words.append("beside them ").append(Figures.area(unjudgedM2()));
    words.append(" without a verdict (").append(unjudgedWhy()).append(").");
    RoseSection roses = new RoseSection(ground.data, mobility.vehicle());
    List<TableView> tables = new ArrayList<>();
    tables.addAll(List.of(classTable(styles), limitTable()));
    if (areaM2(Mobility.SLOW) > 0) {
      tables.add(new WhySlow(mobility.slow()).table(name, cells.cellAreaM2()));
    }
    tables.add(
        LimitsInEffect.table(
            mobility.vehicle(),
            ground.data.terrain().lengths(),
            mobility.vehicle().soil() != null || ground.data.facts().soilsByPlace()));
    mobility.noGo01().ifPresent(p -> tables.add(noGoTable(p.values())));
    if (!roses.isEmpty()) {
      tables.add(roses.table());
      tables.add(roses.limits());
    }
    return new Section(
        "vehicle-" + number,
        name,
        answer(),
        Paint.shares(styles, share).uri(),
        words.toString(),
        maps,
        List.of(
            SlopeHistogram.chart(ground, mobility, number),
            new Section.Chart(RoseSection.TITLE, roses.html())),
        tables);
  }

  /** Returns the map with which the section begins, as a figure of its own. */
  static MapFigure figure(Ground ground, ShownMobility mobility) {
    MobilitySection section = new MobilitySection(ground, mobility);
    return new MapFigure(section.name, section.answer(), section.classMap(1));
  }

  private MapView classMap(int number) {
    Layer layer =
        ground.keep(
            classes(
                classLayer(number),
                "Go, slow and no-go: " + name,
                mobility.cls(),
                cells::count,
                Stream.concat(ClassStyle.mobility().stream(), Stream.of(ClassStyle.noVerdict()))
                    .toList(),
                Set.of((byte) 0),
                "Slow: open on some headings only, or at reduced speed. No-go: a limit is exceeded on every"
                    + " heading."));
    return new MapView("map-" + layer.id(), layer, "", ground.places(), List.of());
  }

  /**
   * Returns a map of classes with their shares of the ground that has a verdict.
   *
   * @param count number of cells of a code over all ground
   * @param unjudged codes of ground without a verdict
   */
  private Layer classes(
      String id,
      String title,
      ByteGrid grid,
      IntToLongFunction count,
      List<ClassStyle> styles,
      Set<Byte> unjudged,
      String note) {
    long[] stated = new long[256];
    for (ClassStyle style : styles) {
      double m2 = count.applyAsLong(style.code()) * cells.cellAreaM2();
      stated[style.code()] = Math.round(m2 / ground.spec.cellAreaM2());
    }
    return ground.layers.classes(
        id,
        title,
        grid,
        styles,
        TilePack.Halving.WORST_CLASS,
        stated,
        new LayerFactory.Whole(judgedM2(), "ground that is judged", unjudged),
        note);
  }

  private double areaM2(int cls) {
    return cells.count(cls) * cells.cellAreaM2();
  }

  /** Returns the area (m²) of ground with a class. */
  private double judgedM2() {
    return areaM2(Mobility.GO) + areaM2(Mobility.SLOW) + areaM2(Mobility.NO_GO);
  }

  /** Returns the area (m²) of cells without a class, including those without elevation. */
  private double unjudgedM2() {
    return areaM2(0);
  }

  private String unjudgedWhy() {
    StringJoiner why = new StringJoiner("; ").setEmptyValue("all is judged");
    for (Limit limit : NOT_KNOWN) {
      if (cells.count(0, limit.code()) > 0) {
        double m2 = cells.count(0, limit.code()) * cells.cellAreaM2();
        why.add(ClassStyle.label(limit) + ' ' + Figures.area(m2));
      }
    }
    return why.toString();
  }

  /**
   * Describes the ground left without a verdict by missing data, as a share of all cells; null if
   * none.
   */
  static String missing(ShownMobility mobility) {
    StringBuilder text = new StringBuilder();
    for (Limit limit : NOT_KNOWN) {
      long n = mobility.cells().count(0, limit.code());
      if (n > 0) {
        text.append(text.isEmpty() ? "" : ", ").append(ClassStyle.label(limit)).append(" on ");
        text.append(Figures.percent((double) n, (double) mobility.cells().all()))
            .append(" % of the window");
      }
    }
    return text.isEmpty()
        ? null
        : mobility.vehicle().name() + ": " + text + ". There is no verdict there, good or bad.";
  }

  private Answer answer() {
    double noGo = areaM2(Mobility.NO_GO);
    double slow = areaM2(Mobility.SLOW);
    double whole = judgedM2();
    List<String> text = new ArrayList<>();
    text.add(
        name
            + ": "
            + Figures.area(noGo)
            + " ("
            + Figures.percent(noGo, whole)
            + " %) of the "
            + Figures.area(whole)
            + " that is judged is no-go, "
            + Figures.area(slow)
            + " ("
            + Figures.percent(slow, whole)
            + " %) is slow.");
    if (mobility.unresolved() != null) {
      text.add(
          "The cells are too coarse to show "
              + mobility.unresolved().limits().size()
              + " of its limits on "
              + Figures.sig(mobility.unresolved().sharePct())
              + " % of that ground, which may be worse than its class: see the cautions.");
    }
    String missing = missing(mobility);
    if (missing != null) {
      text.add(missing);
    }
    List<Limit> worst = byArea(Mobility.NO_GO);
    if (!worst.isEmpty()) {
      StringBuilder s = new StringBuilder("What forbids it most often: ");
      for (int i = 0; i < Math.min(3, worst.size()); i++) {
        double n = (double) cells.count(Mobility.NO_GO, worst.get(i).code());
        s.append(i > 0 ? ", " : "").append(worst.get(i).label()).append(" (");
        s.append(Figures.percent(n, (double) cells.count(Mobility.NO_GO)))
            .append(" % of the no-go ground)");
      }
      text.add(s.append('.').toString());
    }
    if (slow > 0) {
      text.add(new WhySlow(mobility.slow()).sentence());
    }
    List<KeyNumber> keys = new ArrayList<>();
    keys.add(new KeyNumber(Figures.percent(noGo, whole), "%", "no-go"));
    keys.add(new KeyNumber(Figures.percent(slow, whole), "%", "slow"));
    if (missing != null) {
      keys.add(KeyNumber.ofArea(unjudgedM2(), "no verdict"));
    }
    return new Answer(keys, text);
  }

  /**
   * Returns the limits that bind in a class, largest area first; equal areas in the order of codes.
   */
  private List<Limit> byArea(int cls) {
    List<Limit> found = new ArrayList<>();
    for (Limit limit : Limit.values()) {
      if (cells.count(cls, limit.code()) > 0) {
        found.add(limit);
      }
    }
    found.sort(Comparator.comparingLong((Limit l) -> -cells.count(cls, l.code())));
    return found;
  }

  private TableView classTable(List<ClassStyle> styles) {
    TableView table =
        new TableView(
            "Areas by class, " + name, "class", "area (km²)", "share of judged ground (%)");
    for (ClassStyle style : styles) {
      double m2 = areaM2(style.code());
      table.row(
          Paint.swatch(style).uri(),
          List.of(style.label(), Figures.km2(m2), Figures.percent(m2, judgedM2())));
    }
    table.row("no verdict (" + unjudgedWhy() + ")", Figures.km2(unjudgedM2()), "");
    return table;
  }

  private TableView limitTable() {
    TableView table =
        new TableView(
            "Area by binding limit, " + name, "limit", "no-go (km²)", "slow (km²)", "go (km²)");
    for (ClassStyle style : ClassStyle.limits()) {
      int code = style.code();
      if (cells.count(1, code) + cells.count(2, code) + cells.count(3, code) > 0) {
        table.row(
            Paint.swatch(style).uri(),
            List.of(style.label(), km2(3, code), km2(2, code), km2(1, code)));
      }
    }
    return table;
  }

  private String km2(int cls, int code) {
    return Figures.km2(cells.count(cls, code) * cells.cellAreaM2());
  }

  private TableView noGoTable(float[] noGo01) {
    TableView table =
        new TableView(
            "How likely the ground is no-go, " + name,
            "P(no-go)",
            "area (km²)",
            "share of judged ground (%)");
    double[] bound = {0, 0.01, 0.05, 0.1, 0.5, 1};
    long[] n = new long[bound.length];
    for (float p : noGo01) {
      int k = 1;
      while (k < bound.length - 1 && p > bound[k]) {
        k++;
      }
      n[k] += Float.isNaN(p) ? 0 : 1;
    }
    for (int k = 1; k < bound.length; k++) {
      double m2 = n[k] * ground.spec.cellAreaM2();
      table.row(
          Figures.plain(bound[k - 1]) + " to " + Figures.plain(bound[k]),
          Figures.km2(m2),
          Figures.percent(m2, judgedM2()));
    }
    return table;
  }
}
