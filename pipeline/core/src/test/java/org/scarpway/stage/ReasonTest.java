package org.scarpway.stage;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.FileSystemLoopException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.NotLinkException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.api.io.TempDir;

class ReasonTest {
  @TempDir Path dir;

  @Test
  void everyFileSystemFailureHasWordsOfItsOwn() {
    List<FileSystemException> all =
        List.of(
            new NoSuchFileException("/d/f"),
            new AccessDeniedException("/d/f"),
            new FileAlreadyExistsException("/d/f"),
            new NotDirectoryException("/d/f"),
            new DirectoryNotEmptyException("/d/f"),
            new FileSystemLoopException("/d/f"),
            new NotLinkException("/d/f"),
            new AtomicMoveNotSupportedException("/d/f", "/e/f", null),
            new FileSystemException("/d/f", null, "No space left on device"));
    for (FileSystemException e : all) {
      String words = Reason.of(e);
      assertTrue(words.matches("[A-Za-z ]{5,}: /d/f"), words);
      assertEquals(words, Reason.of(new UncheckedIOException(e)));
      assertEquals(words, Reason.of(new IllegalStateException(e)));
    }
    assertEquals(all.size(), all.stream().map(Reason::of).distinct().count());
  }

  /** What the system itself throws, not only what is made here. */
  @Test
  void failuresOfRealFilesAreTold() throws IOException {
    Path file = Files.createFile(dir.resolve("file"));
    List<Executable> all =
        List.of(
            () -> Files.newInputStream(dir.resolve("none")),
            () -> Files.createDirectory(file),
            () -> Files.createDirectories(file.resolve("below")),
            () -> Files.delete(dir),
            () -> Files.newInputStream(dir).read(),
            () -> Files.createFile(dir.resolve("x".repeat(300))),
            () -> Files.list(file),
            () -> Path.of("a\0b"));
    for (Executable act : all) {
      Exception e = assertThrows(Exception.class, act);
      assertFalse(Reason.of(e).matches(".*(Exception|Error|java\\.).*"), Reason.of(e));
      assertFalse(Reason.of(e).contains("no reason"), e.toString());
    }
  }

  @Test
  void namesOfClassesAreLeftOutAndAllElseStays() {
    String[][] cases = {
      {"java.io.IOException: disk gone", "disk gone"},
      {
        "cannot convert 'x' to Path (java.nio.file.InvalidPathException: no: x)",
        "cannot convert 'x' to Path (no: x)"
      },
      {"IllegalStateException: a: NullPointerException: b", "a: b"},
      {"org.some.lib.Thing$Inner failed", "failed"},
      {"the file a.tif of site.b.Tif is short", "the file a.tif of site.b.Tif is short"},
      {"Error 5 in /home/a.b/C.tif", "Error 5 in /home/a.b/C.tif"},
      {"java.lang.NullPointerException", "no reason given"},
      {"two\nlines\tand\u0007 more", "two lines and more"},
    };
    for (String[] c : cases) {
      assertEquals(c[1], Reason.of(new RuntimeException(c[0])));
    }
    assertEquals("no reason given", Reason.of(new RuntimeException()));
    assertTrue(Reason.of(new IOException("x".repeat(9999))).length() < 400);
  }

  @Test
  void namesThatCannotBeOnesAreShown() {
    String words = Reason.of(new InvalidPathException("a\u0007\u00e9", "Malformed input"));
    assertTrue(words.startsWith("'a \u00e9' can be no name of a file"), words);
  }
}
