package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.ByteGrid;
import org.scarpway.reach.question.DayRings;
import org.scarpway.reach.question.ReachState;

/** The rings of a sortie as classes of a map: a code for each day, and one for what is possible. */
final class SortieRings {
  /** Code of possibly reached ground, beyond those of the days. */
  private static final int POSSIBLY = 40;

  private SortieRings() {}

  static ByteGrid codes(DayRings rings) {
    byte[] codes = rings.day().values().clone();
    byte[] state = rings.state().values();
    for (int i = 0; i < codes.length; i++) {
      if (state[i] == ReachState.POSSIBLY) {
        codes[i] = POSSIBLY;
      }
    }
    return new ByteGrid(rings.day().spec(), codes);
  }

  static List<ClassStyle> styles(int days) {
    List<ClassStyle> all = new ArrayList<>();
    for (int k = 1; k <= days; k++) {
      double share = days == 1 ? 0.5 : (k - 1) / (days - 1.0);
      all.add(new ClassStyle(k, "day " + k, Palette.ramp(share), 170, Pattern.PLAIN));
    }
    all.add(new ClassStyle(POSSIBLY, "possibly", Palette.BLACK, 120, Pattern.DOTS));
    return all;
  }
}
