package org.scarpway.geodata.vector;

import java.util.List;
import java.util.Locale;

/**
 * One table of features for a GeoPackage.
 *
 * @param name table name: letters, digits and underscores, not starting with a digit or gpkg_
 * @param title short name for users, its own in the file
 * @param description what the features are, may be empty
 * @param geometryType OGC name in capitals, such as MULTIPOLYGON; every geometry is of this type
 * @param features features in the order in which they are written; not copied, so that a view may
 *     make each when it is asked for
 */
public record LayerData(
    String name, String title, String description, String geometryType, List<Feature> features) {
  /** Longest table name; two names of folders fit into it. */
  private static final int LONGEST = 150;

  /** A table without words on it. */
  public LayerData(String name, String geometryType, List<Feature> features) {
    this(name, name, "", geometryType, features);
  }

  /**
   * Checks the names and types.
   *
   * @throws IllegalArgumentException if the name is not usable or a geometry has another type
   */
  public LayerData {
    if (!name.matches("[A-Za-z_][A-Za-z0-9_]*")
        || name.length() > LONGEST
        || name.toLowerCase(Locale.ROOT).matches("(gpkg_|sqlite_|rtree_).*")) {
      throw new IllegalArgumentException("not a usable layer name: " + name);
    }
    for (Feature f : features) {
      if (!f.geometry().getGeometryType().equalsIgnoreCase(geometryType)) {
        throw new IllegalArgumentException(
            "layer " + name + " of " + geometryType + " got a " + f.geometry().getGeometryType());
      }
    }
  }
}
