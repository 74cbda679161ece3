package org.scarpway.report;

import java.util.List;
import org.locationtech.jts.geom.Geometry;

/**
 * Keep-out areas as the user's files have them, each with what the file says of it.
 *
 * @param marginM distance that the rim of every vehicle keeps from every area (m)
 * @param areas all areas of the job
 */
public record KeepOutAreas(double marginM, List<Area> areas) {
  /** A job without keep-out areas. */
  public static final KeepOutAreas NONE = new KeepOutAreas(0, List.of());

  /** Copies the list. */
  public KeepOutAreas {
    areas = List.copyOf(areas);
  }

  /**
   * An area without its margin.
   *
   * @param words its name and reason
   * @param area in the coordinates of the grid
   */
  public record Area(String words, Geometry area) {}
}
