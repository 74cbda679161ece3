package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.reach.question.ReachEnd;
import org.scarpway.report.ComparisonData.Change;
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

  /**
   * One colour per code of a limit or of what ends a reach, chosen by a search over a lattice of
   * colours for the largest least difference (CIEDE2000), over the grey of the relief, to the eyes
   * of people with full and with each kind of dichromatic colour vision.
   */
  private static final int[] CODES = {
    0xDFFFFF, 0x400040, 0xBF8000, 0x406080, 0x209F80, 0xBF0060, 0x804000, 0x2060FF, 0xDFBFFF,
    0x608040, 0xFFFF00, 0x80BF80, 0xBF80BF, 0x0020FF, 0xDFBF40, 0x9FFFBF, 0x00009F, 0x600000,
    0x204040
  };

  /** Changes have colours of their own: those of slow and no-go would be read as these. */
  private static final int BETTER = 0x1B7837;

  private static final int WORSE = 0x762A83;

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

  private static ClassStyle numbered(int code, String label) {
    return new ClassStyle(
        code, label, CODES[code - 1], 200, PATTERNS[(code - 1) % PATTERNS.length]);
  }

  /** Ground that two runs reach, or only one of them. */
  static List<ClassStyle> reachChanges() {
    return List.of(
        new ClassStyle(Change.BOTH, "surely reached by both", Palette.SKY, 110, Pattern.PLAIN),
        new ClassStyle(Change.GAINED, "gained", BETTER, 210, Pattern.LEVEL),
        new ClassStyle(Change.LOST, "lost", WORSE, 210, Pattern.UPRIGHT));
  }

  /** Links to masts. */
  static List<ClassStyle> links() {
    return List.of(
        new ClassStyle(1, "in sight of a mast", Palette.SKY, 110, Pattern.PLAIN),
        new ClassStyle(2, "in sight of a joined relay", Palette.YELLOW, 165, Pattern.DOTS),
        new ClassStyle(
            3, "no link, or ground without data between", Palette.VERMILION, 190, Pattern.RISING));
  }

  /** Ground whose class differs between two runs. */
  static List<ClassStyle> classChanges() {
    return List.of(
        new ClassStyle(Change.BOTH, "the same class", Palette.SKY, 60, Pattern.PLAIN),
        new ClassStyle(Change.GAINED, "better class", BETTER, 210, Pattern.LEVEL),
        new ClassStyle(Change.LOST, "worse class", WORSE, 210, Pattern.UPRIGHT),
        new ClassStyle(
            Change.OTHER, "verdict in one run only", Palette.BLACK, 140, Pattern.FALLING));
  }
}
