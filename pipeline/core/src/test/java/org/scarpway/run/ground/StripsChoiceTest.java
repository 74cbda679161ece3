package org.scarpway.run.ground;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/**
 * How ground is cut for a heap. Of the heap 0.8 are planned for and 60 MB are the program's; rows
 * of tiles take 4 x 256 x 11 bytes a column, a row of the strip 4 x 24.
 */
class StripsChoiceTest {
  private static final GridSpec LARGE = new GridSpec(20_000, 20_000, 5, 5, 0, 0, "");

  @TempDir Path dir;

  private Job job() throws IOException {
    Path root = Path.of(System.getProperty("scarpway.root", "../..")).toAbsolutePath().normalize();
    Files.writeString(dir.resolve("z.tif"), "");
    return JobReader.read(
        Files.writeString(
            dir.resolve("job.yaml"),
            """
            scarpway: 1
            job: cut
            body: moon
            dem: {source: z.tif, units: metres}
            vehicles: [%s/configs/vehicles/open-buggy.yaml]
            """
                .formatted(root)),
        Map.of());
  }

  private static Strips choose(Job job, GridSpec spec, long heapMb) {
    return Strips.choose(job, spec, heapMb << 20);
  }

  @Test
  void rowsAreThoseThatTheHeapHasRoomFor() throws IOException {
    Job job = job();
    // 0.8 x 1024 MB less 225.28 MB (decimal) of tiles, by 1.92 MB a row: 330, whole tiles 256.
    // A report draws from 2000 a side: every 10th cell.
    assertEquals(Strips.many(LARGE, 256, 10), choose(job, LARGE, 1024));
    // 0.8 x 600 MB: 144 rows do not match tiles, which then take twice as much: 27 rows.
    // Half of the heap by 120 bytes a cell is 1619 a side: every 13th cell.
    assertEquals(Strips.many(LARGE, 27, 13), choose(job, LARGE, 600));
  }

  @Test
  void whereNotEvenStripsFitTheHeapThatWouldIsTold() throws IOException {
    Job job = job();
    // 2 x 225.28 MB of tiles and 16 rows of 1.92 MB by 0.8 are 573.7 MB of 2^20.
    String line = assertThrows(UserError.class, () -> choose(job, LARGE, 500)).getMessage();
    assertTrue(line.contains("20000 x 20000 cells do not fit the heap of 500 MB"), line);
    assertTrue(line.contains("-Xmx574m,"), line);
    assertThrows(UserError.class, () -> choose(job, LARGE, 573));
    assertEquals(16, choose(job, LARGE, 574).rows());
  }

  @Test
  void groundIsCutOnceItDoesNotFitWhole() throws IOException {
    Job job = job();
    GridSpec spec = new GridSpec(1000, 1000, 5, 5, 0, 0, "");
    // 120 bytes a cell are 114.44 MB of 2^20, 0.8 of 143.05 MB.
    assertEquals(Strips.whole(spec), choose(job, spec, 144));
    Strips cut = choose(job, spec, 143);
    assertFalse(cut.inMemory());
    // 143 - 60 MB less 11.26 MB (decimal) of tiles are 789 rows of 96 kB, in whole tiles 768.
    assertEquals(768, cut.rows());
  }

  @Test
  void stripsHoldEveryRowOnceFromNorthToSouth() {
    SplittableRandom random = new SplittableRandom(5);
    for (int i = 0; i < 2000; i++) {
      int all = 1 + random.nextInt(700);
      int rows = 1 + random.nextInt(i % 3 == 0 ? 900 : 40);
      Strips strips = Strips.many(new GridSpec(all, 3, 5, 5, 0, 0, ""), rows, 1);
      int[] next = {0};
      strips.each(
          (first, n) -> {
            assertEquals(next[0], first);
            assertTrue(n >= 1 && n <= rows);
            // Only the last one is smaller.
            assertTrue(n == rows || first + n == all);
            next[0] += n;
          });
      assertEquals(all, next[0]);
    }
  }
}
