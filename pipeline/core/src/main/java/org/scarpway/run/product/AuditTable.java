package org.scarpway.run.product;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.scarpway.audit.Finding;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.Column;
import org.scarpway.stage.StageFailure;

/**
 * Writes audit.csv: the trips that were simulated again, each with the smallest remaining amounts.
 */
public final class AuditTable {
  private static final List<Column<Finding>> COLUMNS =
      List.of(
          Column.text("trip_to", f -> f.name().isEmpty() ? "cell" : f.name()),
          Column.number("x_m", 2, Finding::xM),
          Column.number("y_m", 2, Finding::yM),
          Column.number("time_s", 1, Finding::timeS),
          Column.number("energy_kwh", 3, f -> f.energyJ() / 3.6e6),
          Column.number("distance_m", 1, Finding::distanceM),
          // Infinite where nothing limits the trip, which is an empty field.
          Column.number("least_left_pct", 2, Finding::leftPct),
          Column.text("left_of", Finding::leftOf),
          Column.number("at_s", 1, Finding::leftAtS),
          Column.number("at_x_m", 2, Finding::leftXM),
          Column.number("at_y_m", 2, Finding::leftYM),
          Column.text("phase", Finding::phase),
          Column.whole("ways_home_driven", Finding::waysHome),
          Column.text("rule_broken", f -> f.holds() ? "none" : f.broken()));

  private AuditTable() {}

  /**
   * Rejects an answer whose trip breaks a rule: that is an error of the program, and the answer is
   * not reported.
   *
   * @throws StageFailure naming the place and the rule
   */
  public static void require(String question, List<Finding> findings) {
    List<Finding> broken = findings.stream().filter(f -> !f.holds()).toList();
    if (!broken.isEmpty()) {
      Finding first = broken.get(0);
      throw new StageFailure(
          String.format(
              Locale.ROOT,
              "%s: %d of %d trips that were driven again break a rule, the first to %s (%.1f, %.1f): %s;"
                  + " this is a fault of the program, its answer must not be used: please report it"
                  + " with the job",
              question,
              broken.size(),
              findings.size(),
              first.name().isEmpty() ? "a cell" : "'" + first.name() + "'",
              first.xM(),
              first.yM(),
              first.broken()));
    }
  }

  /** Returns a summary in one line. */
  public static String summary(List<Finding> findings) {
    if (findings.isEmpty()) {
      return "; no trip driven again";
    }
    double leastPct = findings.stream().mapToDouble(Finding::leftPct).min().orElseThrow();
    return String.format(
        Locale.ROOT,
        "; %d %s driven again, %d rules broken by more than 0.5 %%%s",
        findings.size(),
        findings.size() == 1 ? "trip" : "trips",
        findings.stream().filter(f -> !f.holds()).count(),
        leastPct < Double.POSITIVE_INFINITY
            ? String.format(Locale.ROOT, ", least left of a limit %.1f %%", leastPct)
            : "");
  }

  public static void write(Path file, List<Finding> findings, PlaceFrame frame) {
    PlaceTable.write(file, COLUMNS, findings, frame);
  }
}
