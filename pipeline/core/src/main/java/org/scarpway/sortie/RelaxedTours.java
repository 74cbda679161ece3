package org.scarpway.sortie;

import java.util.Arrays;

/**
 * Upper bound from tours that may repeat stops: best value from every place at every time of the
 * trip to home, over whole days and rounded in favour of the crew (state space relaxation:
 * Christofides, Mingozzi &amp; Toth 1981, Networks 11:145-164), without direct returns to the place
 * before. Limits that the tours ignore (each stop once, driving hours, walks and energy of the
 * whole trip) are charged at prices, adjusted by subgradient steps; the bound is valid for any
 * prices.
 */
final class RelaxedTours implements ToGo {
  private static final double WORK = 6e8;
  private static final int ROUNDS = 120;
  private static final int MOST_SLOTS = 2800;
  private static final int FEWEST_SLOTS = 24;
  private static final double TINY = 1e-9;

  private final Sortie sortie;
  private final DayRules rules;
  private final int n;
  private final double[] price;
  // Prices of driving (per s), energy (per J) and walks.
  private double perS;
  private double perJ;
  private double perWalk;
  private final boolean[] isFree;

  private int perDay;
  private int slots;
  private double slotS;
  private double[] drive;
  private double[] home;
  private double[] stay;
  private double[] opens;
  private double[] closes;
  // By slot and place: the best to go, the first stop of it, and the best with another first stop.
  private double[] best;
  private short[] first;
  private double[] second;

  private RelaxedTours(Sortie sortie) {
    this.sortie = sortie;
    this.rules = sortie.rules();
    this.n = sortie.stops().size();
    this.price = new double[n + 1];
    this.isFree = new boolean[n + 1];
  }

  /**
   * @param known value of a known plan, 0 if none: steers the steps only
   */
  static RelaxedTours of(Sortie sortie, double known) {
    RelaxedTours t = new RelaxedTours(sortie);
    double cells = (double) t.rules.days() * t.n * t.n;
    double most = (double) MOST_SLOTS / t.rules.days();
    int coarse = (int) Math.min(most / 2, WORK / ROUNDS / Math.max(1, cells));
    t.divide(Math.max(FEWEST_SLOTS, coarse));
    t.adjust(known);
    int fine = (int) Math.min(most, WORK / 4 / Math.max(1, cells));
    t.divide(Math.max(FEWEST_SLOTS, fine));
    t.solve();
    return t;
  }

  /** A weaker bound that takes no adjusting: all prices are 0. */
  static RelaxedTours unpriced(Sortie sortie) {
    RelaxedTours t = new RelaxedTours(sortie);
    t.divide(FEWEST_SLOTS);
    t.solve();
    return t;
  }

  @Override
  public double price(int place) {
    return isFree[place] ? sortie.at(place).value() : price[place];
  }

  @Override
  public double most(int last, DayClock c) {
    double at = (c.day() * rules.perDayS() + Math.min(c.usedS(), rules.perDayS())) / slotS;
    int slot = Math.min(slots, (int) (at - TINY));
    int left = rules.days() - 1 - c.day();
    double driveS = left * rules.driveS() + Math.max(0, rules.driveS() - c.drivenS());
    double walks = (double) left * rules.walks() + rules.walks() - c.walks();
    double most = best[slot * (n + 1) + last] + perS * driveS + perWalk * walks;
    return perJ > 0 ? most + perJ * leftJ(left, c.drawnJ()) : most;
  }

  /** Energy that can still be drawn, the load of the parked vehicle left out (J). */
  private double leftJ(int nights, double drawnJ) {
    return Math.max(0, rules.usableJ() - drawnJ) + nights * rules.nightChargeJ();
  }

  /** Bound on any plan from the base. */
  double atMost() {
    double sum = most(0, new DayClock(rules, sortie.home()));
    for (int j = 1; j <= n; j++) {
      sum += price(j);
    }
    return sum;
  }

