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
 * @param colours colour of each class code (0xRRGGBB); empty for amounts
 */
public record BandInfo(
    String description,
    String unit,
    double offset,
    Map<String, String> tags,
    Map<Integer, Integer> colours) {
  private static final String CODE = "CODE_";

  /** Copies the tags and colours. */
  public BandInfo {
    tags = new TreeMap<>(tags);
    colours = new TreeMap<>(colours);
  }

  /** Without colours. */
  public BandInfo(String description, String unit, double offset, Map<String, String> tags) {
    this(description, unit, offset, tags, Map.of());
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

  /**
   * Returns these metadata with a colour for each class code.
   *
   * @param rgb 0xRRGGBB by code
   */
  public BandInfo coloured(Map<Integer, Integer> rgb) {
    return new BandInfo(description, unit, offset, tags, rgb);
  }

  /** The meaning of each class code, by code; empty for amounts and sums of bits. */
  public Map<Integer, String> meanings() {
    TreeMap<Integer, String> all = new TreeMap<>();
    tags.forEach(
        (name, meaning) -> {
          if (name.startsWith(CODE)) {
            all.put(Integer.parseInt(name.substring(CODE.length())), meaning);
          }
        });
    return all;
  }
}
