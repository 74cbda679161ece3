package org.scarpway.geodata.tiff;

import java.util.Map;
import java.util.TreeMap;

/**
 * What a written band says of itself.
 *
 * @param description one line for people
 * @param unit SI unit or "" for none, "code" for classes
 * @param offset real value = stored value + offset
 * @param tags further tags, such as the meaning of class codes
 */
public record BandInfo(String description, String unit, double offset, Map<String, String> tags) {
  public BandInfo {
    tags = new TreeMap<>(tags);
  }

  public static BandInfo of(String description, String unit) {
    return new BandInfo(description, unit, 0, Map.of());
  }

  public static BandInfo codes(String description, Map<String, String> meaning) {
    return new BandInfo(description, "code", 0, meaning);
  }
}
