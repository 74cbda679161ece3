package org.scarpway.run;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Function;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.scarpway.geodata.MapCrs;
import org.scarpway.geodata.PolygonFile;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.UserError;

/** Keep-out polygons of a file in the coordinates of a grid. */
final class KeepOutFile {
  private KeepOutFile() {}

  static List<Geometry> read(Path file, GridSpec spec, List<String> warnings) {
    PolygonFile polygons = PolygonFile.read(file);
    polygons.warnings().forEach(w -> warnings.add(file.getFileName() + ": " + w));
    Function<Coordinate, double[]> move = toGrid(polygons, MapCrs.of(spec.crsWkt()));
    return polygons.polygons().stream().map(g -> move == null ? g : Moved.to(g, move)).toList();
  }

  private static Function<Coordinate, double[]> toGrid(PolygonFile polygons, MapCrs grid) {
    return switch (polygons.placement()) {
      case DEM_CRS -> null;
      case LON_LAT -> {
        if (grid.isLocal()) {
          throw UserError.of(
              polygons.file().toString(),
              "its coordinates are longitude and latitude, and the elevation model is tied to no"
                  + " body",
              "polygons in the metres of the elevation model",
              "give them as a GeoPackage, or name the elevation model's reference system");
        }
        yield c -> grid.fromLonLat(c.x, c.y);
      }
      case FILE_CRS -> {
        MapCrs own = MapCrs.of(polygons.crsWkt());
        if (own.sameAs(grid)) {
          yield null;
        }
        if (Math.abs(own.semiMajorM() - grid.semiMajorM()) > 1e-3 * grid.semiMajorM()) {
          throw UserError.of(
              polygons.file().toString(),
              "its CRS '"
                  + own.name()
                  + "' is on another body than the elevation model's '"
                  + grid.name()
                  + "'",
              "the same body",
              "give the polygons in the elevation model's CRS");
        }
        yield c -> {
          double[] lonLat = own.toLonLat(c.x, c.y);
          return grid.fromLonLat(lonLat[0], lonLat[1]);
        };
      }
    };
  }
}
