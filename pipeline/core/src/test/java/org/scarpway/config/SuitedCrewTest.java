package org.scarpway.config;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.stage.UserError;

/** A crew that rides in suits asks nothing without a walker, who says how long suits last. */
class SuitedCrewTest {
  private static final List<String> QUESTIONS =
      List.of(
          "reach: [{name: q, from: alpha, home: none, vehicle: buggy}]",
          "reach: [{name: q, from: alpha, home: drive-back, vehicle: buggy}]",
          "reach: [{name: q, from: alpha, home: pair, vehicle: buggy}]",
          "reach: [{name: q, from: alpha, home: base-rescue, vehicle: buggy}]",
          "reach: [{name: q, from: alpha, home: none, budget: {life_support_h: 4}, vehicle: buggy}]",
          "corridors: [{name: q, via: [alpha, beta], cost: time, vehicle: buggy}]");

  @TempDir Path dir;

  private static String job(String walker, String question) {
    return "scarpway: 1\njob: out\nbody: moon\ndem: {source: ground.tif}\n"
        + "vehicles: [rover.yaml, buggy.yaml]\nbases: {alpha: [0, 0], beta: [9, 9]}\n"
        + walker
        + question
        + "\n";
  }

  @Test
  void everyQuestionIsRefusedInOneLineWithoutAWalker() {
    JobFolder folder = new JobFolder(dir);
    String crew = "\ncrew: {seats: 2, rescue_seats: 4, life_support_h: 8, suited: ";
    for (String question : QUESTIONS) {
      for (boolean suited : new boolean[] {true, false}) {
        folder.write("buggy.yaml", JobFolder.BUGGY + crew + suited + "}\n");
        folder.write("job.yaml", job("walker: walker.yaml\n", question));
        JobReader.read(folder.job(), Map.of());
        folder.write("job.yaml", job("", question));
        if (suited) {
          UserError e =
              assertThrows(UserError.class, () -> JobReader.read(folder.job(), Map.of()), question);
          assertEquals(1, e.getMessage().lines().count(), e.getMessage());
          assertTrue(e.getMessage().contains("vehicle buggy rides in suits"), e.getMessage());
          assertTrue(e.getMessage().contains("add walker to the job"), e.getMessage());
        } else {
          JobReader.read(folder.job(), Map.of());
        }
      }
      // Another vehicle's question, with the buggy beside it.
      folder.write("buggy.yaml", JobFolder.BUGGY + crew + "true}\n");
      folder.write("job.yaml", job("", question.replace("vehicle: buggy", "vehicle: rover")));
      JobReader.read(folder.job(), Map.of());
    }
  }
}
