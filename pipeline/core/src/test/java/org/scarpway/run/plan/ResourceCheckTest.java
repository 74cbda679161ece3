package org.scarpway.run.plan;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.plan.JobPlan.State;
import org.scarpway.stage.UserError;

/** What the estimates say will not fit is refused, with what would. */
class ResourceCheckTest {
  private static final GridSpec SPEC = new GridSpec(300, 200, 5, 5, 0, 0, "");

  private static final StageWork WORK = new StageWork("a stage", "terrain", 60_000, 60_000);

  /** More than any disk. */
  private static final long HUGE_MB = 1L << 42;

  @TempDir Path out;

  private static JobPlan plan(State state, long heapMb, long diskMb, long scratchMb) {
    return new JobPlan(
        "ridge",
        List.of(new JobPlan.Row("terrain", state, 60_000, WORK, 1, diskMb, List.of())),
        new JobPlan.Row("report", state, 60_000, WORK, 0, 0, List.of()),
        0,
        heapMb,
        1000,
        diskMb,
        scratchMb,
        "");
  }

  private String refusal(JobPlan plan) {
    // The folder is made by the run: its disk is that of the folder above.
    Path later = out.resolve("not/there/yet");
    String line =
        assertThrows(UserError.class, () -> ResourceCheck.require(plan, SPEC, later)).getMessage();
    assertTrue(Files.notExists(later));
    assertTrue(line.endsWith("--try-anyway runs it as it is"), line);
    return line;
  }

  @Test
  void whatFitsToTheLastMegabyteRuns() {
    assertDoesNotThrow(() -> ResourceCheck.require(plan(State.RUN, 1000, 1, 1), SPEC, out));
  }

  @Test
  void whereNothingRunsNothingIsRefused() {
    for (State there : List.of(State.HERE, State.STORE)) {
      JobPlan plan = plan(there, 4000, HUGE_MB, HUGE_MB);
      assertDoesNotThrow(() -> ResourceCheck.require(plan, SPEC, out));
    }
  }

  @Test
  void heapThatIsTooSmallByAFactorOfFourTakesCellsOfTwiceTheSize() {
    // 4000 MB and an eighth more; memory goes with cells, so sides go with its root.
    assertEquals(
        "ridge: 300 x 200 cells need about 4,000 MB of heap, the limit is 1,000 MB; expected what"
            + " fits; set SCARPWAY_JAVA_OPTS=-Xmx4500m, or dem.cell_size_m to 10 or more, or a"
            + " dem.window with 0.5 of the sides; --try-anyway runs it as it is",
        refusal(plan(State.RUN, 4000, 1, 0)).replace("10.0", "10"));
  }

  @Test
  void productsThatTheDiskHasNoRoomFor() {
    String line = refusal(plan(State.RUN, 1, HUGE_MB, 0));
    // 2^42 by hand.
    assertTrue(
        line.startsWith("ridge: products need about 4,398,046,511,104 MB on the disk"), line);
  }

  @Test
  void scratchFilesThatTheDiskHasNoRoomFor() {
    String line = refusal(plan(State.RUN, 1, 1, HUGE_MB));
    assertTrue(line.startsWith("ridge: scratch files"), line);
    assertTrue(line.contains("-Djava.io.tmpdir=DIR"), line);
  }
}
