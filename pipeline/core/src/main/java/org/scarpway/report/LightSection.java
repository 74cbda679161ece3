package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.report.Section.Answer;
import org.scarpway.report.Section.KeyNumber;
import org.scarpway.report.Section.MapView;

/** The section on light, or on contact. */
final class LightSection {
  /** Of cells that become one the largest code of a link is the worst. */
  private static final TilePack.Halving LARGEST = TilePack.Halving.LARGEST;

  /** Places whose sky is drawn; the table has all. */
  private static final int MOST_PLOTS = 12;

  /** Places that the answer tells of. */
  private static final int MOST_TOLD = 4;

  private final Ground ground;
  private final LightData light;

  private LightSection(Ground ground, LightData light) {
    this.ground = ground;
    this.light = light;
  }

  static Section of(Ground ground, LightData light, int number) {
    return new LightSection(ground, light).section(number);
  }

  private Section section(int number) {
    List<MapView> maps = new ArrayList<>();
    for (LightData.Amount a : light.amounts()) {
      if (a.drawn()) {
        String unit = a.unit().equals("1") ? "0 to 1" : a.unit();
        map(maps, ground.layers.ramp(a.id(), a.title(), unit, a.grid(), 0, a.high(), a.note()));
      }
    }
    if (light.links() != null) {
      map(
          maps,
          ground.layers.classes(
              "mast-link", "Link to masts", light.links(), ClassStyle.links(), LARGEST, ""));
    }
    return new Section(
        "light-" + number + "-" + light.id(),
        light.title(),
        answer(),
        "",
        "",
        maps,
        List.of(new Section.Chart("Horizon and path of the " + light.seen(), plots())),
        light.places().isEmpty() ? List.of() : List.of(table()));
  }

  private void map(List<MapView> maps, Layer layer) {
    maps.add(new MapView("map-" + layer.id(), ground.keep(layer), "", ground.places(), List.of()));
  }

  private Answer answer() {
    List<KeyNumber> keys = new ArrayList<>();
    List<String> sentences = new ArrayList<>();
    sentences.add(light.window());
    for (LightData.At p : light.places().subList(0, Math.min(MOST_TOLD, light.places().size()))) {
      if (keys.isEmpty()) {
        keys.add(
            new KeyNumber(
                Figures.percent(p.aboveShare(), 1),
                "%",
                "of the window " + light.above() + " at " + p.name()));
        keys.add(
            new KeyNumber(
                (p.atLeast() ? ">" : "") + Figures.sig(p.longestBelowH()),
                "h",
                "longest " + light.below() + " there"));
      }
      sentences.add(
          p.name()
              + ": "
              + light.above()
              + " "
              + Figures.percent(p.aboveShare(), 1)
              + " % of the window, longest "
              + light.below()
              + " "
              + longest(p)
              + ".");
    }
    sentences.addAll(light.notes());
    return new Answer(keys, sentences);
  }

  private static String longest(LightData.At p) {
    return (p.atLeast() ? "at least " : "") + Figures.sig(p.longestBelowH()) + " h";
  }

  private String plots() {
    if (light.places().isEmpty()) {
      return "";
    }
    StringBuilder html = new StringBuilder("<div class=\"roses\">");
    int shown = Math.min(MOST_PLOTS, light.places().size());
    for (LightData.At p : light.places().subList(0, shown)) {
      html.append("<div>").append(SkyPlot.svg(p)).append("<span>");
      html.append(Svg.escaped(p.name())).append("<br>");
      html.append(Svg.escaped(light.below() + " for " + longest(p))).append("</span></div>");
    }
    html.append("</div><p class=\"note\">Centre: high in the sky; rim: low; rings in degrees of");
    html.append(" elevation. Brown: ground. Line: path of the ").append(light.seen());
    html.append(" over the window. Red rim: the horizon there lies at the edge of the data, and");
    html.append(" ground beyond may stand higher. Grid north is up.");
    if (shown < light.places().size()) {
      html.append(" The table has all places.");
    }
    return html.append("</p>").toString();
  }

  private TableView table() {
    TableView table =
        new TableView(
            light.title() + " at the places",
            "place",
            light.above() + " (% of the window)",
            "longest " + light.below() + " (h)",
            "known as",
            "highest horizon (deg)",
            "horizon at the data's edge (% of azimuths)");
    for (LightData.At p : light.places()) {
      double highest = Double.NEGATIVE_INFINITY;
      int edges = 0;
      for (int a = 0; a < p.horizonDeg().size(); a++) {
        highest = Math.max(highest, p.horizonDeg().get(a));
        edges += p.edge().get(a) ? 1 : 0;
      }
      table.row(
          p.name(),
          Figures.percent(p.aboveShare(), 1),
          Figures.sig(p.longestBelowH()),
          p.atLeast() ? "at least" : "whole",
          Figures.fixed(highest, 2),
          Figures.percent(edges, p.edge().size()));
    }
    return table;
  }

  /** Adds the layers of all lights to the map of the page. */
  static void layers(ReportData data, MapParts.Part part) {
    for (LightData light : data.light()) {
      for (LightData.Amount a : light.amounts()) {
        part.add(
            MapLayer.quantity(
                a.id(),
                a.title(),
                a.unit().equals("1") ? "of 1" : a.unit(),
                a.grid(),
                1,
                a.unit().equals("1") ? 0.01 : 0.5,
                a.moreIsSafer() ? MapLayer.Rounded.DOWN : MapLayer.Rounded.UP,
                0,
                a.high(),
                2,
                MapLayer.group("ground")));
      }
      if (light.links() != null) {
        part.add(
            MapLayer.classes(
                "mast-link",
                "link to masts",
                light.links(),
                ClassStyle.links(),
                LARGEST,
                4,
                MapLayer.group("ground")));
      }
    }
  }
}
