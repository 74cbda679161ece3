package org.scarpway.geodata.tiff;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The GeoTIFF keys of a file (OGC 19-008r4, tags 34735 to 34737): a map from key to Integer, Double
 * or String. Our own code, because the coverage library's translation silently changes planetary
 * polar systems into others.
 */
public final class GeoKeys {
  static final int MODEL = 1024;
  static final int RASTER = 1025;
  static final int VERTICAL_UNIT = 4099;
  static final int USER = 32767;

  private final TreeMap<Integer, Object> keys = new TreeMap<>();

  public static GeoKeys of(TiffDirectory tiff) {
    int[] directory = tiff.shorts(TiffDirectory.GEO_KEYS);
    double[] doubles = tiff.doubles(TiffDirectory.GEO_DOUBLES);
    String text = tiff.text(TiffDirectory.GEO_TEXT);
    GeoKeys k = new GeoKeys();
    if (directory.length < 4) {
      return k;
    }
    int n = Math.min(directory[3], directory.length / 4 - 1);
    for (int i = 1; i <= n; i++) {
      int key = directory[4 * i];
      int count = directory[4 * i + 2];
      int value = directory[4 * i + 3];
      switch (directory[4 * i + 1]) {
        case 0 -> k.keys.put(key, value);
        case TiffDirectory.GEO_DOUBLES -> {
          if (value < doubles.length) {
            k.keys.put(key, doubles[value]);
          }
        }
        case TiffDirectory.GEO_TEXT -> {
          if (value + count <= text.length()) {
            String s = text.substring(value, value + count);
            k.keys.put(key, s.endsWith("|") ? s.substring(0, s.length() - 1) : s);
          }
        }
        default -> {
          // A key stored in a tag of its own; no key that names a CRS is.
        }
      }
    }
    return k;
  }

  void put(int key, int value) {
    keys.put(key, value);
  }

  void put(int key, double value) {
    keys.put(key, value);
  }

  void put(int key, String value) {
    keys.put(key, value);
  }

  boolean has(int key) {
    return keys.containsKey(key);
  }

  int code(int key, int otherwise) {
    return keys.get(key) instanceof Integer i ? i : otherwise;
  }

  /** Value of the first of these keys that is present, or null. */
  Double number(List<Integer> choice) {
    for (int key : choice) {
      if (keys.get(key) instanceof Double d) {
        return d;
      }
    }
    return null;
  }

  String text(int key) {
    return keys.get(key) instanceof String s ? s : "";
  }

  /** Unit of the heights; empty if no key states it. */
  public String verticalUnit() {
    return switch (code(VERTICAL_UNIT, 0)) {
      case 9001 -> "metre";
      case 9002 -> "foot";
      case 9003 -> "US survey foot";
      default -> "";
    };
  }

  /** True if tie points refer to cell centres instead of corners. */
  public boolean cellCentres() {
    return code(RASTER, 1) == 2;
  }

  /** Values of the three tags, in their order. */
  public static final class Tags {
    final int[] directory;
    final double[] doubles;
    final byte[] text;

    private Tags(int[] directory, double[] doubles, byte[] text) {
      this.directory = directory;
      this.doubles = doubles;
      this.text = text;
    }

    /** The three tags of a file, unchanged. */
    public static Tags of(TiffDirectory tiff) {
      return new Tags(
          tiff.shorts(TiffDirectory.GEO_KEYS),
          tiff.doubles(TiffDirectory.GEO_DOUBLES),
          (tiff.text(TiffDirectory.GEO_TEXT) + "\0").getBytes(StandardCharsets.UTF_8));
    }
  }

  public Tags tags() {
    List<Double> doubles = new ArrayList<>();
    StringBuilder text = new StringBuilder();
    int[] directory = new int[4 * (keys.size() + 1)];
    directory[0] = 1;
    directory[1] = 1;
    directory[2] = 0;
    directory[3] = keys.size();
    int at = 4;
    for (Map.Entry<Integer, Object> e : keys.entrySet()) {
      directory[at] = e.getKey();
      directory[at + 2] = 1;
      if (e.getValue() instanceof Integer i) {
        directory[at + 3] = i;
      } else if (e.getValue() instanceof Double d) {
        directory[at + 1] = TiffDirectory.GEO_DOUBLES;
        directory[at + 3] = doubles.size();
        doubles.add(d);
      } else {
        String s = e.getValue().toString().replaceAll("[^\\x20-\\x7e]|\\|$", "_") + "|";
        directory[at + 1] = TiffDirectory.GEO_TEXT;
        directory[at + 2] = s.length();
        directory[at + 3] = text.length();
        text.append(s);
      }
      at += 4;
    }
    return new Tags(
        directory,
        doubles.stream().mapToDouble(Double::doubleValue).toArray(),
        (text + "\0").getBytes(StandardCharsets.US_ASCII));
  }
}
