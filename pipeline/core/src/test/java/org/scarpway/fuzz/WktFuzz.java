package org.scarpway.fuzz;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.scarpway.geodata.crs.CrsText;

/** A coordinate reference system of any text. */
public final class WktFuzz {
  private WktFuzz() {}

  public static void fuzzerTestOneInput(byte[] content) {
    Target.read(
        "wkt", content, (Path file) -> CrsText.read(new String(content, StandardCharsets.UTF_8)));
  }
}