  private void divide(int slotsPerDay) {
    perDay = slotsPerDay;
    slotS = rules.perDayS() / perDay;
    slots = rules.days() * perDay;
    drive = new double[(n + 1) * (n + 1)];
    home = new double[n + 1];
    stay = new double[n + 1];
    opens = new double[n + 1];
    closes = new double[n + 1];
    Arrays.fill(isFree, false);
    for (int i = 0; i <= n; i++) {
      home[i] = i == 0 ? 0 : sortie.legs().leastS(i, 0) / slotS;
      for (int j = 1; j <= n; j++) {
        drive[i * (n + 1) + j] =
            i == j ? Double.POSITIVE_INFINITY : sortie.legs().leastS(i, j) / slotS;
      }
    }
    for (int j = 1; j <= n; j++) {
      SortieStop s = sortie.at(j);
      stay[j] = rules.stopS(s.stayS(), s.walks()) / slotS;
      opens[j] = slotsBy(s.opensS());
      closes[j] = slotsBy(s.closesS());
      boolean never = stay[j] > perDay + TINY || s.walks() > rules.walks();
      double least = Double.POSITIVE_INFINITY;
      for (int i = 0; i <= n; i++) {
        int ij = i * (n + 1) + j;
        drive[ij] = never ? Double.POSITIVE_INFINITY : drive[ij];
        least = Math.min(least, drive[ij]);
      }
      // A stop that may take less than a slot is given away, or tours could repeat it for ever.
      isFree[j] = least + stay[j] < 1 + 2 * TINY;
      for (int i = 0; isFree[j] && i <= n; i++) {
        drive[i * (n + 1) + j] = Double.POSITIVE_INFINITY;
      }
    }
    best = new double[(slots + 1) * (n + 1)];
    second = new double[(slots + 1) * (n + 1)];
    first = new short[(slots + 1) * (n + 1)];
  }

  /** Hours of days, in slots, that have passed at a time by the clock at most. */
  private double slotsBy(double clockS) {
    if (clockS == Double.POSITIVE_INFINITY) {
      return clockS;
    }
    double day = Math.floor(clockS / DayRules.DAY_S);
    double inDay = Math.min(rules.perDayS(), clockS - day * DayRules.DAY_S);
    return day * perDay + inDay / slotS;
  }

  /** From the last slot back to the first. */
  private void solve() {
    double[] worth = new double[n + 1];
    for (int j = 1; j <= n; j++) {
      worth[j] = sortie.at(j).value() - price[j] - perWalk * sortie.at(j).walks();
    }
    double[] legWorth = legWorth();
    for (int s = slots; s >= 0; s--) {
      for (int i = 0; i <= n; i++) {
        int at = s * (n + 1) + i;
        double one = s + home[i] <= slots + TINY ? legWorth[i * (n + 1)] : Double.NEGATIVE_INFINITY;
        double two = one;
        short to = 0;
        for (int j = 1; j <= n; j++) {
          double v = via(s, i, j, worth, legWorth);
          if (v > one) {
            two = to == 0 ? Math.max(one, two) : one;
            one = v;
            to = (short) j;
          } else if (v > two) {
            two = v;
          }
        }
        best[at] = one;
        second[at] = two;
        first[at] = to;
      }
    }
  }

  /** What driving costs at the prices; to the base in column 0. */
  private double[] legWorth() {
    double[] w = new double[(n + 1) * (n + 1)];
    for (int i = 0; i <= n; i++) {
      for (int j = 0; j <= n; j++) {
        double least = 0;
        if (i != j && (perS > 0 || perJ > 0)) {
          least = Double.POSITIVE_INFINITY;
          for (int k = 0; k < sortie.legs().count(i, j); k++) {
            Leg l = sortie.legs().way(i, j, k);
            least = Math.min(least, perS * l.timeS() + perJ * l.energyJ());
          }
        }
        w[i * (n + 1) + j] = -least;
      }
    }
    return w;
  }

  private double via(int s, int i, int j, double[] worth, double[] legWorth) {
    int end = end(s, i, j);
    if (end > slots) {
      return Double.NEGATIVE_INFINITY;
    }
    int next = end * (n + 1) + j;
    double on = first[next] == i && i != 0 ? second[next] : best[next];
    return worth[j] + legWorth[i * (n + 1) + j] + on;
  }

  /** Slot in which a stay ends, rounded down; beyond the last one if it cannot be made. */
  private int end(int s, int i, int j) {
    double at = Math.max(s + drive[i * (n + 1) + j], opens[j]);
    if (!(at <= slots)) {
      return slots + 1;
    }
    int day = (int) (at / perDay);
    if (at - (double) day * perDay + stay[j] > perDay + TINY) {
      at = (day + 1.0) * perDay;
    }
    double end = at + stay[j];
    return end > Math.min(slots, closes[j]) + TINY ? slots + 1 : (int) (end - TINY);
  }

