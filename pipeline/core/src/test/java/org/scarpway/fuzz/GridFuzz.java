package org.scarpway.fuzz;

/** An ASCII grid of any bytes on the pure-Java path: its header and its first cells. */
public final class GridFuzz {
  private GridFuzz() {}

  public static void fuzzerTestOneInput(byte[] content) {
    Target.read("ground.asc", content, TiffFuzz::firstCells);
  }
}
