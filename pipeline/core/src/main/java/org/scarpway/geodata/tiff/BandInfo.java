package org.scarpway.geodata.tiff;

import java.util.Map;
import java.util.TreeMap;

/**
 * Metadata of a written band.
 *
 * @param description one line for users
 * @param unit SI unit or "" for none, "code" for classes
 * @param offset value added to the stored value to give the real one
 * @param tags further tags, such as the meaning of class codes
 */
public record BandInfo(String description, String unit, double offset, Map<String, String> tags) {
  /** Copies the tags. */
  public BandInfo {
    tags = new TreeMap<>(tags);
  }

  /**
   * Returns the metadata of a band of amounts.
   *
   * @param description one line for users
   * @param unit SI unit or "" for none
   */
  public static BandInfo of(String description, String unit) {
    return new BandInfo(description, unit, 0, Map.of());
  }

  /**
   * Returns the metadata of a band of class codes.
   *
   * @param description one line for users
   * @param meaning meaning of each code
   */
  public static BandInfo codes(String description, Map<String, String> meaning) {
    return new BandInfo(description, "code", 0, meaning);
  }
}
