package org.scarpway.geodata.file;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * Lets a file appear whole or not at all: it is written beside its place as {@code NAME.part},
 * forced to disk, then renamed in one step. Whatever goes wrong, the part is removed and a file
 * that was there before is untouched.
 */
public final class AtomicFileWrite {
  private AtomicFileWrite() {}

  /** Writes the bytes of a file. */
  @FunctionalInterface
  public interface Content {
    void writeTo(Path part) throws IOException;
  }

  /**
   * Writes {@code file} by way of its part; makes its folder where that is missing.
   *
   * @throws StageFailure if the file system refuses: disk full, no permission, no such place
   */
  public static void write(Path file, Content content) {
    Path part = file.resolveSibling(file.getFileName() + ".part");
    boolean done = false;
    try {
      if (file.toAbsolutePath().getParent() != null) {
        Files.createDirectories(file.toAbsolutePath().getParent());
      }
      Files.deleteIfExists(part);
      content.writeTo(part);
      forceFile(part);
      Files.move(part, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
      forceFolder(file.toAbsolutePath().getParent());
      done = true;
    } catch (IOException e) {
      throw new StageFailure(
          file
              + ": cannot be written ("
              + Reason.of(e)
              + "); free space on that disk or choose another output folder",
          e);
    } finally {
      if (!done) {
        discard(part);
      }
    }
  }

  /** Returns when the file's bytes are on the disk. */
  public static void forceFile(Path file) throws IOException {
    force(file, StandardOpenOption.WRITE);
  }

  /** Returns when the folder's names are on the disk: a rename lasts only after that. */
  public static void forceFolder(Path folder) throws IOException {
    force(folder, StandardOpenOption.READ);
  }

  private static void force(Path path, StandardOpenOption how) throws IOException {
    try (FileChannel channel = FileChannel.open(path, how)) {
      channel.force(true);
    }
  }

  /** The failure that led here is the one to report, not that its remains stay. */
  private static void discard(Path part) {
    try {
      Files.deleteIfExists(part);
    } catch (IOException e) {
      part.toFile().deleteOnExit();
    }
  }
}
