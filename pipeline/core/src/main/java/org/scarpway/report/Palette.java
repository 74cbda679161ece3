package org.scarpway.report;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;

/**
 * Colours as 0xRRGGBB. Classes: the eight colours of Okabe and Ito 2008, <i>Color Universal
 * Design</i>. Continuous quantities: the 256 colours of viridis (Smith and van der Walt 2015,
 * public domain), whose lightness rises evenly.
 */
final class Palette {
  static final int ORANGE = 0xE69F00;
  static final int SKY = 0x56B4E9;
  static final int GREEN = 0x009E73;
  static final int YELLOW = 0xF0E442;
  static final int BLUE = 0x0072B2;
  static final int VERMILION = 0xD55E00;
  static final int PURPLE = 0xCC79A7;
  static final int BLACK = 0x000000;

  private static final int[] VIRIDIS = load();

  private Palette() {}

  /**
   * @param index 0 (dark) to 255 (light)
   */
  static int viridis(int index) {
    return VIRIDIS[index];
  }

  /**
   * Returns a colour of the map ramp for a fraction of its range; fractions outside [0, 1] are
   * clamped.
   */
  static int ramp(double share) {
    double s = share > 0 ? Math.min(share, 1) : 0;
    return VIRIDIS[(int) Math.round(s * 255)];
  }

  /** Returns the colour darkened towards black; 0 leaves it unchanged, 1 is black. */
  static int darker(int rgb, double share) {
    return mix(rgb, BLACK, share);
  }

  /** Interpolates from {@code a} at share 0 to {@code b} at share 1. */
  static int mix(int a, int b, double share) {
    int out = 0;
    for (int shift = 16; shift >= 0; shift -= 8) {
      double from = a >> shift & 0xFF;
      double to = b >> shift & 0xFF;
      out |= (int) Math.round(from + (to - from) * share) << shift;
    }
    return out;
  }

  private static int[] load() {
    try (InputStream in = Palette.class.getResourceAsStream("/report/viridis.txt")) {
      String hex = new String(in.readAllBytes(), StandardCharsets.US_ASCII).replaceAll("\\s", "");
      int[] colours = new int[256];
      for (int i = 0; i < colours.length; i++) {
        colours[i] = Integer.parseInt(hex.substring(6 * i, 6 * i + 6), 16);
      }
      return colours;
    } catch (IOException e) {
      throw new IllegalStateException("the palette is missing from the program", e);
    }
  }
}
