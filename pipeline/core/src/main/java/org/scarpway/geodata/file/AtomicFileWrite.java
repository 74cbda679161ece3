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
 * Writes a file atomically: it is written to {@code NAME.part} in the same folder, forced to disk,
 * then renamed in one step. On any failure the part is removed and an existing file is left
 * unchanged.
 */
public final class AtomicFileWrite {
  private AtomicFileWrite() {}

  /** Writes the bytes of a file. */
  @FunctionalInterface
  public interface Content {
    /**
     * Writes the whole file.
     *
     * @param part file to create; it is renamed when this method returns
     * @throws IOException if the bytes cannot be written; the part is then removed
     */
    void writeTo(Path part) throws IOException;
  }

  /**
   * Writes {@code file} atomically; creates its folder if it is missing.
   *
   * @throws StageFailure if the file system refuses: disk full, no permission, no such path
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

  /**
   * Returns when the file's bytes are on the disk.
   *
   * @throws IOException if the disk refuses
   */
  public static void forceFile(Path file) throws IOException {
    force(file, StandardOpenOption.WRITE);
  }

  /**
   * Returns when the folder's entries are on the disk: only then is a rename durable.
   *
   * @throws IOException if the disk refuses
   */
  public static void forceFolder(Path folder) throws IOException {
    force(folder, StandardOpenOption.READ);
  }

  private static void force(Path path, StandardOpenOption how) throws IOException {
    try (FileChannel channel = FileChannel.open(path, how)) {
      channel.force(true);
    }
  }

  /**
   * Deletes the part. A failure to delete is ignored, because the failure that led here is the one
   * to report.
   */
  private static void discard(Path part) {
    try {
      Files.deleteIfExists(part);
    } catch (IOException e) {
      part.toFile().deleteOnExit();
    }
  }
}
