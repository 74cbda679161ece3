package org.scarpway.fuzz;

import org.scarpway.geodata.CsvTable;

/** A table of any bytes. */
public final class CsvFuzz {
  private CsvFuzz() {}

  public static void fuzzerTestOneInput(byte[] content) {
    Target.read("table.csv", content, file -> CsvTable.read(file, 1000, 200));
  }
}
