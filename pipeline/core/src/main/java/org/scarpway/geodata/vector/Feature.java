package org.scarpway.geodata.vector;

import java.util.LinkedHashMap;
import java.util.Map;
import org.locationtech.jts.geom.Geometry;

/**
 * A geometry with its attributes, in the order in which they are written. Values: String, Double,
 * Integer, Long.
 */
public record Feature(Geometry geometry, Map<String, Object> attributes) {
  public Feature {
    attributes = new LinkedHashMap<>(attributes);
  }
}
