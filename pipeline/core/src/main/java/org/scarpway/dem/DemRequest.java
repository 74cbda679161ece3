package org.scarpway.dem;

import java.nio.file.Path;
import java.util.List;
import org.scarpway.grid.Body;

/**
 * The elevation model to read: files, window, cell size and treatment of voids.
 *
 * @param sources one or more raster files; later files fill the voids of earlier ones
 * @param body body that carries the ground; a source on another body is refused
 * @param window the part to read; null for everything
 * @param cellM cell size (m) of the result; null to keep the source's
 * @param voids treatment of cells without a height
 * @param maxFillCells largest gap (cells) that {@link VoidRule#FILL} bridges; above 0 without that
 *     rule if gaps would be filled under a job that accepts filled heights as measured
 * @param verticalSigmaM one-sigma height error (m), or null if unknown
 * @param correlationLengthM correlation length (m) of that error, or null for independent cells
 * @param maxCells number of cells above which a grid is refused before anything is allocated
 * @param assumeLocalMetres true to read a file without a CRS as plain metres; false to refuse it
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

  /**
   * A window by its centre, in the source's CRS or as longitude and latitude (degrees), and its
   * size (m).
   *
   * @param x x of the centre in the source's CRS and unit, or longitude (degrees)
   * @param y y of the centre in the source's CRS and unit, or latitude (degrees)
   * @param lonLat true if {@code x} and {@code y} are longitude and latitude
   * @param widthM size from west to east (m)
   * @param heightM size from south to north (m)
   */
  public record Window(double x, double y, boolean lonLat, double widthM, double heightM) {}

  /** Treatment of cells without a height. */
  public enum VoidRule {
    /** Voids stay voids; the ground there is no-go. */
    NO_GO,
    /** Gaps of at most {@code maxFillCells} cells are filled by interpolation. */
    FILL,
    /** A void is refused with a {@link org.scarpway.stage.UserError}. */
    FAIL
  }

  /** Copies the list of files; the values are checked when the files are opened. */
  public DemRequest {
    sources = List.copyOf(sources);
  }
}
