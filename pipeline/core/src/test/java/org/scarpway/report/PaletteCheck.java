package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.scarpway.validation.Validation;

class PaletteCheck {
  @Test
  void viridisHasItsPublishedColours() {
    int[] at = {0, 64, 128, 255};
    int[] published = {0x440154, 0x3B528B, 0x21918C, 0xFDE725};
    for (int i = 0; i < at.length; i++) {
      Validation.near(
          "9-viridis-" + at[i],
          "viridis colour " + at[i] + " as a number 0xRRGGBB",
          "matplotlib 3.6.3, Smith and van der Walt 2015",
          "R",
          published[i],
          Palette.viridis(at[i]),
          0);
    }
    // At 8 bits a few neighbours of the 256 round to equal or swapped luminance; the maps use 64.
    boolean rising = true;
    for (int i = 1; i < 64; i++) {
      rising &= luminance(Palette.ramp(i / 63.0)) > luminance(Palette.ramp((i - 1) / 63.0));
    }
    Validation.holds(
        "9-viridis-luminance",
        "relative luminance rises strictly over the 64 levels of a map",
        "Smith and van der Walt 2015; luminance by WCAG 2.1",
        "R",
        rising);
  }

  @Test
  void classesUseThePublishedColours() {
    int[] published = {
      0xE69F00, 0x56B4E9, 0x009E73, 0xF0E442, 0x0072B2, 0xD55E00, 0xCC79A7, 0x000000
    };
    int[] ours = {
      Palette.ORANGE,
      Palette.SKY,
      Palette.GREEN,
      Palette.YELLOW,
      Palette.BLUE,
      Palette.VERMILION,
      Palette.PURPLE,
      Palette.BLACK
    };
    for (int i = 0; i < ours.length; i++) {
      Validation.near(
          "9-okabe-ito-" + i,
          "class colour " + i + " as a number 0xRRGGBB",
          "Okabe and Ito 2008, Color Universal Design",
          "V",
          published[i],
          ours[i],
          0);
    }
  }

  @Test
  void textContrastMeetsTheGuideline() {
    int[] textOnWhite = {0x17202A, 0x4A5563, 0x0A5A8A, 0x8F3E00};
    for (int rgb : textOnWhite) {
      assertTrue(contrast(rgb, 0xFFFFFF) >= 4.5, Integer.toHexString(rgb));
    }
    assertTrue(contrast(0x17202A, 0xEEF1F4) >= 4.5);
    assertEquals(21, contrast(0, 0xFFFFFF), 1e-9);
  }

  @Test
  void rampTakesItsEndColoursOutside() {
    assertEquals(Palette.viridis(0), Palette.ramp(-3));
    assertEquals(Palette.viridis(255), Palette.ramp(7));
    assertEquals(Palette.viridis(0), Palette.ramp(Double.NaN));
  }

  /** Relative luminance as WCAG 2.1 defines it, 0 to 1. */
  private static double luminance(int rgb) {
    return 0.2126 * linear(rgb >> 16 & 0xFF)
        + 0.7152 * linear(rgb >> 8 & 0xFF)
        + 0.0722 * linear(rgb & 0xFF);
  }

  /** Contrast ratio as WCAG 2.1 defines it, 1 to 21. */
  private static double contrast(int a, int b) {
    double la = luminance(a);
    double lb = luminance(b);
    return (Math.max(la, lb) + 0.05) / (Math.min(la, lb) + 0.05);
  }

  private static double linear(int channel) {
    double c = channel / 255.0;
    return c <= 0.03928 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4);
  }
}
