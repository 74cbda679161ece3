package org.scarpway.run.product;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.scarpway.audit.Finding;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.CsvTable.Column;
import org.scarpway.stage.StageFailure;

/**
 * Writes audit.csv: the trips that were simulated again, each with the smallest remaining amounts.
 */
public final class AuditTable {
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
  public static String told(List<Finding> findings) {
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
    List<List<Object>> rows = new ArrayList<>();
    for (Finding f : findings) {
      rows.add(
          List.of(
              f.name().isEmpty() ? "cell" : f.name(),
              f.xM(),
              f.yM(),
              f.timeS(),
              f.energyJ() / 3.6e6,
              f.distanceM(),
              limited(f) ? f.leftPct() : Double.NaN,
              f.leftOf(),
              f.leftAtS(),
              f.leftXM(),
              f.leftYM(),
              f.phase(),
              f.waysHome(),
              f.holds() ? "none" : f.broken()));
    }
    PlaceTable.write(
        file,
        List.of(
            Column.text("trip_to"),
            Column.number("x_m", 2),
            Column.number("y_m", 2),
            Column.number("time_s", 1),
            Column.number("energy_kwh", 3),
            Column.number("distance_m", 1),
            Column.number("least_left_pct", 2),
            Column.text("left_of"),
            Column.number("at_s", 1),
            Column.number("at_x_m", 2),
            Column.number("at_y_m", 2),
            Column.text("phase"),
            Column.number("ways_home_driven", 0),
            Column.text("rule_broken")),
        rows,
        frame);
  }

  private static boolean limited(Finding f) {
    return f.leftPct() < Double.POSITIVE_INFINITY;
  }
}
