package org.scarpway.flow;

import static org.scarpway.flow.JobProducts.number;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVRecord;

/**
 * Whether the timetable of a sortie keeps the hours, walks, battery and supplies that the job
 * states and its sums agree, by arithmetic on the tables alone; and whether its rings are rings.
 */
final class SortieProductsCheck {
  private static final double DAY_S = 86_400;

  /** One digit of seconds in the tables. */
  private static final double S = 0.2;

  /** Four digits of kilowatt hours in the tables, added up over a few steps. */
  private static final double KWH = 1e-3;

  private final JobProducts products;
  private final JsonNode question;
  private final JsonNode vehicle;
  private final String folder;
  private final int days;
  private final double timeKept;

  SortieProductsCheck(JobProducts products, JsonNode question, JsonNode reserves)
      throws IOException {
    this.products = products;
    this.question = question;
    this.vehicle = products.vehicleFile(question);
    this.folder = "sortie/" + question.path("name").asText() + "/";
    this.days = question.path("days").asInt();
    double pct = vehicle.path("reserves").path("time_pct").asDouble(10);
    this.timeKept = 1 - reserves.path("time_pct").asDouble(pct) / 100;
  }

  void check() throws IOException {
    rings();
    if (products.has(folder + "plan.csv")) {
      List<CSVRecord> plan = products.table(folder + "plan.csv");
      clock(plan);
      supplies(plan);
      stops(plan, products.table(folder + "stops.csv"));
    }
  }

  private void rings() throws IOException {
    float[] day = products.raster(folder + "days.tif");
    float[] state = products.raster(folder + "state.tif");
    float[] grade = products.raster("mobility/" + products.vehicle(question) + "/class.tif");
    int wrong = 0;
    int shut = 0;
    long[] surely = new long[days + 1];
    for (int i = 0; i < state.length; i++) {
      boolean reached = state[i] == 1 || state[i] == 2 || state[i] == 3;
      wrong += state[i] >= 0 && state[i] <= 3 && (day[i] > 0) == reached && day[i] <= days ? 0 : 1;
      shut += reached && grade[i] != 1 && grade[i] != 2 ? 1 : 0;
      if (state[i] == 1 || state[i] == 3) {
        surely[(int) day[i]]++;
      }
    }
    products.expect(wrong == 0, "%s%d cells with no or a wrong day", folder, wrong);
    products.expect(shut == 0, "%s%d cells reached on ground that is shut", folder, shut);
    double m2 = 0;
    for (CSVRecord row : products.table(folder + "days.csv")) {
      m2 += surely[(int) number(row, "day")] * products.spec().cellAreaM2();
      double told = number(row, "surely_m2");
      products.expect(
          Math.abs(told - m2) <= 0.1 + 1e-9 * m2, "%sday %s: %s m2", folder, row.get("day"), told);
    }
  }

  private void clock(List<CSVRecord> plan) {
    double beforeS = 0;
    CSVRecord before = null;
    String at = question.path("from").asText();
    Map<Integer, double[]> used = new HashMap<>();
    for (CSVRecord row : plan) {
      double fromS = number(row, "from_s");
      double toS = number(row, "to_s");
      int day = (int) number(row, "day");
      String act = row.get("act");
      String where = folder + "step " + row.get("step") + ": ";
      products.expect(Math.abs(fromS - beforeS) <= S && toS >= fromS, "%sa gap before", where);
      products.expect(
          row.get("from").equals(at) || near(row, before),
          "%sfrom %s, was at %s",
          where,
          row.get("from"),
          at);
      double ofDayS = fromS - (day - 1) * DAY_S;
      products.expect(ofDayS >= -S && toS <= day * DAY_S + S, "%snot on day %d", where, day);
      boolean night = act.equals("night") || act.equals("rest");
      products.expect(!night || Math.abs(toS - day * DAY_S) <= S, "%sends at %s s", where, toS);
      double[] sum = used.computeIfAbsent(day, d -> new double[3]);
      if (!night && !act.equals("reserve")) {
        sum[0] += toS - fromS;
        sum[1] += act.equals("drive") ? toS - fromS : 0;
        sum[2] += number(row, "walks");
      }
      boolean drives = act.equals("drive");
      double mostMs = vehicle.path("drive").path("speed_ms").asDouble();
      products.expect(
          drives == (number(row, "distance_m") > 0) || toS - fromS < 1, "%sdrives nowhere", where);
      products.expect(
          number(row, "distance_m") <= 1.001 * mostMs * (toS - fromS) + 1, "%stoo fast", where);
      boolean arrives = !drives || row == lastDrive(plan, row);
      boolean stands = !drives && row.get("from").equals(row.get("to"));
      at = (arrives && drives) || stands ? row.get("to") : at;
      beforeS = toS;
      before = row;
    }
    double perDayS = 3600 * timeKept * question.path("hours_a_day").asDouble(10);
    double driveS =
        Math.min(perDayS, 3600 * timeKept * question.path("drive_hours_a_day").asDouble(8));
    used.forEach(
        (day, sum) -> {
          products.expect(sum[0] <= perDayS + 10 * S, "%sday %d has %s s", folder, day, sum[0]);
          products.expect(sum[1] <= driveS + 10 * S, "%sday %d drives %s s", folder, day, sum[1]);
          products.expect(
              sum[2] <= question.path("walks_a_day").asInt(4), "%sday %d: walks", folder, day);
        });
    products.expect(used.keySet().stream().allMatch(d -> d <= days), "%stoo many days", folder);
    products.expect(
        plan.isEmpty() || at.equals(question.path("from").asText()), "%sends at %s", folder, at);
  }

