package org.scarpway.dem;

import java.nio.file.Path;
import java.util.List;
import org.scarpway.grid.Body;

/**
 * Which ground to read and how.
 *
 * @param sources one or more raster files; later files fill the voids of earlier ones
 * @param window null for everything
 * @param cellM null to keep the source's cell size
 * @param maxFillCells largest gap that {@link VoidRule#FILL} bridges; above 0 without that rule
 *     where gaps would be filled if the job took filled heights as measured
 * @param verticalSigmaM one-sigma height error or null if unknown
 * @param correlationLengthM of that error, or null for independent cells
 * @param maxCells refuse larger grids before anything is allocated
 * @param assumeLocalMetres take a file without CRS as plain metres instead of refusing it
 */
public record DemRequest(
    List<Path> sources,
    Body body,
    Window window,
    Double cellM,
    VoidRule voids,
    int maxFillCells,
    Double verticalSigmaM,
    Double correlationLengthM,
    long maxCells,
    boolean assumeLocalMetres) {

  /** Centre in the source's CRS, or as lon/lat degrees, and size in metres. */
  public record Window(double x, double y, boolean lonLat, double widthM, double heightM) {}

  /** What to do with cells that hold no height. */
  public enum VoidRule {
    NO_GO,
    FILL,
    FAIL
  }

  public DemRequest {
    sources = List.copyOf(sources);
  }
}
