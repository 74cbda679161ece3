package org.scarpway.flow;

import static org.scarpway.flow.JobProducts.number;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.apache.commons.csv.CSVRecord;

/** Whether states, times and tables of one reach question agree. */
final class ReachProductsCheck {
  /** float32 storage and one digit of the tables. */
  private static final double REL = 1e-5;

  /** Times of fronts are up to 3 % too long, by the limits of validity in README.md. */
  private static final double SCHEME = 0.03;

  private final JobProducts products;
  private final JsonNode question;
  private final String folder;
  private final double budgetS;
  private final double stayS;
  private final String home;

  ReachProductsCheck(JobProducts products, JsonNode question) {
    this.products = products;
    this.question = question;
    this.folder = "reach/" + question.path("name").asText() + "/";
    this.budgetS =
        question.path("budget").path("drive_h").asDouble(Double.POSITIVE_INFINITY) * 3600;
    this.stayS = Double.parseDouble(question.path("stay").asText("0min").replace("min", "")) * 60;
    this.home = question.path("home").asText();
  }

  void check() throws IOException {
    states();
    targets();
    for (CSVRecord row : products.table(folder + "summary.csv")) {
      boolean place = row.get(0).contains(" coordinate ");
      products.expect(
          place || !(number(row, "value") < 0), "%s%s = %s", folder, row.get(0), row.get(1));
      limitsNotResolved(row);
    }
    for (CSVRecord row : products.table(folder + "pinch_points.csv")) {
      double share = number(row, "share_behind_pct");
      products.expect(number(row, "width_m") > 0, "%spinch point of %s m", folder, row.get(2));
      products.expect(share >= 0 && share <= 100, "%s%s %% behind", folder, row.get(4));
    }
    byBudget();
  }

  /** Areas grow with the budget, from no more than at most to those of the summary. */
  private void byBudget() throws IOException {
    double surely = figure("surely reachable area");
    double possibly = figure("possibly reachable area, undecided");
    double before = 0;
    String quantity = "";
    for (CSVRecord row : products.table(folder + "by_budget.csv")) {
      before = row.get("quantity").equals(quantity) ? before : 0;
      quantity = row.get("quantity");
      double now = number(row, "surely_km2");
      double most = number(row, "at_most_km2");
      products.expect(now >= before && now <= most, "%sby_budget.csv: %s", folder, row);
      boolean all = number(row, "share_pct") == 100;
      products.expect(
          !all || (Math.abs(now - surely) < 2e-6 && Math.abs(most - surely - possibly) < 4e-6),
          "%sby_budget.csv: %s, but %s and %s km2 in the summary",
          folder,
          row,
          surely,
          possibly);
      before = now;
    }
  }

  private double figure(String name) throws IOException {
    for (CSVRecord row : products.table(folder + "summary.csv")) {
      if (row.get("figure").equals(name)) {
        return number(row, "value");
      }
    }
    products.expect(false, "%ssummary.csv has no %s", folder, name);
    return Double.NaN;
  }

  /** All ground that is reached is open, where the same limits are not shown as on any other. */
  private void limitsNotResolved(CSVRecord row) throws IOException {
    boolean area = row.get("unit").equals("km2") && row.get("figure").contains("reachable area");
    Set<String> told = new TreeSet<>();
    if (!row.get("limits_not_resolved").isEmpty()) {
      told.addAll(List.of(row.get("limits_not_resolved").split("; ")));
    }
    Set<String> there = new TreeSet<>();
    for (CSVRecord r : products.table("mobility/" + products.vehicle(question) + "/areas.csv")) {
      if (r.get("kind").equals("not resolved")) {
        there.add(r.get("name"));
      }
    }
    boolean band = row.get("figure").startsWith("area within ");
    products.expect(
        told.equals(area || band ? there : Set.of()),
        "%s%s rests on %s, not resolved is %s",
        folder,
        row.get("figure"),
        told,
        there);
  }

  private void states() throws IOException {
    float[] state = products.raster(folder + "state.tif");
    float[] timeS = products.raster(folder + "time_s.tif");
    float[] homeS = products.raster(folder + "home_time_s.tif");
    float[] distanceM = products.raster(folder + "distance_m.tif");
    float[] grade = products.raster("mobility/" + products.vehicle(question) + "/class.tif");
    double most = budgetS * (1 + REL) + 1e-3;
    int unknown = 0;
    int late = 0;
    int shut = 0;
    for (int i = 0; i < state.length; i++) {
      unknown += state[i] == 0 || state[i] == 1 || state[i] == 2 ? 0 : 1;
      if (state[i] == 1 || state[i] == 2) {
        double totalS = timeS[i] + stayS + (home.equals("drive-back") ? homeS[i] : 0);
        late += timeS[i] >= 0 && totalS <= most && distanceM[i] >= 0 ? 0 : 1;
        shut += grade[i] == 1 || grade[i] == 2 ? 0 : 1;
      }
    }
    products.expect(unknown == 0, "%sstate.tif: %d unknown codes", folder, unknown);
    products.expect(late == 0, "%s%d cells reached without or beyond their time", folder, late);
    products.expect(shut == 0, "%s%d cells reached on ground that is shut", folder, shut);
  }

  private void targets() throws IOException {
    float[] state = products.raster(folder + "state.tif");
    float[] timeS = products.raster(folder + "time_s.tif");
    for (CSVRecord row : products.table(folder + "targets.csv")) {
      String name = row.get("name");
      int cell = products.spec().cellOf(number(row, "x_m"), number(row, "y_m"));
      double outS = number(row, "out_time_s");
      // Two decimals may lie across the border of a cell.
      boolean border =
          cell != products.spec().cellOf(number(row, "x_m") + 0.01, number(row, "y_m") + 0.01)
              || cell
                  != products.spec().cellOf(number(row, "x_m") - 0.01, number(row, "y_m") - 0.01);
      if (cell < 0 || border) {
        continue;
      }
      boolean reached = row.get("reached").equals("yes");
      // What is not reached may have no time; the way that meets every budget may not be the
      // quickest, and the least time of the raster may be too long by the error of its scheme.
      products.expect(
          Double.isNaN(outS) ? !reached : outS - timeS[cell] >= -0.051 - SCHEME * outS,
          "%starget %s: out %s s, raster %s s",
          folder,
          name,
          row.get("out_time_s"),
          timeS[cell]);
      if (number(row, "stay_min") * 60 == stayS) {
        products.expect(
            reached == (state[cell] == 1),
            "%starget %s: reached %s, state %s",
            folder,
            name,
            row.get("reached"),
            state[cell]);
      }
      products.expect(
          !(reached && number(row, "time_spare_s") < -0.05),
          "%starget %s: %s s left",
          folder,
          name,
          row.get("time_spare_s"));
    }
  }
}
