package org.scarpway.geodata.vector;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.scarpway.geodata.file.InputFile;

/** Reads polygons from a user's GeoPackage or GeoJSON file. */
public final class PolygonReader {
  private static final byte[] SQLITE = "SQLite format 3\0".getBytes(StandardCharsets.US_ASCII);

  private PolygonReader() {}

  /** Reads a GeoPackage or GeoJSON file; the format is detected by content, not by name. */
  public static PolygonFile read(Path file) {
    InputFile.require(file, GeoPackage.MAX_BYTES, "a GeoPackage or GeoJSON file");
    try (InputStream in = Files.newInputStream(file)) {
      return Arrays.equals(in.readNBytes(SQLITE.length), SQLITE)
          ? GeoPackagePolygons.read(file)
          : GeoJsonPolygons.read(file);
    } catch (IOException e) {
      throw InputFile.unreadable(file, "a GeoPackage or GeoJSON file", e);
    }
  }
}
