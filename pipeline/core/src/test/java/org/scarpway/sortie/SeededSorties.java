package org.scarpway.sortie;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;

/** Sortie questions drawn from a seed. */
public final class SeededSorties {
  private static final double HOUR_S = 3600;
  private static final double KWH_J = 3.6e6;

  private SeededSorties() {}

  /**
   * Stops within 20 to 120 km of the base, 8 km/h and 0.35 kWh/km each within a tenth, ten hours
   * and four walks a day, a battery of 200 kWh of which a night gives 15 back: the instances of
   * which best values are known from elsewhere.
   */
  public static Sortie plain(int n, int days, long seed) {
    Random r = new Random(seed);
    double[] xKm = new double[n + 1];
    double[] yKm = new double[n + 1];
    for (int i = 1; i <= n; i++) {
      double angle = 2 * Math.PI * r.nextDouble();
      double km = 20 + 100 * Math.sqrt(r.nextDouble());
      xKm[i] = km * Math.cos(angle);
      yKm[i] = km * Math.sin(angle);
    }
    double[][] hours = new double[n + 1][n + 1];
    double[][] kwh = new double[n + 1][n + 1];
    for (int i = 0; i <= n; i++) {
      for (int j = 0; j <= n; j++) {
        double km = Math.hypot(xKm[i] - xKm[j], yKm[i] - yKm[j]);
        double slower = 0.9 + 0.2 * r.nextDouble();
        double thirstier = 0.9 + 0.2 * r.nextDouble();
        hours[i][j] = i == j ? 0 : km / 8 * slower;
        kwh[i][j] = i == j ? 0 : 0.35 * km * thirstier;
      }
    }
    closed(hours);
    closed(kwh);
    List<SortieStop> stops = new ArrayList<>();
    for (int i = 1; i <= n; i++) {
      double stayS = (1 + 3 * r.nextDouble()) * HOUR_S;
      int value = 1 + r.nextInt(20);
      stops.add(SortieStop.free("S" + i, value, stayS, 1 + r.nextInt(2)));
    }
    List<List<List<Leg>>> legs = new ArrayList<>();
    for (int i = 0; i <= n; i++) {
      legs.add(new ArrayList<>());
      for (int j = 0; j <= n; j++) {
        legs.get(i).add(List.of(Leg.even(hours[i][j] * HOUR_S, kwh[i][j] * KWH_J)));
      }
    }
    return new Sortie(rules(days, 10, 4, 200, 15), HomeRule.DRIVE_BACK, stops, new Legs(legs));
  }

  /** Rules without reserve, load and life support. */
  public static DayRules rules(int days, double hours, int walks, double kwh, double nightKwh) {
    return new DayRules(
        days,
        hours * HOUR_S,
        hours * HOUR_S,
        walks,
        0,
        0,
        kwh * KWH_J,
        0,
        nightKwh * KWH_J,
        0,
        Double.POSITIVE_INFINITY,
        0,
        false);
  }

