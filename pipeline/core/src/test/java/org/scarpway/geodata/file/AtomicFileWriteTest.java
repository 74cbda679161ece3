package org.scarpway.geodata.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.scarpway.stage.StageFailure;

class AtomicFileWriteTest {
  @TempDir Path dir;

  @Test
  void makesFoldersAndReplaces() throws Exception {
    Path file = dir.resolve("a/b/table.csv");
    AtomicFileWrite.write(file, part -> Files.writeString(part, "old"));
    AtomicFileWrite.write(file, part -> Files.writeString(part, "new"));
    assertEquals("new", Files.readString(file));
    assertFalse(Files.exists(file.resolveSibling("table.csv.part")));
  }

  @Test
  void failureKeepsTheOldFileAndLeavesNoPart() throws Exception {
    Path file = dir.resolve("table.csv");
    Files.writeString(file, "old");
    StageFailure failure =
        assertThrows(
            StageFailure.class,
            () ->
                AtomicFileWrite.write(
                    file,
                    part -> {
                      Files.writeString(part, "half");
                      throw new IOException("No space left on device");
                    }));
    assertTrue(failure.getMessage().contains("No space left on device"), failure.getMessage());
    assertEquals("old", Files.readString(file));
    assertFalse(Files.exists(dir.resolve("table.csv.part")));
  }

  @Test
  void aBugInTheContentLeavesNoPartEither() {
    Path file = dir.resolve("table.csv");
    assertThrows(
        IllegalStateException.class,
        () ->
            AtomicFileWrite.write(
                file,
                part -> {
                  Files.writeString(part, "half");
                  throw new IllegalStateException("bug");
                }));
    assertFalse(Files.exists(file));
    assertFalse(Files.exists(dir.resolve("table.csv.part")));
  }

  @Test
  void aFileInPlaceOfAFolderIsOneClearLine() throws Exception {
    Path notADir = Files.writeString(dir.resolve("out"), "x");
    StageFailure failure =
        assertThrows(
            StageFailure.class,
            () -> AtomicFileWrite.write(notADir.resolve("t.csv"), p -> Files.writeString(p, "x")));
    assertEquals(1, failure.getMessage().lines().count());
  }
}
