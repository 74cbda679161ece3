package org.scarpway.config;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.config.InputFiles.Found;
import org.scarpway.dem.DemRequest;
import org.scarpway.dem.DemRequest.VoidRule;
import org.scarpway.dem.DemRequest.Window;
import org.scarpway.grid.Body;

/** Reads the section dem of a job. */
final class DemSectionReader {
  private DemSectionReader() {}

  /** Returns the request, or null if it has errors. */
  static DemRequest read(Entry dem, Body body, Path jobFile, Reading reading) {
    if (!dem.present() || !dem.isMapping()) {
      return null;
    }
    List<Path> sources = sources(dem.get("source"), dem, jobFile, reading);
    Entry correlation = dem.get("correlation_length_m");
    if (correlation.sound() && !dem.has("vertical_sigma_m")) {
      reading.problems.add(
          correlation.at(),
          "correlation_length_m without vertical_sigma_m",
          "the height error that is correlated",
          "add vertical_sigma_m");
    }
    if (!dem.sound() || sources.isEmpty() || body == null) {
      return null;
    }
    Entry voids = dem.get("voids");
    boolean fills = voids.isMapping();
    // A height that nobody measured carries no verdict unless the job explicitly accepts it.
    VoidRule rule =
        fills
            ? voids.get("fill").get("sure").node().booleanValue() ? VoidRule.FILL : VoidRule.NO_GO
            : voids.text().equals("fail") ? VoidRule.FAIL : VoidRule.NO_GO;
    return new DemRequest(
        sources,
        body,
        window(dem.get("window")),
        dem.get("cell_size_m").number(),
        rule,
        fills ? voids.get("fill").whole("max_gap_cells") : 0,
        dem.get("vertical_sigma_m").number(),
        correlation.number(),
        dem.get("max_cells").node().longValue(),
        dem.has("units"));
  }

  private static List<Path> sources(Entry source, Entry dem, Path jobFile, Reading reading) {
    if (!source.present()) {
      reading.problems.add(
          dem.keyAt(), "key source is missing in dem", "a raster file", "add source");
      return List.of();
    }
    if (!source.sound()) {
      return List.of();
    }
    List<Path> all = new ArrayList<>();
    for (Entry entry : source.isText() ? List.of(source) : source.items()) {
      for (Found found : reading.files.many(jobFile, entry, reading.problems)) {
        if (all.contains(found.real())) {
          reading.problems.add(
              entry.at(),
              "file " + Problems.quote(found.shownName()) + " is listed twice",
              "every raster once",
              "remove one of them");
        }
        all.add(found.real());
      }
    }
    return all;
  }

  private static Window window(Entry window) {
    if (!window.present()) {
      return null;
    }
    Point centre = Point.of(window.get("centre"));
    List<Entry> sizeM = window.get("size_m").items();
    return new Window(
        centre.x(), centre.y(), centre.lonLat(), sizeM.get(0).number(), sizeM.get(1).number());
  }
}
