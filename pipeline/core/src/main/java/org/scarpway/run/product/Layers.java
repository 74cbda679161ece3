package org.scarpway.run.product;

import java.nio.file.Path;
import java.util.List;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.scarpway.geodata.crs.CrsText;
import org.scarpway.geodata.crs.WorldMap;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.geodata.vector.GeoJson;
import org.scarpway.geodata.vector.GeoPackage;
import org.scarpway.geodata.vector.LayerData;
import org.scarpway.grid.Body;
import org.scarpway.grid.GridSpec;

/**
 * Vector products in the grid's CRS and, on Earth, also as RFC 7946 GeoJSON, whose datum applies
 * only there.
 */
public final class Layers {
  private Layers() {}

  /**
   * Returns polygons as a layer; single polygons become multipolygons of one, so that all features
   * have one type.
   */
  public static LayerData polygons(Words words, List<Feature> features) {
    return layer(
        words,
        "MULTIPOLYGON",
        Feature.each(features, f -> new Feature(multi(f.geometry()), f.attributes())));
  }

  /**
   * What a layer is called, so that layers of several files can be told apart.
   *
   * @param kind of its features, such as no_go
   * @param of name of the vehicle or question that it is of, or empty
   * @param title its name for users
   * @param description what its features are
   */
  public record Words(String kind, String of, String title, String description) {
    /** The name of the table. */
    String name() {
      return of.isEmpty() ? kind : kind + "_" + of.replaceAll("[^A-Za-z0-9]", "_");
    }
  }

  private static LayerData layer(Words words, String geometryType, List<Feature> features) {
    return new LayerData(words.name(), words.title, words.description, geometryType, features);
  }

  private static Geometry multi(Geometry g) {
    return g instanceof Polygon p ? g.getFactory().createMultiPolygon(new Polygon[] {p}) : g;
  }

  public static LayerData lines(Words words, List<Feature> features) {
    return layer(words, "LINESTRING", features);
  }

  public static LayerData points(Words words, List<Feature> features) {
    return layer(words, "POINT", features);
  }

  public static void write(Path file, GridSpec spec, LayerData... layers) {
    GeoPackage.write(file, spec.crsWkt(), CrsText.read(spec.crsWkt()).name(), List.of(layers));
  }

  /** Writes nothing on other bodies, or if there is no transformation to WGS 84. */
  public static void writeGeoJson(Path file, GridSpec spec, Body body, List<Feature> features) {
    WorldMap world = WorldMap.of(spec);
    if (!world.known() || !body.sameFigureAs(Body.EARTH.semiMajorM(), Body.EARTH.semiMinorM())) {
      return;
    }
    List<Feature> lonLat =
        Feature.each(
            features,
            f ->
                new Feature(
                    TranslatedGeometry.to(f.geometry(), c -> world.toLonLat(c.x, c.y)),
                    f.attributes()));
    GeoJson.write(file, lonLat, body.name(), world.shift().accuracyM());
  }
}
