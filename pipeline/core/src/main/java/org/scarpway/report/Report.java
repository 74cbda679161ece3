package org.scarpway.report;

import java.nio.file.Files;
import java.nio.file.Path;
import org.scarpway.geodata.file.AtomicFileWrite;
import org.scarpway.stage.StageFailure;

/**
 * Writes the report as one HTML file that opens offline: it contains its images, and its content
 * security policy forbids any network request. The same data give the same bytes.
 */
public final class Report {
  /** A page longer than this is drawn again with smaller maps. */
  private static final int MOST_CHARS = 8_000_000;

  private static final int[] MAP_PIXELS = {1400, 1000, 700, 450};

  private Report() {}

  /**
   * Writes the report completely or not at all.
   *
   * @throws StageFailure if the file cannot be written
   */
  public static void write(Path indexHtml, ReportData data) {
    String html = html(data);
    AtomicFileWrite.write(indexHtml, part -> Files.writeString(part, html));
  }

  /** Returns the page itself. */
  static String html(ReportData data) {
    String html = "";
    for (int pixels : MAP_PIXELS) {
      html = Template.render("page.html", Page.model(data, pixels));
      if (html.length() <= MOST_CHARS) {
        break;
      }
    }
    return html;
  }
}
