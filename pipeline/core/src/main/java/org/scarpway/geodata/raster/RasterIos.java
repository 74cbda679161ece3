package org.scarpway.geodata.raster;

import org.scarpway.stage.UserError;

/**
 * Where a {@link RasterIo} comes from: GDAL where its native library loads, else pure Java. The
 * environment variable {@code SCARPWAY_RASTER} set to {@code java} or {@code gdal} takes the choice
 * away.
 */
public final class RasterIos {
  private static final RasterIo PURE_JAVA = new JavaRasterIo();

  private RasterIos() {}

  /** GDAL if it is ready, else pure Java, whose {@link RasterIo#reduced()} says why. */
  public static RasterIo best() {
    String wish = System.getenv("SCARPWAY_RASTER");
    if (wish == null || wish.isBlank()) {
      return GdalRuntime.problem().isEmpty() ? gdal() : pureJava();
    }
    return switch (wish) {
      case "java" -> pureJava();
      case "gdal" -> gdal();
      default ->
          throw UserError.of(
              "SCARPWAY_RASTER",
              "unknown value '" + wish + "'",
              "java or gdal",
              "unset it to take GDAL where it is installed");
    };
  }

  /**
   * Raster files by GDAL.
   *
   * @throws UserError if the native library is missing or of another version
   */
  public static RasterIo gdal() {
    GdalRuntime.require();
    return Gdal.IO;
  }

  /** Raster files without native code. */
  public static RasterIo pureJava() {
    return PURE_JAVA;
  }

  /** Loaded on first use, so that the Java path never touches a GDAL class. */
  private static final class Gdal {
    static final RasterIo IO = new GdalRasterIo();
  }
}