  private void adjust(double known) {
    double[] kept = price.clone();
    double[] keptRates = new double[3];
    double least = Double.POSITIVE_INFINITY;
    double stride = 1;
    int sinceBetter = 0;
    for (int round = 0; round < ROUNDS; round++) {
      solve();
      double bound = atMost();
      if (bound < least) {
        least = bound;
        System.arraycopy(price, 0, kept, 0, n + 1);
        keptRates = new double[] {perS, perJ, perWalk};
        sinceBetter = 0;
      } else if (++sinceBetter == 6) {
        stride *= 0.6;
        sinceBetter = 0;
      }
      if (bound <= known || !step(stride * Math.max(bound - known, 1e-3 * bound))) {
        break;
      }
    }
    System.arraycopy(kept, 0, price, 0, n + 1);
    perS = keptRates[0];
    perJ = keptRates[1];
    perWalk = keptRates[2];
  }

  /** Moves the prices against what the best tour does; returns whether there was anything to do. */
  private boolean step(double gap) {
    int[] visits = new int[n + 1];
    double[] used = new double[3];
    follow(visits, used);
    double[] slack = new double[n + 1];
    double norm = 0;
    for (int j = 1; j <= n; j++) {
      slack[j] = 1 - visits[j];
      boolean fixed = isFree[j] || (slack[j] > 0 && price[j] <= 0 && !sortie.at(j).must());
      slack[j] = fixed ? 0 : slack[j];
      norm += slack[j] * slack[j];
    }
    // Each of the sums over the trip weighs like one stop.
    double[] limit = {
      rules.days() * rules.driveS(),
      leftJ(rules.days() - 1, 0),
      (double) rules.days() * rules.walks()
    };
    double[] rate = {perS, perJ, perWalk};
    double[] share = new double[3];
    double scale = scale();
    for (int k = 0; k < 3; k++) {
      boolean counts = limit[k] > 0 && limit[k] < Double.POSITIVE_INFINITY;
      share[k] = counts ? scale * (1 - used[k] / limit[k]) : 0;
      share[k] = share[k] > 0 && rate[k] <= 0 ? 0 : share[k];
      norm += share[k] * share[k];
    }
    if (norm == 0) {
      return false;
    }
    double step = gap / norm;
    for (int j = 1; j <= n; j++) {
      double moved = price[j] - step * slack[j];
      price[j] = sortie.at(j).must() ? moved : Math.max(0, moved);
    }
    for (int k = 0; k < 3; k++) {
      rate[k] = share[k] == 0 ? rate[k] : Math.max(0, rate[k] - step * share[k] * scale / limit[k]);
    }
    perS = rate[0];
    perJ = rate[1];
    perWalk = rate[2];
    return true;
  }

  private double scale() {
    return Math.sqrt(n);
  }

  /** Follows the best tour: visits of each stop; driving, energy and walks of the tour. */
  private void follow(int[] visits, double[] used) {
    double[] worth = new double[n + 1];
    for (int j = 1; j <= n; j++) {
      worth[j] = sortie.at(j).value() - price[j] - perWalk * sortie.at(j).walks();
    }
    double[] legWorth = legWorth();
    int i = 0;
    int s = 0;
    int before = 0;
    while (true) {
      int to = 0;
      double most = s + home[i] <= slots + TINY ? legWorth[i * (n + 1)] : Double.NEGATIVE_INFINITY;
      for (int j = 1; j <= n; j++) {
        double v = j == before ? Double.NEGATIVE_INFINITY : via(s, i, j, worth, legWorth);
        if (v > most) {
          most = v;
          to = j;
        }
      }
      addLeg(i, to, used);
      if (to == 0) {
        return;
      }
      visits[to]++;
      used[2] += sortie.at(to).walks();
      s = end(s, i, to);
      before = i;
      i = to;
    }
  }

  private void addLeg(int i, int to, double[] used) {
    double least = Double.POSITIVE_INFINITY;
    Leg way = null;
    for (int k = 0; k < sortie.legs().count(i, to); k++) {
      Leg l = sortie.legs().way(i, to, k);
      double w = perS * l.timeS() + perJ * l.energyJ();
      if (w < least) {
        least = w;
        way = l;
      }
    }
    if (way != null) {
      used[0] += way.timeS();
      used[1] += way.energyJ();
    }
  }
}
