package org.scarpway.report;

import java.util.List;
import org.scarpway.drawing.Picture;

/** Renders pixels of a continuous quantity or of classes as images. */
final class Paint {
  private static final int LEVELS = 64;
  private static final int BACKDROP = 0xB8B8B8;

  private Paint() {}

  /**
   * Renders a continuous quantity on the viridis ramp from {@code low} to {@code high}; NaN is
   * transparent.
   */
  static Picture ramp(PixelGrid grid, float[] values, double low, double high, int alpha) {
    int[] argb = new int[LEVELS + 1];
    for (int i = 0; i < LEVELS; i++) {
      argb[i + 1] = alpha << 24 | Palette.ramp(i / (LEVELS - 1.0));
    }
    byte[] index = new byte[values.length];
    double perUnit = LEVELS / (high - low);
    for (int i = 0; i < values.length; i++) {
      if (!Float.isNaN(values[i])) {
        int level = (int) ((values[i] - low) * perUnit);
        index[i] = (byte) (1 + Math.max(0, Math.min(LEVELS - 1, level)));
      }
    }
    return new Picture(grid.width, grid.height, index, argb);
  }

  /**
   * Renders classes with their textures; a code without a style is transparent.
   *
   * @param edges pixels drawn as a dark line above the classes, or null
   */
  static Picture classes(PixelGrid grid, byte[] codes, List<ClassStyle> styles, boolean[] edges) {
    int line = 2 * styles.size() + 1;
    int[] argb = new int[line + 1];
    int[] entry = new int[256];
    Pattern[] pattern = new Pattern[256];
    for (int s = 0; s < styles.size(); s++) {
      ClassStyle style = styles.get(s);
      entry[style.code()] = 2 * s + 1;
      pattern[style.code()] = style.pattern();
      argb[2 * s + 1] = style.alpha() << 24 | style.rgb();
      argb[2 * s + 2] = Math.min(255, style.alpha() + 60) << 24 | inkOf(style);
    }
    argb[line] = 0xF0101418;
    int period = grid.period();
    byte[] index = new byte[codes.length];
    for (int y = 0; y < grid.height; y++) {
      for (int x = 0; x < grid.width; x++) {
        int i = y * grid.width + x;
        int code = codes[i] & 0xFF;
        if (edges != null && edges[i]) {
          index[i] = (byte) line;
        } else if (entry[code] > 0) {
          boolean ink = pattern[code].ink(x, y, period);
          index[i] = (byte) (entry[code] + (ink ? 1 : 0));
        }
      }
    }
    return new Picture(grid.width, grid.height, index, argb);
  }

  /** Renders the relief image, opaque; negative shade means no elevation and is transparent. */
  static Picture relief(PixelGrid grid, float[] shade01) {
    int[] argb = new int[LEVELS + 1];
    for (int i = 0; i < LEVELS; i++) {
      int grey = 70 + (int) Math.round(178.0 * i / (LEVELS - 1));
      argb[i + 1] = 0xFF000000 | grey << 16 | grey << 8 | grey;
    }
    byte[] index = new byte[shade01.length];
    for (int i = 0; i < shade01.length; i++) {
      if (shade01[i] >= 0) {
        index[i] = (byte) (1 + Math.min(LEVELS - 1, (int) (shade01[i] * LEVELS)));
      }
    }
    return new Picture(grid.width, grid.height, index, argb);
  }

  /** Renders the legend sample of a class, over the mid grey of the relief. */
  static Picture swatch(ClassStyle style) {
    return bar(List.of(style), new double[] {1}, 36, 20, 8);
  }

  /** Renders shares of a whole side by side, left to right. */
  static Picture shares(List<ClassStyle> styles, double[] shares) {
    return bar(styles, shares, 900, 32, 12);
  }

  private static Picture bar(
      List<ClassStyle> styles, double[] shares, int width, int height, int period) {
    int[] argb = new int[2 * styles.size() + 1];
    argb[0] = 0xFF000000 | BACKDROP;
    byte[] index = new byte[width * height];
    double end = 0;
    int from = 0;
    for (int s = 0; s < styles.size(); s++) {
      ClassStyle style = styles.get(s);
      argb[2 * s + 1] = over(style.rgb(), style.alpha());
      argb[2 * s + 2] = over(inkOf(style), Math.min(255, style.alpha() + 60));
      end += shares[s];
      int to = (int) Math.round(Math.min(1, end) * width);
      for (int y = 0; y < height; y++) {
        for (int x = from; x < to; x++) {
          boolean ink = style.pattern().ink(x, y, period);
          index[y * width + x] = (byte) (2 * s + (ink ? 2 : 1));
        }
      }
      from = to;
    }
    return new Picture(width, height, index, argb);
  }

  /** Renders the legend bar of the ramp, one pixel high. */
  static Picture rampBar(int alpha) {
    int[] argb = new int[LEVELS];
    byte[] index = new byte[LEVELS];
    for (int i = 0; i < LEVELS; i++) {
      argb[i] = over(Palette.ramp(i / (LEVELS - 1.0)), alpha);
      index[i] = (byte) i;
    }
    return new Picture(LEVELS, 1, index, argb);
  }

  private static int inkOf(ClassStyle style) {
    return Palette.darker(style.rgb(), 0.62);
  }

  private static int over(int rgb, int alpha) {
    return 0xFF000000 | Palette.mix(BACKDROP, rgb, alpha / 255.0);
  }
}
