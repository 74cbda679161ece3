package org.scarpway.geodata.vector;

import java.util.LinkedHashMap;
import java.util.Map;
import org.locationtech.jts.geom.Geometry;

/**
 * A geometry with its attributes, in the order in which they are written. Values: String, Double,
 * Integer, Long.
 *
 * @param geometry geometry in the CRS of the file that it is written to
 * @param attributes values by name, in the order in which they are written; null for an unknown
 *     value
 */
public record Feature(Geometry geometry, Map<String, Object> attributes) {
  /** Copies the attributes. */
  public Feature {
    attributes = new LinkedHashMap<>(attributes);
  }
}
