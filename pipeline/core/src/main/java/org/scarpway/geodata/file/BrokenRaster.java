package org.scarpway.geodata.file;

import java.nio.file.Path;
import org.scarpway.stage.UserError;

/** The message for a raster file that cannot be taken as it is. */
public final class BrokenRaster {
  private static final int MAX_REASON = 240;

  private BrokenRaster() {}

  public static UserError of(Path file, String what, String remedy) {
    // Damaged files put anything into a message.
    String line = what.replaceAll("[^\\x20-\\x7e]+", " ");
    String shown = line.length() > MAX_REASON ? line.substring(0, MAX_REASON) + "..." : line;
    return UserError.of(file.toString(), shown, "one complete raster file", remedy);
  }
}
