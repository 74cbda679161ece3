package org.scarpway.run.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.stage.UserError;

/** One run at a time writes to a folder. */
class JobLockTest {
  @TempDir Path dir;

  private static String refusal(Path folder) {
    return assertThrows(UserError.class, () -> JobLock.take(folder).close()).getMessage();
  }

  @Test
  void aFolderIsHeldByOneUntilItIsClosed() {
    Path folder = dir.resolve("out/job");
    for (int again = 0; again < 2; again++) {
      try (JobLock held = JobLock.take(folder)) {
        assertEquals(folder, held.folder());
        for (int i = 0; i < 2; i++) {
          String line = refusal(folder);
          assertTrue(line.startsWith(folder + ": another run is writing here; "), line);
        }
        JobLock.take(dir.resolve("out/other")).close();
      }
    }
  }

  @Test
  void whatCannotBeWrittenIsRefused() throws IOException {
    Path file = Files.writeString(dir.resolve("file"), "mine");
    String line = refusal(file);
    assertTrue(line.contains("cannot be written"), line);
    assertEquals("mine", Files.readString(file));
  }

  @Test
  void aLinkInPlaceOfTheLockIsNotFollowed() throws IOException {
    Path mine = dir.resolve("mine");
    Files.createSymbolicLink(dir.resolve(JobLock.FILE), mine);
    String line = refusal(dir);
    assertTrue(line.contains("cannot be written"), line);
    assertTrue(Files.notExists(mine));
  }
}
