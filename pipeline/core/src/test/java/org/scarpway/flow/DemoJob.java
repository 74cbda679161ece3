package org.scarpway.flow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** The demo scenario cut down to 700 m and a few questions, with files of its own to spoil. */
final class DemoJob {
  static final String NAME = "corner";

  private DemoJob() {}

  /** Writes the job and its vehicles into the folder. */
  static Path write(Path dir) throws IOException {
    for (String vehicle : new String[] {"pressurised-rover", "open-buggy"}) {
      String text = Files.readString(Flow.ROOT.resolve("configs/vehicles/" + vehicle + ".yaml"));
      Files.writeString(
          dir.resolve(vehicle + ".yaml"),
          text.replace("../soils/", Flow.ROOT.resolve("configs/soils") + "/"));
    }
    Path sample = Flow.ROOT.resolve("sample-dem");
    return Files.writeString(
        dir.resolve("job.yaml"),
        """
        scarpway: 1
        job: corner
        body: moon
        dem:
          source: %s
          window: {centre: [72300, 94050], size_m: [700, 700]}
          vertical_sigma_m: 0.3
          correlation_length_m: 40
        hazard:
          rock_coverage: %s
          keep_out: [%s]
          margin_m: 10
        vehicles: [pressurised-rover.yaml, open-buggy.yaml]
        walker: %s
        bases:
          hearth: [72150, 93950]
          far-corner: [72500, 94150]
        reach:
          - name: rover-day
            from: hearth
            budget: {drive_h: 1}
            home: drive-back
            bands: [10min, 1h]
          - name: buggy-walk-back
            from: hearth
            vehicle: open-buggy
            budget: {drive_h: 1}
            home: walk-back
            bands: [10min, 1h]
        corridors:
          - {name: across, via: [hearth, far-corner], cost: time, within_pct: [5], alternatives: 1}
        sites: {candidates: [hearth, far-corner], ellipse_m: [200, 100], weights: {reach_km2: 1, mean_slope_deg: 1}}
        """
            .formatted(
                sample.resolve("orrel-bench.tif"),
                sample.resolve("rock-coverage.tif"),
                sample.resolve("keep-out.gpkg"),
                Flow.ROOT.resolve("configs/walkers/suited-lunar.yaml")));
  }
}
