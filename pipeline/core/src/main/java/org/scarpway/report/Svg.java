package org.scarpway.report;

import java.util.Map;

/**
 * The drawing of a chart: what is written to it is escaped, and numbers are the same everywhere.
 */
final class Svg {
  private final StringBuilder svg = new StringBuilder();

  /**
   * Begins a chart.
   *
   * @param label what it shows, for those who do not see it
   * @param data further attributes by name, without the prefix data-
   */
  Svg(int width, int height, String label, Map<String, String> data) {
    svg.append("<svg class=\"chart\" viewBox=\"0 0 ").append(width).append(' ').append(height);
    svg.append("\" role=\"img\" aria-label=\"").append(escaped(label)).append('"');
    attributes(data);
    svg.append('>');
  }

  /** Begins a group of parts that belong together. */
  Svg group(String css, Map<String, String> data) {
    svg.append("<g class=\"").append(css).append('"');
    attributes(data);
    svg.append('>');
    return this;
  }

  Svg endGroup() {
    svg.append("</g>");
    return this;
  }

  private void attributes(Map<String, String> data) {
    // By name, since the order of a map of two is not the same in every process.
    data.entrySet().stream()
        .sorted(Map.Entry.comparingByKey())
        .forEach(
            e -> {
              svg.append(" data-").append(e.getKey()).append("=\"");
              svg.append(escaped(e.getValue())).append('"');
            });
  }

  Svg rect(String css, double x, double y, double width, double height) {
    svg.append("<rect class=\"").append(css).append("\" x=\"").append(n(x)).append("\" y=\"");
    svg.append(n(y)).append("\" width=\"").append(n(width)).append("\" height=\"");
    svg.append(n(height)).append("\"/>");
    return this;
  }

  Svg path(String css, CharSequence d) {
    svg.append("<path class=\"").append(css).append("\" d=\"").append(d).append("\"/>");
    return this;
  }

  /**
   * @param anchor start, middle or end
   */
  Svg text(double x, double y, String anchor, String text) {
    svg.append("<text x=\"").append(n(x)).append("\" y=\"").append(n(y));
    svg.append("\" text-anchor=\"").append(anchor).append("\">").append(escaped(text));
    svg.append("</text>");
    return this;
  }

  String end() {
    return svg.append("</svg>").toString();
  }

  /** Returns a coordinate to a tenth of a unit. */
  static String n(double v) {
    return Figures.fixed(v, 1);
  }

  static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;")
        .replace("'", "&#39;");
  }
}
