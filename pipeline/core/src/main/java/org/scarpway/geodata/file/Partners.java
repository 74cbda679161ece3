package org.scarpway.geodata.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.scarpway.stage.Reason;

/**
 * Checks the companion files from which a reader may load further data: those that share the
 * raster's name up to the dot, and those that its label names. One that is a link out of the
 * folder, or not a regular file, would make the reader read elsewhere or block for ever, so it is
 * refused before any reader opens the raster.
 */
final class Partners {
  private static final int LABEL_BYTES = 1 << 20;

  private Partners() {}

  /**
   * @param file absolute path of the raster
   */
  static void requireBeside(Path file) {
    Path folder = file.getParent();
    String stem = stem(file);
    String label = null;
    try (DirectoryStream<Path> beside = Files.newDirectoryStream(folder)) {
      for (Path other : beside) {
        if (other.equals(file) || Files.isDirectory(other) || !leadsAway(other, folder)) {
          continue;
        }
        label = label == null ? label(file) : label;
        String name = other.getFileName().toString().toLowerCase(Locale.ROOT);
        if (stem(other).equals(stem) || name.startsWith(stem + ".") || label.contains(name)) {
          throw BrokenRaster.of(
              file,
              "has a partner " + other.getFileName() + " that is no file of its folder",
              "keep both in one folder, not as links, or convert it to GeoTIFF");
        }
      }
    } catch (IOException e) {
      throw BrokenRaster.of(file, "cannot be read (" + Reason.of(e) + ")", "check the disk");
    }
  }

  private static boolean leadsAway(Path other, Path folder) throws IOException {
    if (!Files.isSymbolicLink(other)) {
      return !Files.isRegularFile(other);
    }
    return !Files.isRegularFile(other)
        || !folder.toRealPath().equals(other.toRealPath().getParent());
  }

  private static String stem(Path file) {
    String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
    int dot = name.lastIndexOf('.');
    return dot < 1 ? name : name.substring(0, dot);
  }

  private static String label(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return new String(in.readNBytes(LABEL_BYTES), StandardCharsets.UTF_8)
          .toLowerCase(Locale.ROOT);
    }
  }
}
