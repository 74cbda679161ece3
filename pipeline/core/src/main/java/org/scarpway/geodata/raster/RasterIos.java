package org.scarpway.geodata.raster;

import org.scarpway.stage.UserError;

/**
 * Creates a {@link RasterIo}: GDAL if its native library loads, otherwise pure Java. Setting the
 * environment variable {@code SCARPWAY_RASTER} to {@code java} or {@code gdal} overrides the
 * choice.
 */
public final class RasterIos {
  private static final RasterIo PURE_JAVA = new JavaRasterIo();

  private RasterIos() {}

  /**
   * GDAL if it is ready, otherwise pure Java, whose {@link RasterIo#reduced()} states the reason.
   */
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
   * The GDAL implementation.
   *
   * @throws UserError if the native library is missing or of another version
   */
  public static RasterIo gdal() {
    GdalRuntime.require();
    return Gdal.IO;
  }

  /** The implementation without native code. */
  public static RasterIo pureJava() {
    return PURE_JAVA;
  }

  /** Loaded at first use, so that the Java implementation never loads a GDAL class. */
  private static final class Gdal {
    static final RasterIo IO = new GdalRasterIo();
  }
}
