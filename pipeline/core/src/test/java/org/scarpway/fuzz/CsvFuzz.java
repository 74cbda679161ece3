package org.scarpway.fuzz;

import org.scarpway.config.TargetsReader;

/** A table of targets of any bytes. */
public final class CsvFuzz {
  private CsvFuzz() {}

  public static void fuzzerTestOneInput(byte[] content) {
    Target.read("targets.csv", content, file -> TargetsReader.read(file));
  }
}
