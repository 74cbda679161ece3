package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.Mobility;

/**
 * The style of one class on a map.
 *
 * @param code value in the class grid, 0 to 99
 * @param rgb fill colour
 * @param alpha opacity of the fill over the shaded relief, 0 to 255
 */
record ClassStyle(int code, String label, int rgb, int alpha, Pattern pattern) {

  private static final int[] COLOURS = {
    Palette.VERMILION,
    Palette.SKY,
    Palette.YELLOW,
    Palette.PURPLE,
    Palette.GREEN,
    Palette.ORANGE,
    Palette.BLUE
  };
  private static final Pattern[] PATTERNS = {
    Pattern.RISING, Pattern.PLAIN, Pattern.DOTS, Pattern.FALLING, Pattern.LEVEL, Pattern.MESH
  };

  /** Go is left nearly bare so that the relief shows; no-go is the darkest and hatched. */
  static List<ClassStyle> mobility() {
    return List.of(
        new ClassStyle(Mobility.GO, "go", Palette.SKY, 110, Pattern.PLAIN),
        new ClassStyle(Mobility.SLOW, "slow", Palette.YELLOW, 165, Pattern.DOTS),
        new ClassStyle(Mobility.NO_GO, "no-go", Palette.VERMILION, 190, Pattern.RISING));
  }

  /** Ground without a class: the relief alone, which only a legend distinguishes from go. */
  static ClassStyle noVerdict() {
    return new ClassStyle(0, "no verdict (relief alone)", 0, 0, Pattern.PLAIN);
  }

  /** One style per limit, the same in every report. */
  static List<ClassStyle> limits() {
    List<ClassStyle> styles = new ArrayList<>();
    for (Limit limit : Limit.values()) {
      styles.add(numbered(limit.code(), label(limit)));
    }
    return styles;
  }

  /** Returns the label of a limit; a verdict needs the elevation around a cell as well. */
  static String label(Limit limit) {
    return limit == Limit.VOID ? "no elevation there, beside it or beyond the edge" : limit.label();
  }

  /** One style per reason that ends the reach, the same in every report. */
  static List<ClassStyle> ends() {
    List<ClassStyle> styles = new ArrayList<>();
    for (ReachEnd end : ReachEnd.values()) {
      styles.add(numbered(end.code(), end.label()));
    }
    return styles;
  }

  // 7 colours and 6 textures are coprime: no two of the first 42 codes share both.
  private static ClassStyle numbered(int code, String label) {
    int i = code - 1;
    return new ClassStyle(
        code, label, COLOURS[i % COLOURS.length], 180, PATTERNS[i % PATTERNS.length]);
  }
}
