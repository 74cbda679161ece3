package org.scarpway.geodata.vector;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygonal;
import org.locationtech.jts.geom.util.GeometryFixer;
import org.locationtech.jts.operation.valid.IsValidOp;
import org.locationtech.jts.operation.valid.TopologyValidationError;
import org.scarpway.stage.UserError;

/**
 * Validates the polygons of one file one by one: bounded coordinates, a bounded number of vertices,
 * valid rings. Self-crossing rings are repaired and reported; a polygon that cannot be repaired, or
 * is too large to try, is refused.
 */
final class PolygonCheck {
  /**
   * Largest number of vertices of a self-crossing polygon that is repaired; larger ones are
   * refused, and so are those with too many crossings.
   */
  private static final int MAX_MENDED_VERTICES = 20_000;

  /** Largest number of warnings in full; further ones are only counted. */
  private static final int MAX_WARNINGS = 20;

  /** Bound on coordinates, the same as for places in a job. */
  private static final double FARTHEST = 1e9;

  private final Path file;
  private final List<Geometry> polygons = new ArrayList<>();
  private final List<AreaWords> words = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();
  private final Entanglement cost = new Entanglement();
  private long vertices;
  private long untold;

  PolygonCheck(Path file) {
    this.file = file;
  }

  void add(Geometry geometry, String feature) {
    add(geometry, feature, AreaWords.NONE);
  }

  void add(Geometry geometry, String feature, AreaWords said) {
    if (!(geometry instanceof Polygonal)) {
      throw UserError.of(
          file + ": " + feature,
          "is a " + geometry.getGeometryType(),
          "Polygon or MultiPolygon",
          "remove it or draw it as an area");
    }
    if (geometry.isEmpty()) {
      warn(feature + ": has no area and is left out");
      return;
    }
    countVertices(geometry.getNumPoints());
    for (Coordinate c : geometry.getCoordinates()) {
      if (!(Math.abs(c.x) <= FARTHEST) || !(Math.abs(c.y) <= FARTHEST)) {
        throw UserError.of(
            file + ": " + feature,
            "coordinate " + c.x + ", " + c.y,
            "numbers in [-1000000000, 1000000000]",
            "correct it");
      }
    }
    polygons.add(mended(geometry, feature));
    words.add(said);
  }

  /**
   * Refuses the file once it contains too many vertices; call before memory is allocated for them.
   * A feature or a list without vertices counts as one.
   */
  void countVertices(long more) {
    vertices += more;
    if (vertices > PolygonFile.MAX_VERTICES) {
      throw UserError.of(
          file.toString(),
          "has more than " + PolygonFile.MAX_VERTICES + " vertices",
          "at most that many",
          "simplify the polygons");
    }
  }

  void warn(String line) {
    if (warnings.size() < MAX_WARNINGS) {
      warnings.add(file.getFileName() + ": " + line);
    } else {
      untold++;
    }
  }

  PolygonFile result(PolygonFile.Placement placement, String crsWkt) {
    if (polygons.isEmpty()) {
      warn("holds no polygon");
    }
    if (untold > 0) {
      warnings.add(file.getFileName() + ": " + untold + " more such remarks");
    }
    return new PolygonFile(file, polygons, words, placement, crsWkt, warnings);
  }

  /**
   * Formats a coordinate for a message: degrees to a few centimetres, metres to less than a cell.
   */
  private static String place(double v) {
    int decimals = Math.abs(v) > 360 ? 1 : 6;
    return BigDecimal.valueOf(v)
        .setScale(decimals, RoundingMode.HALF_EVEN)
        .stripTrailingZeros()
        .toPlainString();
  }

  private Geometry mended(Geometry geometry, String feature) {
    if (!cost.allowsChecking(geometry)) {
      throw UserError.of(
          file + ": " + feature,
          "its "
              + geometry.getNumPoints()
              + " vertices lie too much across each other to be checked",
          "rings that do not cross",
          "simplify the polygon, or split it into several features");
    }
    TopologyValidationError flaw = new IsValidOp(geometry).getValidationError();
    if (flaw == null) {
      return geometry;
    }
    String what =
        flaw.getMessage().toLowerCase(Locale.ROOT)
            + " near "
            + place(flaw.getCoordinate().x)
            + ", "
            + place(flaw.getCoordinate().y);
    boolean small = geometry.getNumPoints() <= MAX_MENDED_VERTICES;
    Geometry fixed = small && cost.allowsMending(geometry) ? GeometryFixer.fix(geometry) : null;
    if (fixed == null || fixed.isEmpty() || !(fixed instanceof Polygonal) || !fixed.isValid()) {
      throw UserError.of(
          file + ": " + feature, what, "rings that do not cross", "correct the polygon");
    }
    warn(feature + ": " + what + "; mended, check the area on the map");
    return fixed;
  }
}
