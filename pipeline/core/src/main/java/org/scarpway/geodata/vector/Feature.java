package org.scarpway.geodata.vector;

import java.util.AbstractList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
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
  /**
   * Returns a view of a list whose features are made when they are asked for, since all together
   * may be larger than memory.
   */
  public static <T> List<Feature> each(List<T> things, Function<T, Feature> feature) {
    return new AbstractList<>() {
      @Override
      public Feature get(int i) {
        return feature.apply(things.get(i));
      }

      @Override
      public int size() {
        return things.size();
      }
    };
  }

  /** Returns a view of two lists, one after the other. */
  public static List<Feature> both(List<Feature> first, List<Feature> second) {
    return new AbstractList<>() {
      @Override
      public Feature get(int i) {
        return i < first.size() ? first.get(i) : second.get(i - first.size());
      }

      @Override
      public int size() {
        return first.size() + second.size();
      }
    };
  }

  /** Copies the attributes. */
  public Feature {
    attributes = new LinkedHashMap<>(attributes);
  }
}
