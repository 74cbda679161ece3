package org.scarpway.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.scarpway.sortie.DayRules;
import org.scarpway.sortie.HomeRule;
import org.scarpway.sortie.Leg;
import org.scarpway.sortie.Legs;
import org.scarpway.sortie.Sortie;
import org.scarpway.sortie.SortieStop;

/**
 * Sorties drawn from a seed: stops within 20 to 120 km of the base, 8 km/h and 0.35 kWh/km each
 * within a tenth, stays of 1 to 4 hours with one or two walks, values 1 to 20; days of ten hours
 * with four walks, 200 kWh of which a night gives 15 back.
 */
final class SortieInstances {
  private static final double HOUR_S = 3600;
  private static final double KWH_J = 3.6e6;

  private SortieInstances() {}

  static Sortie of(int n, int days, long seed) {
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
    double dayS = 10 * HOUR_S;
    double inf = Double.POSITIVE_INFINITY;
    DayRules rules =
        new DayRules(days, dayS, dayS, 4, 0, 0, 200 * KWH_J, 0, 15 * KWH_J, 0, inf, 0, false);
    return new Sortie(rules, HomeRule.DRIVE_BACK, stops, new Legs(legs));
  }

  /** Ways over other places where they are shorter. */
  private static void closed(double[][] d) {
    for (int k = 0; k < d.length; k++) {
      for (int i = 0; i < d.length; i++) {
        for (int j = 0; j < d.length; j++) {
          d[i][j] = Math.min(d[i][j], d[i][k] + d[k][j]);
        }
      }
    }
  }
}
