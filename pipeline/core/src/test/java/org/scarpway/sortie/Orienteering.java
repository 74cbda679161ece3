package org.scarpway.sortie;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Published orienteering points as sorties: one tour of a given length from the first point to the
 * second, or several with nights at a third. A unit of length is a thousand seconds.
 */
public final class Orienteering {
  private static final double UNIT_S = 1000;

  private final List<double[]> points = new ArrayList<>();

  /** Points of a set of the resource, in its order: x, y, score. */
  public Orienteering(String set) throws IOException {
    try (InputStream in = Orienteering.class.getResourceAsStream("/validation/orienteering.csv");
        BufferedReader r = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      for (String line = r.readLine(); line != null; line = r.readLine()) {
        String[] c = line.split(",");
        if (c[0].equals(set)) {
          points.add(
              new double[] {
                Double.parseDouble(c[2]), Double.parseDouble(c[3]), Double.parseDouble(c[4])
              });
        }
      }
    }
  }

  /** One tour of at most a length. */
  public Sortie tour(double length) {
    return sortie(1, length, length, false);
  }

  /** Two tours, the first from the start to the third point, the second from there to the end. */
  public Sortie twoTours(double first, double second) {
    return sortie(2, first, second, true);
  }

  private Sortie sortie(int days, double first, double last, boolean hotel) {
    int n = points.size() - 2;
    List<SortieStop> stops = new ArrayList<>();
    for (int k = 1; k <= n; k++) {
      boolean isHotel = hotel && k == 1;
      stops.add(
          new SortieStop(
              "P" + k,
              points.get(k + 1)[2],
              0,
              0,
              isHotel,
              Set.of(),
              0,
              Double.POSITIVE_INFINITY,
              isHotel,
              WaysHome.AT_HOME));
    }
    List<List<List<Leg>>> legs = new ArrayList<>();
    for (int i = 0; i <= n; i++) {
      legs.add(new ArrayList<>());
      for (int j = 0; j <= n; j++) {
        // A shorter last tour is one with a longer way to its end.
        double more = j == 0 ? first - last : 0;
        double length = distance(i == 0 ? 0 : i + 1, j == 0 ? 1 : j + 1) + more;
        legs.get(i).add(List.of(Leg.even(length * UNIT_S, 0)));
      }
    }
    double inf = Double.POSITIVE_INFINITY;
    double s = first * UNIT_S;
    DayRules rules = new DayRules(days, s, s, 0, 0, 0, inf, 0, 0, 0, inf, 0, hotel);
    return new Sortie(rules, HomeRule.DRIVE_BACK, stops, new Legs(legs));
  }

  private double distance(int a, int b) {
    return Math.hypot(points.get(a)[0] - points.get(b)[0], points.get(a)[1] - points.get(b)[1]);
  }
}
