package org.scarpway.report;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.scarpway.vehicle.SlowCause;
import org.scarpway.vehicle.SlowGround;

/** The causes that make ground slow for a vehicle, the largest area first. */
final class WhySlow {
  private final SlowGround slow;
  private final List<SlowCause> causes;

  WhySlow(SlowGround slow) {
    this.slow = slow;
    this.causes =
        Arrays.stream(SlowCause.values())
            .filter(c -> slow.cells(c) > 0)
            .sorted(Comparator.comparingLong((SlowCause c) -> -slow.cells(c)))
            .toList();
  }

  private String percent(SlowCause cause) {
    return Figures.percent((double) slow.cells(cause), (double) slow.cells());
  }

  /** Returns a sentence on the most common causes; empty if no ground is slow. */
  String sentence() {
    if (causes.isEmpty()) {
      return "";
    }
    StringBuilder s = new StringBuilder("What slows it most often: ");
    for (int i = 0; i < Math.min(3, causes.size()); i++) {
      s.append(i > 0 ? ", " : "").append(causes.get(i).label()).append(" (");
      s.append(percent(causes.get(i))).append(" % of the slow ground)");
    }
    return s.append('.').toString();
  }

  TableView table(String vehicle, double cellM2) {
    TableView table =
        new TableView(
            "Why ground is slow, " + vehicle + "; causes overlap",
            "cause",
            "slow (km²)",
            "share of the slow ground (%)");
    for (SlowCause c : causes) {
      table.row(c.label(), Figures.km2(slow.cells(c) * cellM2), percent(c));
    }
    return table;
  }
}