  private static void closed(double[][] d) {
    int n = d.length;
    for (int k = 0; k < n; k++) {
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          d[i][j] = Math.min(d[i][j], d[i][k] + d[k][j]);
        }
      }
    }
  }

  /**
   * Questions with everything: legs of pieces and two ways, hills, camps, windows, order, must,
   * loads, life support and each home rule.
   */
  public static Sortie rich(int n, long seed) {
    Random r = new Random(seed);
    HomeRule.Kind kind = HomeRule.Kind.values()[(int) Math.floorMod(seed, 4L)];
    HomeRule home = new HomeRule(kind, 1800, 3600, 900, r.nextBoolean());
    int days = 2 + r.nextInt(4);
    double batteryKwh = 20 + 40 * r.nextDouble();
    boolean tight = kind != HomeRule.Kind.DRIVE_BACK || r.nextInt(3) == 0;
    DayRules rules =
        new DayRules(
            days,
            (7 + 3 * r.nextDouble()) * HOUR_S,
            (4 + 4 * r.nextDouble()) * HOUR_S,
            2 + r.nextInt(3),
            r.nextInt(2) * 600,
            300,
            batteryKwh * KWH_J,
            2 * KWH_J,
            r.nextInt(3) * 6 * KWH_J,
            r.nextInt(3) * 150,
            tight ? (days + 2.5 * r.nextDouble()) * DayRules.DAY_S : Double.POSITIVE_INFINITY,
            3600,
            r.nextInt(3) == 0);
    double[] xKm = new double[n + 1];
    double[] yKm = new double[n + 1];
    for (int i = 1; i <= n; i++) {
      double angle = 2 * Math.PI * r.nextDouble();
      double km = 3 + 60 * r.nextDouble();
      xKm[i] = km * Math.cos(angle);
      yKm[i] = km * Math.sin(angle);
    }
    List<List<List<Leg>>> legs = new ArrayList<>();
    for (int i = 0; i <= n; i++) {
      legs.add(new ArrayList<>());
      for (int j = 0; j <= n; j++) {
        List<Leg> ways = new ArrayList<>();
        for (int w = 0; i != j && w < 1 + r.nextInt(2); w++) {
          ways.add(leg(r, xKm, yKm, i, j, w));
        }
        legs.get(i).add(ways);
      }
    }
    List<SortieStop> stops = new ArrayList<>();
    for (int i = 1; i <= n; i++) {
      Set<Integer> after = new HashSet<>();
      if (i > 1 && r.nextInt(5) == 0) {
        after.add(1 + r.nextInt(i - 1));
      }
      double opensS = r.nextInt(4) == 0 ? r.nextDouble() * days * DayRules.DAY_S : 0;
      double closesS =
          r.nextInt(4) == 0
              ? opensS + (0.2 + r.nextDouble()) * DayRules.DAY_S
              : Double.POSITIVE_INFINITY;
      stops.add(
          new SortieStop(
              "S" + i,
              1 + r.nextInt(9),
              (0.5 + 3 * r.nextDouble()) * HOUR_S,
              r.nextInt(3),
              r.nextInt(12) == 0,
              after,
              opensS,
              closesS,
              r.nextBoolean(),
              ways(r, Math.hypot(xKm[i], yKm[i]))));
    }
    return new Sortie(rules, home, stops, new Legs(legs));
  }

  private static Leg leg(Random r, double[] xKm, double[] yKm, int i, int j, int w) {
    int pieces = 1 + r.nextInt(4);
    double km = Math.hypot(xKm[i] - xKm[j], yKm[i] - yKm[j]) / pieces;
    List<Piece> list = new ArrayList<>();
    for (int p = 0; p < pieces; p++) {
      double share = (p + 0.5) / pieces;
      double homeKm =
          Math.hypot(xKm[i] + share * (xKm[j] - xKm[i]), yKm[i] + share * (yKm[j] - yKm[i]));
      double kwh = km * (0.45 - 0.15 * w) * (r.nextInt(6) == 0 ? -0.2 : 1);
      list.add(
          Piece.along(
              km / (8 - 2 * w) * (0.9 + 0.2 * r.nextDouble()) * HOUR_S,
              kwh * KWH_J,
              -r.nextInt(2) * 0.1 * Math.abs(kwh) * KWH_J,
              r.nextInt(2) * 1.1 * Math.abs(kwh) * KWH_J,
              r.nextBoolean(),
              ways(r, homeKm + km / 2)));
    }
    return new Leg(list);
  }

  private static WaysHome ways(Random r, double km) {
    double driveS = km / 6 * HOUR_S;
    boolean far = r.nextInt(30) == 0;
    return new WaysHome(
        driveS,
        km * 0.4 * KWH_J,
        r.nextInt(2) * 0.2 * KWH_J,
        km / 8 * HOUR_S,
        far ? Double.POSITIVE_INFINITY : km / 3 * HOUR_S);
  }
}
