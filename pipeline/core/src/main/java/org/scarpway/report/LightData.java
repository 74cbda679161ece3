package org.scarpway.report;

import java.util.List;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;

/**
 * Light, or contact, as the report shows it.
 *
 * @param id of its section
 * @param title of its section
 * @param seen what stands in the sky: sun or Earth
 * @param above what it is called when that is seen, such as lit
 * @param below what it is called when it is not, such as dark
 * @param window the window of time in words
 * @param amounts rasters of amounts, on the cells of the report
 * @param links codes of the links to masts: 1 direct, 2 by a relay, 3 none; null if not asked for
 * @param places bases and targets, empty if what stands in the sky is not asked for
 * @param notes errors and cautions, one sentence or more each
 */
public record LightData(
    String id,
    String title,
    String seen,
    String above,
    String below,
    String window,
    List<Amount> amounts,
    ByteGrid links,
    List<At> places,
    List<String> notes) {
  public LightData {
    amounts = List.copyOf(amounts);
    places = List.copyOf(places);
    notes = List.copyOf(notes);
  }

  /**
   * A raster of amounts.
   *
   * @param high end of its scale, which begins at 0; NaN leaves it to the values
   * @param moreIsSafer true if larger values are safer, so that they are rounded down
   * @param drawn true if it is a map of the section as well
   */
  public record Amount(
      String id,
      String title,
      String unit,
      FloatGrid grid,
      double high,
      boolean moreIsSafer,
      boolean drawn,
      String note) {}

  /**
   * A place.
   *
   * @param horizonDeg elevation of the horizon by azimuth, from grid north clockwise
   * @param edge true where it lies at the edge of the data
   * @param path through the sky over the window
   * @param meanShare mean share of the disk above the horizon
   * @param aboveShare share of the window in which enough of it is seen
   * @param longestBelowH longest time in which it is not (h), 0 for none
   * @param atLeast true if the window cuts that time
   */
  public record At(
      String name,
      List<Double> horizonDeg,
      List<Boolean> edge,
      List<Point> path,
      double meanShare,
      double aboveShare,
      double longestBelowH,
      boolean atLeast) {
    public At {
      horizonDeg = List.copyOf(horizonDeg);
      edge = List.copyOf(edge);
      path = List.copyOf(path);
    }
  }

  /** A point of the sky: azimuth from grid north and elevation, degrees. */
  public record Point(double azimuthDeg, double elevationDeg) {}
}
