package org.scarpway.reach.question;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Bytes;
import org.scarpway.stage.Floats;

/** Computes the summary figures of a reach result. Areas are plan areas. */
public final class ReachSummary {
  private static final String RESERVE = "reserve kept of the ";

  private ReachSummary() {}

  /** Endurance and reserve of the suits that the crew rides in; empty for null. */
  public static List<ReachFigure> suits(ReachRequest.Suits suits) {
    return suits == null
        ? List.of()
        : List.of(
            new ReachFigure("suits last from leaving the base", suits.enduranceS() / 3600, "h"),
            new ReachFigure("of it the walker's reserve", suits.reserveS() / 3600, "h"));
  }

  /** The figure for the reserve of one limit. */
  public static ReachFigure reserve(String of, double pct) {
    return new ReachFigure(RESERVE + of, pct, "%");
  }

  /** The reserves in words; empty if nothing is limited. */
  static String reserveText(List<ReachFigure> summary) {
    Map<Double, List<String>> byPct = new LinkedHashMap<>();
    for (ReachFigure f : summary) {
      if (f.name().startsWith(RESERVE)) {
        byPct
            .computeIfAbsent(f.value(), pct -> new ArrayList<>())
            .add(f.name().substring(RESERVE.length()));
      }
    }
    return byPct.entrySet().stream()
        .map(e -> plain(e.getKey()) + " % of " + listed(e.getValue()))
        .collect(Collectors.joining(", "));
  }

  /** Rounded down, so that the text never claims a larger reserve than is kept. */
  private static String plain(double pct) {
    return BigDecimal.valueOf(pct)
        .setScale(1, RoundingMode.DOWN)
        .stripTrailingZeros()
        .toPlainString();
  }

  private static String listed(List<String> names) {
    int last = names.size() - 1;
    return last == 0
        ? names.get(0)
        : String.join(", ", names.subList(0, last)) + " and " + names.get(last);
  }

  /** Undecided share of the reachable cells (%): possibly / (surely + possibly). */
  public static double undecidedPct(Bytes state) {
    long surely = 0;
    long possibly = 0;
    for (int i = 0; i < state.size(); i++) {
      surely += state.get(i) == ReachState.SURELY ? 1 : 0;
      possibly += state.get(i) == ReachState.POSSIBLY ? 1 : 0;
    }
    return percent(possibly, surely + possibly);
  }

  /**
   * Computes the figures that do not depend on the request.
   *
   * @param undecidedPct undecided share before weighted sums of the limits were evaluated (%)
   */
  public static List<ReachFigure> of(
      GridSpec spec, int base, Bytes state, Bytes binding, Floats gapM, double undecidedPct) {
    double baseX = spec.xM(base % spec.cols());
    double baseY = spec.yM(base / spec.cols());
    long surely = 0;
    long possibly = 0;
    long driveable = 0;
    long cutOff = 0;
    double furthestM = 0;
    double narrowestM = Double.NaN;
    for (int i = 0; i < state.size(); i++) {
      driveable += binding.get(i) != ReachEnd.NO_GO.code() ? 1 : 0;
      cutOff += binding.get(i) == ReachEnd.CUT_OFF.code() ? 1 : 0;
      possibly += state.get(i) == ReachState.POSSIBLY ? 1 : 0;
      if (state.get(i) == ReachState.SURELY) {
        surely++;
        furthestM = Math.max(furthestM, distanceM(spec, i, baseX, baseY));
        if (!(gapM.get(i) >= narrowestM)) {
          narrowestM = gapM.get(i);
        }
      }
    }
    long within = 0;
    long cutOffWithin = 0;
    for (int i = 0; i < state.size(); i++) {
      if (distanceM(spec, i, baseX, baseY) <= furthestM) {
        within++;
        cutOffWithin += binding.get(i) == ReachEnd.CUT_OFF.code() ? 1 : 0;
      }
    }
    double km2 = spec.cellAreaM2() / 1e6;
    List<ReachFigure> all =
        new ArrayList<>(
            List.of(
                new ReachFigure(ReachFigure.SURELY, surely * km2, "km2"),
                new ReachFigure(ReachFigure.POSSIBLY, possibly * km2, "km2"),
                new ReachFigure(
                    "undecided share of reachable area", percent(possibly, surely + possibly), "%"),
                new ReachFigure("undecided share before limits were weighed", undecidedPct, "%"),
                new ReachFigure(
                    "share of driveable ground surely reachable", percent(surely, driveable), "%"),
                new ReachFigure(
                    "furthest surely reachable point, straight", furthestM / 1000, "km"),
                new ReachFigure(
                    "share of ground within that distance", percent(surely, within), "%"),
                new ReachFigure(
                    "driveable but cut off within that distance", cutOffWithin * km2, "km2"),
                new ReachFigure("driveable but cut off", cutOff * km2, "km2"),
                new ReachFigure(ReachFigure.NARROWEST, narrowestM, "m")));
    if (!Double.isNaN(narrowestM)) {
      all.addAll(narrowest(spec, base, state, gapM, narrowestM));
    }
    return List.copyOf(all);
  }

  /**
   * The passage of the least width that is nearest to the base, at the first cell behind it, and
   * the ground behind all passages so narrow.
   */
  private static List<ReachFigure> narrowest(
      GridSpec spec, int base, Bytes state, Floats gapM, double narrowestM) {
    double baseX = spec.xM(base % spec.cols());
    double baseY = spec.yM(base / spec.cols());
    int nearest = base;
    double leastM = Double.POSITIVE_INFINITY;
    long behind = 0;
    for (int i = 0; i < state.size(); i++) {
      if (state.get(i) == ReachState.SURELY && gapM.get(i) <= narrowestM) {
        behind++;
        double m = distanceM(spec, i, baseX, baseY);
        if (m < leastM && besideWider(spec, i, state, gapM)) {
          leastM = m;
          nearest = i;
        }
      }
    }
    List<ReachFigure> all =
        new ArrayList<>(
            ReachFigure.narrowestAt(
                spec.xM(nearest % spec.cols()), spec.yM(nearest / spec.cols())));
    all.add(
        new ReachFigure(
            "reach behind passages so narrow", behind * spec.cellAreaM2() / 1e6, "km2"));
    return all;
  }

  private static boolean besideWider(GridSpec spec, int cell, Bytes state, Floats gapM) {
    int row = cell / spec.cols();
    int col = cell % spec.cols();
    for (int r = Math.max(0, row - 1); r <= Math.min(spec.rows() - 1, row + 1); r++) {
      for (int c = Math.max(0, col - 1); c <= Math.min(spec.cols() - 1, col + 1); c++) {
        int other = r * spec.cols() + c;
        if (state.get(other) == ReachState.SURELY && gapM.get(other) > gapM.get(cell)) {
          return true;
        }
      }
    }
    return false;
  }

  private static double percent(long part, long whole) {
    return whole == 0 ? 0 : 100.0 * part / whole;
  }

  private static double distanceM(GridSpec spec, int cell, double x, double y) {
    return Math.hypot(spec.xM(cell % spec.cols()) - x, spec.yM(cell / spec.cols()) - y);
  }
}
