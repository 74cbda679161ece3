package org.scarpway.run.compare;

import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.geodata.table.CsvRows;

/** The answers of one run, from its tables: text by part and figure, in the order of the tables. */
final class RunAnswers {
  /**
   * What a figure is about.
   *
   * @param part stage that gave it, such as reach/day
   * @param unit empty for words
   */
  record Figure(String part, String name, String unit) {}

  static final String ARRIVAL = "time on arrival, stays included";
  static final String LENGTH = "length";

  private final ComparedRun run;
  private final Map<Figure, String> all = new LinkedHashMap<>();

  private RunAnswers(ComparedRun run) {
    this.run = run;
  }

  /**
   * @param oneVehicle true if every run has a single vehicle, whose ground is then compared
   *     whatever its name
   */
  static Map<Figure, String> of(ComparedRun run, boolean oneVehicle) {
    RunAnswers answers = new RunAnswers(run);
    for (String vehicle : run.named("mobility")) {
      answers.ground(oneVehicle ? "mobility" : "mobility/" + vehicle, vehicle);
    }
    run.named("reach").forEach(answers::reach);
    run.named("corridor").forEach(answers::corridor);
    if (run.keys().containsKey("sites")) {
      answers.sites();
    }
    return answers.all;
  }

  private List<Map<String, String>> rows(String file) {
    return CsvRows.read(run.file(file));
  }

  private void put(String part, String name, String unit, String value) {
    all.put(new Figure(part, name, unit), value);
  }

  private void ground(String part, String vehicle) {
    put(part, "vehicle", "", vehicle);
    for (Map<String, String> r : rows("mobility/" + vehicle + "/areas.csv")) {
      if (r.get("kind").equals("class")) {
        put(part, r.get("name"), "km2", r.get("area_km2"));
      }
    }
  }

  private void reach(String question) {
    String part = "reach/" + question;
    String vehicle = run.settings().get("reach." + question + ".vehicle");
    if (vehicle != null) {
      put(part, "vehicle", "", vehicle);
    }
    for (Map<String, String> r : rows(part + "/summary.csv")) {
      put(part, r.get("figure"), r.get("unit"), r.get("value"));
    }
    for (Map<String, String> r : rows(part + "/targets.csv")) {
      String of = "target " + r.get("name");
      boolean reached = r.get("reached").equals("yes");
      put(part, of, "", reached ? "reached" : "not reached: " + r.get("what_ends_it"));
      put(part, of + ", whole trip", "s", r.get("total_time_s"));
      put(part, of + ", energy", "kWh", r.get("total_energy_kwh"));
    }
  }

  private void corridor(String name) {
    String part = "corridor/" + name;
    List<Map<String, String>> stops = rows(part + "/stops.csv");
    Map<String, String> last = stops.get(stops.size() - 1);
    put(part, "order", "", String.join(", ", stops.stream().map(r -> r.get("name")).toList()));
    put(part, ARRIVAL, "s", last.get("time_s"));
    put(part, "energy on arrival", "kWh", last.get("energy_kwh"));
    put(part, LENGTH, "m", last.get("distance_m"));
    long others =
        rows(part + "/alternatives.csv").stream().filter(r -> !r.get("rank").equals("0")).count();
    put(part, "alternatives", "count", Long.toString(others));
  }

  private void sites() {
    for (Map<String, String> r : rows("sites/ranking.csv")) {
      put("sites", "rank of " + r.get("site"), "rank", r.get("rank"));
      put("sites", "ground in reach of " + r.get("site"), "km2", r.get("reach_km2"));
    }
  }

  /** The second value less the first, as exactly as both are written; empty for words and gaps. */
  static String change(Figure figure, String first, String second) {
    if (figure.unit().isEmpty() || first.isEmpty() || second.isEmpty()) {
      return "";
    }
    BigDecimal less = new BigDecimal(second).subtract(new BigDecimal(first));
    return (less.signum() > 0 ? "+" : "") + less.toPlainString();
  }
}
