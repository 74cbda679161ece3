package org.scarpway.validation;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.scarpway.sortie.Act;
import org.scarpway.sortie.DayClock;
import org.scarpway.sortie.DayRules;
import org.scarpway.sortie.Doing;
import org.scarpway.sortie.HomeRule;
import org.scarpway.sortie.Leg;
import org.scarpway.sortie.Legs;
import org.scarpway.sortie.Orienteering;
import org.scarpway.sortie.SeededSorties;
import org.scarpway.sortie.Sortie;
import org.scarpway.sortie.SortiePlan;
import org.scarpway.sortie.SortieSolver;
import org.scarpway.sortie.SortieStop;
import org.scarpway.sortie.WaysHome;

/** Sorties against published optima, another solver and closed forms. */
class SortieCheck {
  private static final String OPTIMA =
      "points of Tsiligirides 1984; optima as tabled by Chao, Golden and Wasil 1996, and proven by"
          + " OR-Tools CP-SAT";
  private static final String HOTEL =
      "Divsalar, Vansteenwegen and Cattrysse 2013: optimum by construction of the set; proven by"
          + " OR-Tools CP-SAT";
  private static final String OTHER = "OR-Tools CP-SAT, one circuit with clock, day and energy";
  private static final String OWN = "own derivation";
  private static final double HOUR_S = 3600;
  private static final double INF = Double.POSITIVE_INFINITY;

  @Test
  void orienteeringOfThirtyPoints() throws IOException {
    double[] lengths = {5, 10, 15, 20, 25, 30, 35, 40, 46, 50, 55, 60, 65, 70, 73, 75, 80, 85};
    double[] scores = {
      10, 15, 45, 65, 90, 110, 135, 155, 175, 190, 205, 225, 240, 260, 265, 270, 280, 285
    };
    tours("P1", lengths, scores);
  }

  @Test
  void orienteeringOfNineteenPoints() throws IOException {
    tours(
        "P2",
        new double[] {15, 20, 25, 30, 35, 40, 45},
        new double[] {120, 200, 230, 265, 320, 395, 450});
  }

  @Test
  void orienteeringOfThirtyOnePoints() throws IOException {
    tours("P3", new double[] {15, 20, 25, 35, 40}, new double[] {170, 200, 260, 390, 430});
  }

  private static void tours(String set, double[] lengths, double[] scores) throws IOException {
    Orienteering points = new Orienteering(set);
    for (int k = 0; k < lengths.length; k++) {
      SortiePlan plan = SortieSolver.solve(points.tour(lengths[k]), 400_000);
      String id = String.format(Locale.ROOT, "9.1-%s-%.0f", set, lengths[k]);
      String what =
          String.format(Locale.ROOT, "orienteering, set %s, length %.0f", set, lengths[k]);
      Validation.near(id, "score of " + what, OPTIMA, "M", scores[k], plan.value(), 0);
      Validation.holds(
          id + "-bound", "bound not below it: " + what, OPTIMA, "M", plan.atMost() >= scores[k]);
    }
  }

  /** Two trips of different lengths with the night at a given place. */
  @Test
  void twoTripsWithANightAtAHotel() throws IOException {
    Sortie s = new Orienteering("P1").twoTours(33.5621 + 1e-4, 31.1548 + 1e-4);
    SortiePlan plan = SortieSolver.solve(s, 1_000_000);
    Validation.near(
        "9.2-hotel",
        "orienteering with hotel selection, 30 stops, trips of 33.5621 and 31.1548: score",
        HOTEL,
        "M",
        240,
        plan.value(),
        0);
  }

  @Test
  void plainSortiesOfAnotherSolver() {
    int[][] asked = {{12, 4, 40}, {12, 8, 92}, {15, 8, 102}, {20, 8, 142}};
    for (int[] a : asked) {
      SortiePlan plan = SortieSolver.solve(SeededSorties.plain(a[0], a[1], 100 + a[0]));
      String what = "value of " + a[0] + " seeded stops over " + a[1] + " days";
      Validation.near("9.3-seeded-" + a[0] + "-" + a[1], what, OTHER, "R", a[2], plan.value(), 0);
      Validation.holds(
          "9.3-proven-" + a[0] + "-" + a[1], "proven: " + what, OTHER, "R", plan.isProven());
    }
  }

  /** A line, 8 h of driving a day, no other limit: half of N x 8 h is the farthest place. */
  @Test
  void farthestPlaceOfALine() {
    double speedMS = 3;
    for (int days = 1; days <= 14; days++) {
      Validation.near(
          String.format(Locale.ROOT, "9.4-line-%02d", days),
          "farthest place of a line and home by day " + days + ", nights anywhere (m)",
          OWN + ": N x 8 h x v / 2",
          "C",
          days * 8 * HOUR_S * speedMS / 2,
          farthestM(days, speedMS, false),
          0.01);
      Validation.near(
          String.format(Locale.ROOT, "9.4-base-%02d", days),
          "the same with nights at the base only (m)",
          OWN + ": 8 h x v / 2",
          "C",
          8 * HOUR_S * speedMS / 2,
          farthestM(days, speedMS, true),
          0.01);
    }
  }

