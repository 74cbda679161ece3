package org.scarpway.flow;

import static org.scarpway.flow.JobProducts.number;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.List;
import org.apache.commons.csv.CSVRecord;

/** Whether totals, legs, lines and corridor of one corridor question agree. */
final class CorridorProductsCheck {
  private final JobProducts products;
  private final JsonNode question;
  private final String folder;

  CorridorProductsCheck(JobProducts products, JsonNode question) {
    this.products = products;
    this.question = question;
    this.folder = "corridor/" + question.path("name").asText() + "/";
  }

  void check() throws IOException {
    List<CSVRecord> stops = products.table(folder + "stops.csv");
    List<CSVRecord> ways = products.table(folder + "alternatives.csv");
    List<CSVRecord> profile = products.table(folder + "profile.csv");
    List<CSVRecord> legs = products.table(folder + "route.csv");
    products.expect(
        stops.size() >= 2
            && !ways.isEmpty()
            && !profile.isEmpty()
            && legs.size() == stops.size() - 1,
        "%s%d stops, %d ways, %d points, %d legs",
        folder,
        stops.size(),
        ways.size(),
        profile.size(),
        legs.size());
    if (stops.size() < 2 || ways.isEmpty() || profile.isEmpty()) {
      return;
    }
    rising(stops, "stops.csv");
    rising(profile, "profile.csv");
    totals(stops, ways.get(0), profile.get(profile.size() - 1), legs);
    double mostShared = question.path("shared_pct").asDouble(50);
    for (CSVRecord way : ways.subList(1, ways.size())) {
      products.expect(
          number(way, "excess_pct") >= 0 && number(way, "shared_pct") <= mostShared + 0.051,
          "%salternative %s: excess %s %%, shared %s of %s %%",
          folder,
          way.get("rank"),
          way.get("excess_pct"),
          way.get("shared_pct"),
          mostShared);
    }
    corridor(profile);
    tradeOffs();
  }

  private void rising(List<CSVRecord> rows, String file) {
    double timeS = 0;
    double distanceM = 0;
    for (CSVRecord row : rows) {
      boolean rises = number(row, "time_s") >= timeS && number(row, "distance_m") >= distanceM;
      products.expect(rises, "%s%s: falls back or is unknown at %s", folder, file, row.toMap());
      if (!rises) {
        return;
      }
      timeS = number(row, "time_s");
      distanceM = number(row, "distance_m");
    }
  }

  private void totals(List<CSVRecord> stops, CSVRecord way, CSVRecord end, List<CSVRecord> legs) {
    CSVRecord last = stops.get(stops.size() - 1);
    double distanceM = number(way, "distance_m");
    double lengthM = 0;
    for (int i = 0; i < legs.size(); i++) {
      lengthM += number(legs.get(i), "length_m");
      products.expect(
          legs.get(i).get("from").equals(stops.get(i).get("name"))
              && legs.get(i).get("to").equals(stops.get(i + 1).get("name")),
          "%sleg %d goes elsewhere than the stops",
          folder,
          i + 1);
    }
    products.expect(
        Math.abs(lengthM - distanceM) <= 0.06 * (legs.size() + 1)
            && Math.abs(number(last, "distance_m") - distanceM) <= 0.06 * (legs.size() + 1)
            && Math.abs(number(end, "distance_m") - distanceM) <= 0.06 * (legs.size() + 1),
        "%sways of %s, stops of %s, profile of %s, legs of %s m",
        folder,
        distanceM,
        last.get("distance_m"),
        end.get("distance_m"),
        lengthM);
    // Stops are arrived at after the stays at those before.
    double stayS = 0;
    for (CSVRecord stop : stops.subList(0, stops.size() - 1)) {
      stayS += 60 * number(stop, "stay_min");
    }
    products.expect(
        Math.abs(number(last, "time_s") - stayS - number(way, "time_s")) <= 0.11
            && Math.abs(number(end, "time_s") - number(way, "time_s")) <= 0.11,
        "%sways take %s, stops %s with stays of %s, profile %s s",
        folder,
        way.get("time_s"),
        last.get("time_s"),
        stayS,
        end.get("time_s"));
  }

  /**
   * The line lies in its own corridor, unless turning makes it dearer than the widest of these.
   * Nothing in it is better than the best.
   */
  private void corridor(List<CSVRecord> profile) throws IOException {
    float[] excess = products.raster(folder + "excess_pct.tif");
    float least = Float.POSITIVE_INFINITY;
    for (float e : excess) {
      least = Math.min(least, Float.isNaN(e) ? least : e);
    }
    products.expect(least >= 0 && least < 1e-3, "%sleast excess %s %%", folder, least);
    int outside = 0;
    for (CSVRecord p : profile) {
      outside += inside(excess, number(p, "x_m"), number(p, "y_m")) ? 0 : 1;
    }
    JsonNode within = question.path("within_pct");
    double widestPct = within.isEmpty() ? 5 : within.get(within.size() - 1).asDouble();
    products.expect(
        outside == 0 || products.turningPct(folder) > widestPct,
        "%s%d of %d points of the line leave its corridor",
        folder,
        outside,
        profile.size());
  }

  /** Two decimals of a place on a border may lie in any of the cells that meet there. */
  private boolean inside(float[] excess, double xM, double yM) {
    for (double eastM : new double[] {-0.01, 0.01}) {
      for (double northM : new double[] {-0.01, 0.01}) {
        int cell = products.spec().cellOf(xM + eastM, yM + northM);
        if (cell >= 0 && excess[cell] >= 0) {
          return true;
        }
      }
    }
    return false;
  }

  private void tradeOffs() throws IOException {
    if (question.path("trade_offs").asInt() == 0) {
      return;
    }
    List<CSVRecord> ways = products.table(folder + "trade_offs.csv");
    for (CSVRecord a : ways) {
      products.expect(
          number(a, "time_s") >= 0 && number(a, "hazard_m") >= 0 && number(a, "distance_m") >= 0,
          "%strade-off %s",
          folder,
          a.toMap());
      for (CSVRecord b : ways) {
        products.expect(
            !(number(b, "time_s") < number(a, "time_s")
                && !(number(b, "energy_j") > number(a, "energy_j"))
                && number(b, "hazard_m") < number(a, "hazard_m")),
            "%strade-off %s is better than %s in all three",
            folder,
            b.get("way"),
            a.get("way"));
      }
    }
  }
}
