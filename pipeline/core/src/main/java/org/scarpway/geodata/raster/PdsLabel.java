package org.scarpway.geodata.raster;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.file.BrokenRaster;
import org.scarpway.geodata.projection.Method;
import org.scarpway.geodata.raster.RasterHeader.Affine;
import org.scarpway.stage.Reason;
import org.scarpway.stage.UserError;

/**
 * Georeference of a PDS3 map from the bounds in its label. The projection offsets are relative to
 * the centre of the first cell in some archives and to its corner, or to cell 0, in others, so that
 * a reader who assumes the wrong convention is off by half a cell or a whole one. The bounds
 * (MAXIMUM_LATITUDE and the like, PDS Data Dictionary) are unambiguous.
 */
final class PdsLabel {
  private static final int LABEL_BYTES = 1 << 16;
  private static final Pattern ENTRY =
      Pattern.compile("(?m)^\\s*([A-Z_]+)\\s*=\\s*\"?([-+0-9.Ee]+|[A-Z]+)\"?");

  /**
   * Largest difference (cells) between the offsets of two conventions, with a margin for rounding.
   */
  private static final double MOST_CELLS = 1.25;

  private static final double ROUNDING_CELLS = 0.2;

  private final Path file;
  private final Map<String, String> entries = new HashMap<>();

  private PdsLabel(Path file, String text) {
    this.file = file;
    Matcher m = ENTRY.matcher(text);
    while (m.find()) {
      entries.putIfAbsent(m.group(1), m.group(2));
    }
  }

  /** The corrected georeference, with a note on the correction. */
  record Placed(Affine transform, String note) {}

  static PdsLabel read(Path file) {
    try (InputStream in = Files.newInputStream(file)) {
      return new PdsLabel(file, new String(in.readNBytes(LABEL_BYTES), StandardCharsets.US_ASCII));
    } catch (IOException e) {
      throw BrokenRaster.of(file, "cannot be read (" + Reason.of(e) + ")", "check the disk");
    }
  }

  /**
   * @param t georeference from the projection offsets
   * @throws UserError if the bounds contradict it by more than the conventions can explain
   */
  Placed place(Affine t, int rows, int cols, String crsWkt) {
    MapCrs crs = CrsText.read(crsWkt);
    if (t.rotated() || crs.isLocal()) {
      return new Placed(t, "");
    }
    return crs.turnX() > 0 ? byBounds(t, rows, cols, crs) : aboutPole(t, rows, cols, crs);
  }

  private Placed byBounds(Affine t, int rows, int cols, MapCrs crs) {
    boolean plain =
        crs.isGeographic()
            || (crs.spec().method() == Method.EQUIRECTANGULAR
                && crs.semiMajorM() == crs.semiMinorM());
    if (!plain) {
      return new Placed(t, "");
    }
    double perDegreeX = crs.turnX() / 360;
    double perDegreeY =
        crs.isGeographic() ? perDegreeX : crs.metresPerDegreeNorth(0) / crs.metresPerUnit();
    double cellY = -t.yRow() / perDegreeY;
    double top = t.y0() / perDegreeY;
    double north = number("MAXIMUM_LATITUDE");
    double down = (top - north) / cellY - rim(north - number("MINIMUM_LATITUDE"), rows, cellY);

    double cellX = t.xCol() / perDegreeX;
    double left = t.x0() / perDegreeX + (crs.isGeographic() ? 0 : crs.toLonLat(0, 0)[0]);
    boolean westward = "WEST".equals(entries.get("POSITIVE_LONGITUDE_DIRECTION"));
    double eastward = westward ? -1 : 1;
    double west = eastward * number("WESTERNMOST_LONGITUDE");
    double span = eastward * number("EASTERNMOST_LONGITUDE") - west;
    span -= 360 * (Math.ceil(span / 360) - 1);
    double across = (left - west) / cellX + rim(span, cols, cellX);
    across -= 360 / cellX * Math.rint(across / (360 / cellX));
    if (westward && Double.isNaN(across)) {
      throw UserError.of(
          file.toString(),
          "counts longitudes to the west, and its bounds do not show where its cells lie",
          "longitudes counted to the east",
          "place the cells anew (gdal_translate -a_ullr)");
    }
    return moved(t, Double.isNaN(down) ? 0 : down, Double.isNaN(across) ? 0 : across);
  }

  /**
   * Distance (cells) between a bound and the outer edge: 0 if the bounds are the edges, 0.5 if they
   * are the centres of the outer cells, NaN if neither.
   */
  private static double rim(double spanDeg, int count, double cellDeg) {
    double missing = count - spanDeg / cellDeg;
    return Math.abs(missing) < ROUNDING_CELLS
        ? 0
        : Math.abs(missing - 1) < ROUNDING_CELLS ? 0.5 : Double.NaN;
  }

  /**
   * Corrects a map whose pole is one whole cell off its centre along both axes: the pole was meant
   * to be at the centre.
   */
  private Placed aboutPole(Affine t, int rows, int cols, MapCrs crs) {
    if (crs.spec() == null || !crs.spec().isPolar()) {
      return new Placed(t, "");
    }
    double across = (t.x0() - crs.spec().falseEastM()) / t.xCol() + cols / 2.0;
    double down = (t.y0() - crs.spec().falseNorthM()) / -t.yRow() - rows / 2.0;
    boolean oneOff =
        Math.abs(Math.abs(across) - 1) < ROUNDING_CELLS
            && Math.abs(Math.abs(down) - 1) < ROUNDING_CELLS;
    return oneOff ? moved(t, down, across) : new Placed(t, "");
  }

  private Placed moved(Affine t, double down, double across) {
    if (Math.max(Math.abs(down), Math.abs(across)) < ROUNDING_CELLS) {
      return new Placed(t, "");
    }
    String off =
        String.format(
            Locale.ROOT,
            "%.2f cells %s and %.2f cells %s",
            Math.abs(down),
            down > 0 ? "north" : "south",
            Math.abs(across),
            across > 0 ? "east" : "west");
    if (Math.max(Math.abs(down), Math.abs(across)) > MOST_CELLS) {
      throw UserError.of(
          file.toString(),
          "its projection offsets put it " + off + " of its own bounds in latitude and longitude",
          "a label that agrees with itself",
          "correct the label, or place the cells anew (gdal_translate -a_ullr)");
    }
    return new Placed(
        new Affine(t.x0() - across * t.xCol(), t.xCol(), 0, t.y0() + down * t.yRow(), 0, t.yRow()),
        "placed by the bounds in its label; its projection offsets, counted from cell corners, put"
            + " it "
            + off);
  }

  private double number(String key) {
    try {
      return Double.parseDouble(entries.getOrDefault(key, "NaN"));
    } catch (NumberFormatException e) {
      return Double.NaN;
    }
  }
}
