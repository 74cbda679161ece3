package org.scarpway.geodata.file;

import java.nio.file.Path;
import org.scarpway.stage.UserError;

/** The error for a raster file that is damaged or cannot be used. */
public final class BrokenRaster {
  private static final int MAX_REASON = 240;

  private BrokenRaster() {}

  public static UserError of(Path file, String what, String remedy) {
    // A message about a damaged file may contain arbitrary bytes.
    String line = what.replaceAll("[^\\x20-\\x7e]+", " ");
    String shown = line.length() > MAX_REASON ? line.substring(0, MAX_REASON) + "..." : line;
    return UserError.of(file.toString(), shown, "one complete raster file", remedy);
  }
}
