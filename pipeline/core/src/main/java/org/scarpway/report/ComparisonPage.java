package org.scarpway.report;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.grid.GridSpec;
import org.scarpway.report.ComparisonData.Change;
import org.scarpway.report.Section.MapView;

/** Writes the page that compares runs: one HTML file that opens offline. */
public final class ComparisonPage {
  private static final int MAP_PIXELS = 800;

  private final ComparisonData data;

  private ComparisonPage(ComparisonData data) {
    this.data = data;
  }

  /**
   * Writes the page completely or not at all.
   *
   * @throws org.scarpway.stage.StageFailure if the file cannot be written
   */
  public static void write(Path file, ComparisonData data) {
    String html = Template.render("compare.html", new ComparisonPage(data).model());
    AtomicFileWrite.write(file, part -> Files.writeString(part, html));
  }

  private Map<String, Object> model() {
    GridSpec spec = data.heightM().spec();
    double cells = 0;
    for (float h : data.heightM().values()) {
      cells += Float.isNaN(h) ? 0 : 1;
    }
    LayerFactory layers = new LayerFactory(data.heightM(), MAP_PIXELS, cells * spec.cellAreaM2());
    Relief relief = new Relief(layers.pixels, data.heightM(), data.gradEast(), data.gradNorth());
    List<Layer> shown = new ArrayList<>();
    List<MapView> maps = new ArrayList<>();
    for (Change c : data.changes()) {
      String id = "change-" + (maps.size() + 1);
      Layer layer =
          layers.classes(
              id,
              c.title(),
              c.codes(),
              c.reach() ? ClassStyle.reachChanges() : ClassStyle.classChanges(),
              TilePack.Halving.LARGEST,
              "");
      shown.add(layer);
      maps.add(
          new MapView(
              "map-" + id, layer, "Raster of it: " + c.file(), new MapLabels(spec), List.of()));
    }
    Map<String, Object> m = new LinkedHashMap<>();
    m.put("name", data.name());
    m.put("first", data.runs().get(0));
    m.put("runs", runs());
    m.put("sentences", data.sentences());
    m.put("frame", new MapFrame(spec, data.lonLat()));
    m.put("pageTitle", data.name() + " – runs compared");
    m.put("relief", Layer.Image.of(layers.pixels, Paint.relief(layers.pixels, relief.shade01)));
    m.put("reliefNote", relief.note());
    m.put("layers", shown);
    m.put("maps", maps);
    m.put("keepOut", "");
    m.put("ellipses", "");
    m.put("settings", data.settings().isEmpty() ? List.of() : List.of(settings()));
    m.put("answers", answers());
    return m;
  }

  private List<Page.Fact> runs() {
    List<Page.Fact> facts = new ArrayList<>();
    for (int i = 0; i < data.runs().size(); i++) {
      facts.add(new Page.Fact(data.runs().get(i), data.origins().get(i)));
    }
    return facts;
  }

  private TableView settings() {
    List<String> header = new ArrayList<>(List.of("setting or input"));
    header.addAll(data.runs());
    TableView table = new TableView("Settings and inputs that differ", header);
    data.settings().forEach(row -> table.row(null, words(row)));
    return table;
  }

  /** One table for each part. */
  private List<TableView> answers() {
    List<String> header = new ArrayList<>(List.of("figure", "unit"));
    header.addAll(data.runs());
    data.runs().stream().skip(1).forEach(r -> header.add("change, " + r));
    Map<String, TableView> byPart = new LinkedHashMap<>();
    for (List<String> row : data.answers()) {
      if (row.get(1).contains(" coordinate of ")) {
        // A place is none of what is better or worse; the table beside the page has it.
        continue;
      }
      byPart
          .computeIfAbsent(row.get(0), part -> new TableView(part, header))
          .row(null, words(figures(row.subList(1, row.size()))));
    }
    return List.copyOf(byPart.values());
  }

  /** A row of figure, unit, values and changes with the digits and units of the report. */
  static List<String> figures(List<String> row) {
    String unit = row.get(1);
    List<String> told = new ArrayList<>();
    told.add(row.get(0));
    told.add(unit.equals("s") ? "" : Figures.unit(unit));
    for (String cell : row.subList(2, row.size())) {
      told.add(unit.isEmpty() || cell.isEmpty() ? cell : figure(unit, cell));
    }
    return told;
  }

  private static String figure(String unit, String cell) {
    double v;
    try {
      v = Double.parseDouble(cell);
    } catch (NumberFormatException e) {
      return cell;
    }
    String sign = cell.startsWith("+") ? "+" : "";
    return sign + (unit.equals("s") ? Figures.duration(v) : Figures.brief(v));
  }

  private static List<String> words(List<String> row) {
    return row.stream().map(w -> w.isEmpty() ? Figures.NONE : w).toList();
  }
}
