package org.scarpway.run;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.run.closing.JobOutcome;
import org.scarpway.run.ground.StageNeeds;
import org.scarpway.run.plan.JobPlan;
import org.scarpway.run.progress.StageDone;
import org.scarpway.vehicle.Vehicle;

/** Table of the runs of one call, one line for each run with how it ended. */
final class RunTable {
  private static final List<String> KINDS =
      List.of(
          "terrain",
          "derivatives",
          "slope-error",
          "light",
          "contact",
          "hazard",
          "mobility",
          "reach",
          "corridor",
          "sites",
          JobPlan.REPORT);

  private RunTable() {}

  /**
   * One run.
   *
   * @param seconds wall time by kind of stage
   */
  record Row(
      String name,
      String vehicles,
      Map<String, Double> seconds,
      double wallS,
      String reused,
      int warnings,
      int code,
      String why) {

    static Row of(Job job, JobOutcome run) {
      Map<String, Double> seconds = new LinkedHashMap<>();
      run.stages().forEach((id, d) -> seconds.merge(StageNeeds.kind(id), d.wallS(), Double::sum));
      seconds.put(JobPlan.REPORT, run.report().wallS());
      long cached = run.stages().values().stream().filter(StageDone::cached).count();
      return new Row(
          job.name(),
          String.join(" ", job.vehicles().stream().map(Vehicle::name).toList()),
          seconds,
          run.wallS(),
          cached + "/" + run.stages().size(),
          run.messages().warnings().size(),
          run.failures().isEmpty() ? 0 : 3,
          run.failures().isEmpty() ? "done" : "failed: " + run.failures().get(0).getMessage());
    }

    /** True if the run got as far as its report. */
    boolean reported() {
      return !Double.isNaN(wallS);
    }

    static Row failed(String name, int code, String line) {
      String first = line.lines().findFirst().orElse("");
      return new Row(name, "", Map.of(), Double.NaN, "", 0, code, "failed: " + first);
    }
  }

  static void print(PrintStream out, List<Row> rows) {
    List<List<String>> table = new ArrayList<>();
    List<String> head = new ArrayList<>(List.of("job", "vehicles"));
    KINDS.forEach(k -> head.add(k + " s"));
    head.addAll(List.of("all s", "reused", "warnings", "code", "end"));
    table.add(head);
    for (Row r : rows) {
      List<String> line = new ArrayList<>(List.of(r.name, r.vehicles));
      KINDS.forEach(k -> line.add(number(r.seconds.getOrDefault(k, Double.NaN))));
      line.add(number(r.wallS));
      line.addAll(List.of(r.reused, String.valueOf(r.warnings), String.valueOf(r.code), r.why));
      table.add(line);
    }
    int[] width = new int[head.size() - 1];
    for (List<String> line : table) {
      for (int i = 0; i < width.length; i++) {
        width[i] = Math.max(width[i], line.get(i).length());
      }
    }
    for (List<String> line : table) {
      StringBuilder s = new StringBuilder();
      for (int i = 0; i < width.length; i++) {
        String align = i < 2 ? "%-" : "%";
        s.append(String.format(Locale.ROOT, align + width[i] + "s  ", line.get(i)));
      }
      out.println(s.append(line.get(width.length)));
    }
  }

  private static String number(double v) {
    return Double.isNaN(v) ? "" : String.format(Locale.ROOT, "%.1f", v);
  }
}
