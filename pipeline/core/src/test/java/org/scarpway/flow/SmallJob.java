package org.scarpway.flow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * The smallest job that has every kind of stage but the site comparison; runs in a second or two.
 */
final class SmallJob {
  private SmallJob() {}

  /**
   * Writes the job's file.
   *
   * @param file its folder gets the vehicle's file too
   * @param marginM around keep-out ground; changes everything after terrain
   */
  static Path write(Path file, String name, double marginM) throws IOException {
    return write(file, name, marginM, "");
  }

  /**
   * @param more further lines of the job
   */
  static Path write(Path file, String name, double marginM, String more) throws IOException {
    String vehicle = Files.readString(Flow.ROOT.resolve("configs/vehicles/open-buggy.yaml"));
    Files.writeString(
        file.resolveSibling("open-buggy.yaml"),
        vehicle
            .replace("suited: true", "suited: false")
            .replace("../soils/", Flow.ROOT.resolve("configs/soils") + "/"));
    Path sample = Flow.ROOT.resolve("sample-dem");
    return Files.writeString(
        file,
        """
        scarpway: 1
        job: %s
        body: moon
        dem: {source: %s, window: {centre: [72150, 93950], size_m: [300, 300]}}
        hazard: {keep_out: [%s], margin_m: %s}
        vehicles: [open-buggy.yaml]
        bases: {hearth: [72150, 93950], corner: [72200, 94000]}
        reach:
          - {name: day, from: hearth, budget: {drive_h: 1}, home: drive-back, bands: [10min, 1h]}
        corridors:
          - {name: across, via: [hearth, corner], cost: time, within_pct: [5], alternatives: 1}
        %s
        """
            .formatted(
                name,
                sample.resolve("orrel-bench.tif"),
                sample.resolve("keep-out.gpkg"),
                marginM,
                more));
  }
}
