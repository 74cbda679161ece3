package org.scarpway.report;

import java.nio.file.Path;

/** Writes the page of the made-up results to a folder, for people to look at. */
final class ReportPreview {
  private ReportPreview() {}

  public static void main(String[] args) {
    Report.write(Path.of(args[0], "index.html"), ReportFixture.full(), ReportFixture.WORKERS);
    Report.write(Path.of(args[0], "bare.html"), ReportFixture.bare(), ReportFixture.WORKERS);
  }
}
