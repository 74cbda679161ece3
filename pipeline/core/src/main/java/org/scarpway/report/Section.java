package org.scarpway.report;

import java.util.List;

/**
 * One part of the page: an answer, repeated at the head of the report, followed by maps, plots and
 * tables.
 *
 * @param id anchor in the page
 * @param answer the text repeated at the head of the report
 * @param shares data URI of a bar of class shares, or empty
 * @param sharesText the same in words
 */
record Section(
    String id,
    String title,
    Answer answer,
    String shares,
    String sharesText,
    List<MapView> maps,
    List<Chart> charts,
    List<TableView> tables) {

  Section {
    maps = List.copyOf(maps);
    charts = charts.stream().filter(c -> !c.html().isEmpty()).toList();
    tables = List.copyOf(tables);
  }

  /**
   * A chart.
   *
   * @param html the drawing; without it there is no chart
   * @param plot what it is beside the map, as kind and number; empty if it is not shown there
   */
  record Chart(String title, String html, String plot) {
    Chart(String title, String html) {
      this(title, html, "");
    }
  }

  /** The answer to a question: one to three key numbers and plain sentences. */
  record Answer(List<KeyNumber> keys, List<String> sentences) {
    Answer {
      keys = List.copyOf(keys);
      sentences = List.copyOf(sentences);
    }
  }

  /** A key number. */
  record KeyNumber(String value, String unit, String label) {
    static KeyNumber ofArea(double m2, String label) {
      return new KeyNumber(Figures.km2(m2), "km²", label);
    }
  }

  /** A map and the layer that it shows over the relief. */
  record MapView(String id, Layer layer, String caption, MapLabels names, List<Line> lines) {
    MapView {
      lines = List.copyOf(lines);
    }

    List<MapLabels.View> labels() {
      return names.views();
    }

    MapView captioned(String words) {
      return new MapView(id, layer, words, names, lines);
    }
  }

  /**
   * A line on a map.
   *
   * @param css its class in the style sheet
   * @param d SVG path data
   */
  record Line(String css, String d, String text) {}
}
