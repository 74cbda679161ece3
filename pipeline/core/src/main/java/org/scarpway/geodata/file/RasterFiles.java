package org.scarpway.geodata.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.regex.Pattern;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * Checks on the paths and headers of rasters before they are read, and atomic writing of rasters.
 */
public final class RasterFiles {
  private static final int LABEL_BYTES = 1 << 20;

  /** A virtual file system of GDAL, which a name inside a label could reach. */
  private static final Pattern REDIRECT = Pattern.compile("/vsi[a-z0-9]{2,}[_a-z0-9]*/");

  /** Sidecar content that could change the cells or their georeference. */
  private static final Pattern SIDECAR_FACTS =
      Pattern.compile("<(NoDataValue|SRS|GeoTransform|Scale|Offset|UnitType|GCPList)\\b");

  /** Largest block (bytes) that a header may request, unless the file itself is as large. */
  private static final long MAX_BLOCK_BYTES = 256L << 20;

  private RasterFiles() {}

  /** Returns the absolute path; refuses anything that is not a single readable file. */
  public static Path requireReadable(Path file) {
    String name = file.toString();
    Path plain = file.toAbsolutePath().normalize();
    if (name.isEmpty()
        || name.contains(":/")
        || name.indexOf('<') >= 0
        || plain.toString().startsWith("/vsi")) {
      throw BrokenRaster.of(
          file, "is not the name of a file on this machine", "copy the raster here first");
    }
    if (!Files.exists(plain)) {
      throw BrokenRaster.of(file, "does not exist", "check the path");
    }
    if (!Files.isRegularFile(plain)) {
      throw BrokenRaster.of(
          file,
          Files.isDirectory(plain) ? "is a directory" : "is not a regular file",
          "name a file");
    }
    if (!Files.isReadable(plain)) {
      throw BrokenRaster.of(file, "may not be read", "check its permissions");
    }
    try {
      if (Files.size(plain) == 0) {
        throw BrokenRaster.of(file, "is empty", "fetch it again");
      }
    } catch (IOException e) {
      throw BrokenRaster.of(file, "cannot be read (" + Reason.of(e) + ")", "check the disk");
    }
    return plain;
  }

  /**
   * Refuses a file whose label refers the reader to another location, before any reader opens it.
   */
  public static void requireNoRedirect(Path file) {
    byte[] head;
    try (InputStream in = Files.newInputStream(file)) {
      head = in.readNBytes(LABEL_BYTES);
    } catch (IOException e) {
      throw BrokenRaster.of(file, "cannot be read (" + Reason.of(e) + ")", "check the disk");
    }
    if (REDIRECT.matcher(new String(head, StandardCharsets.ISO_8859_1)).find()) {
      throw BrokenRaster.of(
          file, "points to cells outside itself", "convert it to a GeoTIFF that holds its cells");
    }
  }

  /**
   * Refuses a sidecar that would change the meaning of the cells, because only the raster itself is
   * read.
   */
  public static void requireSelfContained(Path file) {
    Partners.requireBeside(file);
    Path sidecar = file.resolveSibling(file.getFileName() + ".aux.xml");
    if (!Files.isRegularFile(sidecar)) {
      return;
    }
    try {
      String text =
          Files.size(sidecar) > LABEL_BYTES
              ? ""
              : Files.readString(sidecar, StandardCharsets.ISO_8859_1);
      if (text.isEmpty() || SIDECAR_FACTS.matcher(text).find()) {
        throw BrokenRaster.of(
            file,
            "keeps its nodata value, unit or position in " + sidecar.getFileName(),
            "write them into the raster itself (gdal_translate OLD NEW.tif)");
      }
    } catch (IOException e) {
      throw BrokenRaster.of(
          file, "its sidecar cannot be read (" + Reason.of(e) + ")", "check the disk");
    }
  }

  /** Refuses a block size that is large only in the header of a small file. */
  public static void requireBlock(Path file, long blockCols, long blockRows, long bytesPerCell) {
    long cells =
        blockRows > 0 && blockCols > Long.MAX_VALUE / 16 / blockRows
            ? Long.MAX_VALUE / 16
            : blockCols * blockRows;
    long bytes = cells * bytesPerCell;
    long fileBytes = file.toFile().length();
    if (blockCols < 1 || blockRows < 1 || bytes > Math.max(MAX_BLOCK_BYTES, fileBytes)) {
      throw BrokenRaster.of(
          file,
          "claims blocks of " + blockCols + " x " + blockRows + " cells in " + fileBytes + " bytes",
          "check where the file comes from, or convert it to a tiled GeoTIFF");
    }
  }

  /** Writes a file at a given path. */
  public interface PartWriter {
    void write(Path part) throws IOException;
  }

  /**
   * Writes a file atomically: it is written in the same folder, forced to disk and renamed in one
   * step. A failure leaves the old file, or none, and no remains.
   */
  public static void writeWhole(Path file, PartWriter writer) {
    Path target = file.toAbsolutePath().normalize();
    Path part = target.resolveSibling(target.getFileName() + ".part");
    try {
      writer.write(part);
      try (FileChannel c = FileChannel.open(part, StandardOpenOption.WRITE)) {
        c.force(true);
      }
      Files.move(part, target, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
      try (FileChannel c = FileChannel.open(target.getParent(), StandardOpenOption.READ)) {
        c.force(true);
      }
    } catch (IOException e) {
      throw cannotWrite(file, e);
    } finally {
      remove(part);
    }
  }

  public static StageFailure cannotWrite(Path file, IOException e) {
    return new StageFailure("cannot write " + file + ": " + Reason.of(e), e);
  }

  /**
   * Opens a temporary file in the folder of another one, for data on its way into that one. Where
   * the system allows it, the file is unnamed from the start, so that nothing is left behind even
   * if the process is killed.
   */
  public static FileChannel scratchBeside(Path file) {
    Path target = file.toAbsolutePath().normalize();
    try {
      Path scratch = target.resolveSibling(target.getFileName() + ".tiles.part");
      return FileChannel.open(
          scratch,
          StandardOpenOption.CREATE,
          StandardOpenOption.TRUNCATE_EXISTING,
          StandardOpenOption.READ,
          StandardOpenOption.WRITE,
          StandardOpenOption.DELETE_ON_CLOSE);
    } catch (IOException e) {
      throw cannotWrite(file, e);
    }
  }

  private static void remove(Path file) {
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      throw new StageFailure("cannot remove " + file + ": " + Reason.of(e), e);
    }
  }
}
