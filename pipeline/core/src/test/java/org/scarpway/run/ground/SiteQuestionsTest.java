package org.scarpway.run.ground;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;

/** The questions that every candidate site is asked. */
class SiteQuestionsTest {
  @TempDir Path dir;

  private List<String> asked(String west, String east) throws IOException {
    Path root = Path.of(System.getProperty("scarpway.root", "../..")).toAbsolutePath().normalize();
    Files.writeString(dir.resolve("z.tif"), "");
    Job job =
        JobReader.read(
            Files.writeString(
                dir.resolve("job.yaml"),
                """
                scarpway: 1
                job: two-sites
                body: moon
                dem: {source: z.tif, units: metres}
                vehicles: [%s/configs/vehicles/pressurised-rover.yaml]
                bases: {west: [0, 0], east: [100, 0]}
                reach:
                  - {name: from-west, from: west, budget: {drive_h: 1}, home: drive-back, %s}
                  - {name: from-east, from: east, budget: {drive_h: 1}, home: drive-back, %s}
                sites: {candidates: [west, east], ellipse_m: [10, 10], weights: {reach_km2: 1}}
                """
                    .formatted(root, west, east)),
            Map.of());
    return SiteQuestions.of(job, "east").stream().map(Job.ReachEntry::name).toList();
  }

  @Test
  void questionsThatOnlyDivideTheirReachDifferentlyAreOneAndTheSitesOwnAnswersIt()
      throws IOException {
    assertEquals(List.of("from-east"), asked("bands: [30min]", "bands: [15min, 45min]"));
  }

  @Test
  void questionsOfOtherStaysAreOthers() throws IOException {
    String bands = "bands: [30min]";
    assertEquals(List.of("from-west", "from-east"), asked(bands, bands + ", stay: 10min"));
  }
}
