package org.scarpway.report;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.Workers;

/**
 * Writes the report as one HTML file that opens offline: it contains its images, and its content
 * security policy forbids any network request. The same data give the same bytes.
 */
public final class Report {
  /** Images of the page take at most this share of it, or are drawn again smaller. */
  private static final double MOST_IMAGES = 0.35;

  /** Bytes of the tags of all blocks of data, from above. */
  private static final long TAGS = 20_000;

  private static final int[] MAP_PIXELS = {1400, 1000, 700, 450};

  private Report() {}

  /**
   * Writes the report completely or not at all.
   *
   * @param workers draw it; their store keeps the tiles of its map between runs
   * @return what the page lacks or exceeds by {@code report.max_mb}, a line each
   * @throws StageFailure if the file cannot be written
   */
  public static List<String> write(Path indexHtml, ReportData data, Workers workers) {
    Drawn drawn = drawn(data, workers);
    AtomicFileWrite.write(indexHtml, part -> Files.writeString(part, drawn.html()));
    return drawn.warnings();
  }

  private record Drawn(String html, List<String> warnings) {}

  /** Returns the page itself. */
  static String html(ReportData data, Workers workers) {
    return drawn(data, workers).html();
  }

  private static Drawn drawn(ReportData data, Workers workers) {
    double most = 1e6 * data.facts().maxMb();
    Page page = null;
    Map<String, Object> model = null;
    String html = "";
    for (int pixels : MAP_PIXELS) {
      page = new Page(data, pixels);
      model = page.model(workers);
      html = Template.render("page.html", model);
      if (html.length() <= MOST_IMAGES * most) {
        break;
      }
    }
    // Characters beyond ASCII take more than a byte, and each block its tags.
    long taken = TAGS + html.getBytes(StandardCharsets.UTF_8).length;
    MapData.Packed map = page.blocks((long) most - taken, workers);
    model.put("blocks", map.blocks());
    List<String> warnings = new ArrayList<>();
    if (!map.withoutWays().isEmpty()) {
      warnings.add(
          "report: the page has no room for the ways of "
              + String.join(", ", map.withoutWays())
              + " (report.max_mb); explain tells those to a place");
    }
    String full = Template.render("page.html", model);
    double mb = full.getBytes(StandardCharsets.UTF_8).length / 1e6;
    if (mb <= data.facts().maxMb()) {
      return new Drawn(full, warnings);
    }
    String takes =
        "page takes "
            + Figures.brief(mb)
            + " MB, more than report.max_mb ("
            + Figures.brief(data.facts().maxMb())
            + "): tables, outlines and the coarsest layers take that much alone";
    model.put("tooLarge", "This " + takes + ".");
    warnings.add("report: the " + takes);
    return new Drawn(Template.render("page.html", model), warnings);
  }
}
