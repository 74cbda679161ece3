package org.scarpway.report;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Colours (0xRRGGBB) of the codes in rasters, those of the report where it draws them. */
public final class CodeColours {
  private static final int[] APART = {
    Palette.BLUE,
    Palette.ORANGE,
    Palette.GREEN,
    Palette.PURPLE,
    Palette.VERMILION,
    Palette.YELLOW,
    Palette.SKY
  };

  private CodeColours() {}

  /** Colours of the classes go, slow and no-go. */
  public static Map<Integer, Integer> mobility() {
    return of(ClassStyle.mobility());
  }

  /** Colours of the limits of a vehicle. */
  public static Map<Integer, Integer> limits() {
    return of(ClassStyle.limits());
  }

  /** Colours of what ends a reach. */
  public static Map<Integer, Integer> ends() {
    return of(ClassStyle.ends());
  }

  /** Colours of ground that two runs reach, or only one of them. */
  public static Map<Integer, Integer> reachChanges() {
    return of(ClassStyle.reachChanges());
  }

  /** Colours of a ground's change of class, by the kinds of {@link ComparisonData.Change}. */
  public static Map<Integer, Integer> classChanges() {
    return of(ClassStyle.classChanges());
  }

  /** Colours of the codes 1 to {@code n}, which are steps of one quantity. */
  public static Map<Integer, Integer> steps(int n) {
    Map<Integer, Integer> all = new TreeMap<>();
    for (int code = 1; code <= n; code++) {
      all.put(code, Palette.ramp(n == 1 ? 0.5 : (code - 1) / (n - 1.0)));
    }
    return all;
  }

  /** Colours of codes in no order: those for all eyes, then darker ones of the same hues. */
  public static Map<Integer, Integer> apart(Collection<Integer> codes) {
    Map<Integer, Integer> all = new TreeMap<>();
    int i = 0;
    for (int code : codes) {
      int round = i / APART.length;
      double darker = Math.min(0.8, 0.35 * round);
      all.put(code, Palette.darker(APART[i % APART.length], darker));
      i++;
    }
    return all;
  }

  /** Colours of nine values from the least to the largest of an amount. */
  public static List<Integer> ramp() {
    return List.of(0, 1, 2, 3, 4, 5, 6, 7, 8).stream().map(k -> Palette.ramp(k / 8.0)).toList();
  }

  private static Map<Integer, Integer> of(List<ClassStyle> styles) {
    Map<Integer, Integer> all = new TreeMap<>();
    styles.forEach(s -> all.put(s.code(), s.rgb()));
    return all;
  }
}