  /** True if two places are in one cell or beside each other, between which nothing is driven. */
  private boolean near(CSVRecord row, CSVRecord before) {
    double cellM = 1.5 * Math.hypot(products.spec().cellXM(), products.spec().cellYM());
    return before == null
        || Math.hypot(
                number(row, "x_m") - number(before, "x_m"),
                number(row, "y_m") - number(before, "y_m"))
            <= cellM;
  }

  /** The last drive of the leg to which a drive belongs. */
  private static CSVRecord lastDrive(List<CSVRecord> plan, CSVRecord drive) {
    CSVRecord last = drive;
    for (CSVRecord row : plan.subList(plan.indexOf(drive), plan.size())) {
      boolean same =
          row.get("from").equals(drive.get("from")) && row.get("to").equals(drive.get("to"));
      if (row.get("act").equals("drive") && same) {
        last = row;
      }
    }
    return last;
  }

  private void supplies(List<CSVRecord> plan) {
    double hotelKw = vehicle.path("drive").path("hotel_w").asDouble(0) / 1000;
    double chargeKwh = question.path("night_charge_kwh").asDouble(0);
    double battery = Double.NaN;
    double lifeH = Double.NaN;
    for (CSVRecord row : plan) {
      String where = folder + "step " + row.get("step") + ": ";
      double hours = (number(row, "to_s") - number(row, "from_s")) / 3600;
      double kwh = number(row, "energy_kwh");
      boolean slept = row.get("act").equals("night") || row.get("act").equals("rest");
      if (!row.get("act").equals("drive") && !Double.isNaN(kwh)) {
        double leastKwh = hotelKw * hours - (slept ? chargeKwh : 0);
        products.expect(
            (slept && chargeKwh > 0)
                ? kwh >= leastKwh - KWH
                : Math.abs(kwh - leastKwh) <= KWH + 1e-4 * hours,
            "%s%s kWh in %s h",
            where,
            kwh,
            hours);
      }
      double left = number(row, "battery_kwh");
      products.expect(
          Double.isNaN(battery) || Math.abs(battery - kwh - left) <= KWH, "%sbattery", where);
      products.expect(!(number(row, "battery_spare_kwh") < -KWH), "%sbattery below", where);
      double aliveH = number(row, "life_support_h");
      products.expect(
          Double.isNaN(lifeH) || Math.abs(lifeH - hours - aliveH) <= 1e-3, "%ssupplies", where);
      products.expect(!(number(row, "life_support_spare_h") < -1e-3), "%ssupplies below", where);
      battery = left;
      lifeH = aliveH;
    }
  }

  private void stops(List<CSVRecord> plan, List<CSVRecord> stops) {
    float[] state = products.raster(folder + "state.tif");
    for (CSVRecord stop : stops) {
      boolean done = stop.get("done").equals("yes");
      List<CSVRecord> there =
          plan.stream()
              .filter(r -> r.get("act").equals("stop") || r.get("act").equals("walk"))
              .filter(r -> r.get("from").equals(stop.get("name")))
              .toList();
      String where = folder + "stop " + stop.get("name") + ": ";
      products.expect(
          there.size() == (done ? 1 : 0), "%s%d times in the plan", where, there.size());
      products.expect(done == stop.get("why_not").isEmpty(), "%swhy %s", where, done);
      int cell = products.spec().cellOf(number(stop, "x_m"), number(stop, "y_m"));
      products.expect(!done || state[cell] != 0, "%sdone on ground out of reach", where);
      if (done && there.size() == 1) {
        CSVRecord stay = there.get(0);
        double lastsS = number(stay, "to_s") - number(stay, "from_s");
        products.expect(
            Math.abs(lastsS - 60 * number(stop, "stay_min")) <= 4, "%slasts %s s", where, lastsS);
        products.expect(stay.get("day").equals(stop.get("day")), "%sanother day", where);
        products.expect(stay.get("walks").equals(stop.get("walks")), "%swalks", where);
      }
      products.expect(done || plan.isEmpty() || !stop.get("must").equals("yes"), "%smust", where);
    }
  }
}
