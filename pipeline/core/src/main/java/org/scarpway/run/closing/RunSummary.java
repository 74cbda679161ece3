package org.scarpway.run.closing;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.run.product.AuditTable;
import org.scarpway.run.product.Durations;
import org.scarpway.run.progress.StageDone;
import org.scarpway.run.unit.ReachProducts;
import org.scarpway.run.unit.SheetTask;
import org.scarpway.vehicle.ClassCells;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.ShownMobility;

/**
 * Summary of a run on stdout: the answers in a few lines, the folder of the products, and how long
 * each stage took.
 */
public final class RunSummary {
  private RunSummary() {}

  /** Returns the answers, one line each. */
  static List<String> answers(JobResults results) {
    List<String> lines = new ArrayList<>();
    for (ShownMobility m : results.mobility()) {
      ClassCells n = m.cells();
      double known = Math.max(1, n.judged());
      lines.add(
          String.format(
              Locale.ROOT,
              "%s: go %.1f %%, slow %.1f %%, no-go %.1f %% of %.2f km2%s",
              m.vehicle().name(),
              100 * n.count(Mobility.GO) / known,
              100 * n.count(Mobility.SLOW) / known,
              100 * n.count(Mobility.NO_GO) / known,
              known * n.cellAreaM2() / 1e6,
              unresolved(m) + unknown(m)));
    }
    for (ReachResult r : results.reaches()) {
      long reached = r.targets().stream().filter(ReachResult.TargetReach::reached).count();
      lines.add(
          String.format(
              Locale.ROOT,
              "%s (from %s, %s, %s): %.2f km2 surely, %.2f km2 possibly more; %d of %d targets%s",
              r.request().name(),
              r.request().baseName(),
              r.vehicle(),
              ReachProducts.rule(r.request().home()),
              r.surelyM2() / 1e6,
              r.possiblyM2() / 1e6,
              reached,
              r.targets().size(),
              (r.reserveText().isEmpty() ? "" : "; kept in reserve: " + r.reserveText())
                  + AuditTable.summary(r.drivenAgain())));
    }
    for (CorridorResult c : results.corridors()) {
      var end = c.centreline().get(c.centreline().size() - 1);
      lines.add(
          String.format(
              Locale.ROOT,
              "%s (%s): %.2f km, %s%s%s%s, %d %s%s",
              c.request().name(),
              c.vehicle(),
              end.distanceM() / 1000,
              Durations.text(end.timeS()),
              kWh(end.energyJ()),
              c.curvesS() > 0 ? ", " + Durations.text(c.curvesS()) + " of it in curves" : "",
              c.stayS() > 0
                  ? ", with stays " + Durations.text(c.wholeTimeS()) + kWh(c.wholeEnergyJ())
                  : "",
              c.alternatives().size(),
              c.alternatives().size() == 1 ? "alternative" : "alternatives",
              String.join("", c.beyond().stream().map(b -> "; " + b).toList())));
    }
    for (SheetTask.Told sheet : results.sheets()) {
      sheet.sentences().stream()
          .skip(1)
          .forEach(s -> lines.add("sheet of " + sheet.corridor() + ": " + s));
    }
    results.sorties().forEach(s -> lines.addAll(SortieLines.of(s)));
    return lines;
  }

  private static String unresolved(ShownMobility m) {
    if (m.unresolved() == null) {
      return "";
    }
    return String.format(
        Locale.ROOT,
        "; NOT RESOLVED on %.1f %% (more than half used on %.1f %%): %s",
        m.unresolved().sharePct(),
        m.unresolved().usedPct(),
        m.unresolved().limits().stream().map(Limit::label).collect(Collectors.joining(", ")));
  }

  /** Returns a phrase on the missing data that leave ground without a verdict, by areas.csv. */
  private static String unknown(ShownMobility m) {
    StringBuilder text = new StringBuilder();
    for (Limit l : List.of(Limit.VOID, Limit.ROCK_DATA, Limit.SOIL_DATA)) {
      long cells = m.cells().count(0, l.code());
      if (cells > 0) {
        text.append(text.isEmpty() ? "; NO VERDICT on " : ", ");
        double pct = 100.0 * cells / m.cells().all();
        text.append(pct < 0.05 ? "below 0.1" : String.format(Locale.ROOT, "%.1f", pct));
        text.append(" % of all cells: ").append(l.label());
        text.append(l == Limit.VOID ? " there, beside it or beyond the edge" : "");
      }
    }
    return text.toString();
  }

  /** Returns an empty text if there is no energy model. */
  private static String kWh(double energyJ) {
    return Double.isNaN(energyJ) ? "" : String.format(Locale.ROOT, ", %.2f kWh", energyJ / 3.6e6);
  }

  public static void print(PrintStream out, JobOutcome run) {
    run.messages().answers().forEach(out::println);
    run.messages().warnings().forEach(w -> out.println("warning: " + w));
    out.printf(
        Locale.ROOT,
        "%d stages in %.1f s, %d of them reused. Report: %s%n",
        run.stages().size(),
        run.wallS(),
        run.stages().values().stream().filter(StageDone::cached).count(),
        run.folder().resolve("index.html"));
  }

  /** Prints the last line of every call. */
  public static void caution(PrintStream out) {
    out.println(
        "Planning aid, not clearance to drive: flight rules, local codes and licensed practice decide.");
  }
}