  private static double farthestM(int days, double speedMS, boolean campsOnly) {
    double near = 0;
    double far = 1e7;
    while (far - near > 1e-3) {
      double m = (near + far) / 2;
      Sortie s = oneStop(rules(days, 8, 8, campsOnly), m / speedMS, 0, false);
      boolean reached = SortieSolver.solve(s).value() > 0;
      near = reached ? m : near;
      far = reached ? far : m;
    }
    return near;
  }

  /** A stay that fits today ends today; one a second longer is made tomorrow. */
  @Test
  void aStayLiesInOneDay() {
    DayRules rules = rules(3, 8, 8, false);
    SortieStop fits = SortieStop.free("A", 1, 3 * HOUR_S, 0);
    SortieStop longer = SortieStop.free("A", 1, 3 * HOUR_S + 1, 0);
    Validation.near(
        "9.5-fits", "day of a stay of 3 h with 3 h left", OWN, "C", 0, day(rules, fits), 0);
    Validation.near(
        "9.5-longer", "day of a stay of 3 h 1 s with 3 h left", OWN, "C", 1, day(rules, longer), 0);
  }

  private static int day(DayRules rules, SortieStop stop) {
    DayClock c = new DayClock(rules, HomeRule.DRIVE_BACK);
    c.drive(Leg.even(5 * HOUR_S, 0));
    c.stop(stop);
    return c.day();
  }

  /** 20 h of driving, 1 h of stay, 20 h back are 41 h: five days of 10 h, not four. */
  @Test
  void aStopTwentyHoursAway() {
    for (int days = 1; days <= 7; days++) {
      Sortie s = oneStop(rules(days, 10, 10, false), 20 * HOUR_S, HOUR_S, false);
      Validation.near(
          "9.6-twenty-hours-" + days,
          "stop at 20 h, stay 1 h, 10 h a day: made in " + days + " days (1) or not (0)",
          OWN,
          "C",
          days >= 5 ? 1 : 0,
          SortieSolver.solve(s).value(),
          0);
    }
  }

  /** Walks of three and four a day at 15 km/h, two weeks: about a thousand kilometres. */
  @Test
  void twoWeeksAreAboutAThousandKilometres() {
    // A ring of 28 stops, each with two walks of an hour, ten minutes out and as long in.
    int n = 28;
    double kmApart = 35;
    List<SortieStop> stops = new ArrayList<>();
    double[] xKm = new double[n + 1];
    double[] yKm = new double[n + 1];
    double radiusKm = (n + 1) * kmApart / (2 * Math.PI);
    for (int k = 0; k <= n; k++) {
      xKm[k] = radiusKm * Math.cos(2 * Math.PI * k / (n + 1));
      yKm[k] = radiusKm * Math.sin(2 * Math.PI * k / (n + 1));
      if (k > 0) {
        stops.add(SortieStop.free("S" + k, 1, 0.5 * HOUR_S, 2));
      }
    }
    List<List<List<Leg>>> legs = new ArrayList<>();
    for (int i = 0; i <= n; i++) {
      legs.add(new ArrayList<>());
      for (int j = 0; j <= n; j++) {
        double km = Math.hypot(xKm[i] - xKm[j], yKm[i] - yKm[j]);
        legs.get(i).add(List.of(Leg.even(km / 15 * HOUR_S, 0)));
      }
    }
    DayRules rules =
        new DayRules(14, 10 * HOUR_S, 8 * HOUR_S, 4, 600, 600, INF, 0, 0, 0, INF, 0, false);
    SortiePlan plan =
        SortieSolver.solve(new Sortie(rules, HomeRule.DRIVE_BACK, stops, new Legs(legs)), 100_000);
    double drivenS =
        plan.acts().stream()
            .filter(a -> a.what() == Doing.DRIVE)
            .mapToDouble(a -> a.toS() - a.fromS())
            .sum();
    int walks = plan.acts().stream().mapToInt(Act::walks).sum();
    String practice = "common practice, no source";
    Validation.near(
        "9.7-kilometres",
        "two weeks at 15 km/h with walks: driven (km)",
        practice,
        "P",
        1000,
        drivenS / HOUR_S * 15,
        200);
    Validation.near(
        "9.7-walks", "walks a day of such a sortie", practice, "P", 3.5, walks / 14.0, 1);
  }

  private static DayRules rules(int days, double hours, double drive, boolean campsOnly) {
    return new DayRules(
        days, hours * HOUR_S, drive * HOUR_S, 4, 0, 0, INF, 0, 0, 0, INF, 0, campsOnly);
  }

  private static Sortie oneStop(DayRules rules, double driveS, double stayS, boolean camp) {
    SortieStop stop =
        new SortieStop("A", 1, stayS, 0, false, Set.of(), 0, INF, camp, WaysHome.AT_HOME);
    List<Leg> way = List.of(Leg.even(driveS, 0));
    Legs legs = new Legs(List.of(List.of(List.of(), way), List.of(way, List.of())));
    return new Sortie(rules, HomeRule.DRIVE_BACK, List.of(stop), legs);
  }
}
