package org.scarpway.run.product;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.DatumShift;
import org.scarpway.geodata.crs.MapCrs;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.geodata.vector.AreaWords;
import org.scarpway.geodata.vector.PolygonFile;
import org.scarpway.geodata.vector.PolygonReader;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/** Keep-out polygons of a file in the coordinates of a grid. */
public final class KeepOutFile {
  private static final int MOST_TOLD = 10;

  private KeepOutFile() {}

  /**
   * Reads the polygons and warns of those that do not touch the grid.
   *
   * @param marginM distance (m) to which a polygon takes effect
   * @param effect what a polygon beyond that distance from the grid does, such as "closes nothing"
   */
  public static List<Geometry> read(
      Path file, PlaceFrame frame, double marginM, String effect, List<String> warnings) {
    PolygonFile polygons = PolygonReader.read(file);
    warnings.addAll(polygons.warnings());
    Function<Coordinate, double[]> move = toGrid(polygons, frame, warnings);
    List<Geometry> areas =
        polygons.polygons().stream()
            .map(g -> move == null ? g : TranslatedGeometry.to(g, move))
            .toList();
    warnOutside(file, areas, frame.grid(), marginM, effect, warnings);
    return areas;
  }

  /**
   * An area as a user's file has it.
   *
   * @param words its name and reason
   * @param area in the coordinates of the grid
   */
  public record Named(AreaWords words, Geometry area) {
    /** Its name with its reason, either if the other is missing; empty if nothing is said. */
    public String text() {
      String reason = words.reason();
      if (words.name().isEmpty()) {
        return reason;
      }
      return "'" + words.name() + "'" + (reason.isEmpty() ? "" : " (" + reason + ")");
    }

    /** Its name, or else its number in the file, with its reason. */
    public String textOr(int number, Path file) {
      if (!words.name().isEmpty()) {
        return text();
      }
      String reason = words.reason();
      String which = "area " + number + " of " + file.getFileName();
      return which + (reason.isEmpty() ? "" : " (" + reason + ")");
    }
  }

  /** Reads the polygons with what the file says of each. */
  public static List<Named> named(Path file, PlaceFrame frame) {
    PolygonFile polygons = PolygonReader.read(file);
    List<Geometry> areas = read(file, frame, 0, "", new ArrayList<>());
    List<Named> all = new ArrayList<>();
    for (int i = 0; i < areas.size(); i++) {
      all.add(new Named(polygons.words().get(i), areas.get(i)));
    }
    return all;
  }

  private static void warnOutside(
      Path file,
      List<Geometry> areas,
      GridSpec grid,
      double marginM,
      String effect,
      List<String> warnings) {
    Envelope near = new Envelope(grid.westM(), grid.eastM(), grid.southM(), grid.northM());
    near.expandBy(marginM);
    Geometry ground = new GeometryFactory().toGeometry(near);
    List<String> told = new ArrayList<>();
    int outside = 0;
    for (int i = 0; i < areas.size(); i++) {
      if (!ground.intersects(areas.get(i))) {
        outside++;
        if (told.size() < MOST_TOLD) {
          told.add(String.valueOf(i + 1));
        }
      }
    }
    if (outside > 0) {
      String which =
          outside == 1
              ? "area " + told.get(0)
              : outside
                  + " of "
                  + areas.size()
                  + " areas ("
                  + String.join(", ", told)
                  + (outside > MOST_TOLD ? ", ..." : "")
                  + "): each";
      warnings.add(
          file.getFileName()
              + ": "
              + which
              + " lies outside the ground and "
              + effect
              + "; check its coordinates");
    }
  }

  private static Function<Coordinate, double[]> toGrid(
      PolygonFile polygons, PlaceFrame frame, List<String> warnings) {
    return switch (polygons.placement()) {
      case DEM_CRS -> ofElevationModel(polygons, frame);
      case LON_LAT -> {
        MapCrs own = polygons.crsWkt().isBlank() ? null : CrsText.read(polygons.crsWkt());
        boolean world = own == null || !own.isGeographic() || !own.fits(Body.EARTH);
        if (world || !frame.world().map().fits(Body.EARTH)) {
          String where = polygons.file().toString();
          yield c -> frame.fromLonLat(c.x, c.y, where);
        }
        yield ofOwnSystem(own, polygons, frame.world(), warnings);
      }
      case FILE_CRS -> {
        MapCrs own = CrsText.read(polygons.crsWkt());
        yield own.sameAs(frame.world().map())
            ? null
            : ofOwnSystem(own, polygons, frame.world(), warnings);
      }
    };
  }

  /**
   * Returns the transform to metres on the elevation model's own map, from which the grid may have
   * been reprojected.
   */
  private static Function<Coordinate, double[]> ofElevationModel(
      PolygonFile polygons, PlaceFrame frame) {
    if (frame.onRastersMap()) {
      return null;
    }
    if (frame.raster().isGeographic()) {
      throw UserError.of(
          polygons.file().toString(),
          "its coordinates are metres of the elevation model's map, and that counts in degrees",
          "longitude and latitude, or a reference system of its own",
          "give the polygons as GeoJSON, or as a GeoPackage with its reference system");
    }
    double unitM = frame.raster().metresPerUnit();
    return c -> frame.fromRaster(c.x / unitM, c.y / unitM);
  }

  private static Function<Coordinate, double[]> ofOwnSystem(
      MapCrs own, PolygonFile polygons, WorldMap world, List<String> warnings) {
    MapCrs grid = world.map();
    String file = polygons.file().toString();
    if (!(Math.abs(own.semiMajorM() - grid.semiMajorM()) <= 1e-3 * grid.semiMajorM())) {
      throw UserError.of(
          file,
          "its CRS '"
              + own.name()
              + "' is on another body than the elevation model's '"
              + grid.name()
              + "'",
          "the same body",
          "give the polygons in the elevation model's CRS");
    }
    if (own.sameDatumAs(grid)) {
      return c -> {
        double[] lonLat = own.toLonLat(c.x, c.y);
        return grid.fromLonLat(lonLat[0], lonLat[1]);
      };
    }
    Coordinate first = firstOf(polygons);
    double[] about = own.toLonLat(first.x, first.y);
    DatumShift shift = DatumShift.of(own, about[0], about[1]);
    if (!shift.known() || !world.known()) {
      throw UserError.of(
          file,
          (shift.known() ? world.shift() : shift).note(),
          "the datum of the elevation model's CRS '" + grid.name() + "'",
          "give the polygons in the elevation model's CRS");
    }
    if (!shift.note().isEmpty()) {
      warnings.add(polygons.file().getFileName() + ": " + shift.note());
    }
    return c -> {
      double[] lonLat = own.toLonLat(c.x, c.y);
      shift.toWorld(lonLat);
      return world.fromLonLat(lonLat[0], lonLat[1]);
    };
  }

  private static Coordinate firstOf(PolygonFile polygons) {
    return polygons.polygons().isEmpty()
        ? new Coordinate()
        : polygons.polygons().get(0).getCoordinate();
  }
}
