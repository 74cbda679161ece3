package org.scarpway.report;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
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
   * @throws StageFailure if the file cannot be written
   */
  public static void write(Path indexHtml, ReportData data, Workers workers) {
    String html = html(data, workers);
    AtomicFileWrite.write(indexHtml, part -> Files.writeString(part, html));
  }

  /** Returns the page itself. */
  static String html(ReportData data, Workers workers) {
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
    model.put("blocks", page.blocks((long) most - taken, workers));
    String full = Template.render("page.html", model);
    double mb = full.getBytes(StandardCharsets.UTF_8).length / 1e6;
    if (mb <= data.facts().maxMb()) {
      return full;
    }
    model.put(
        "tooLarge",
        "This page takes "
            + Figures.brief(mb)
            + " MB, more than report.max_mb ("
            + Figures.brief(data.facts().maxMb())
            + "): tables, outlines and the coarsest layers take that much alone.");
    return Template.render("page.html", model);
  }
}
