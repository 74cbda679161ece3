package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.ShownMobility;
import org.scarpway.vehicle.Vehicle;

/**
 * Draws how much ground has which slope, and below it how that ground is parted by the vehicle's
 * classes, with the vehicle's limits on slope.
 */
final class SlopeHistogram {
  private static final int WIDTH = 860;
  private static final int LEFT = 74;
  private static final int RIGHT = 14;
  private static final int AREA = 84;
  private static final int GAP = 10;
  private static final int SHARE = 56;
  private static final int BOTTOM = 42;
  private static final int ROW = 17;

  /** The last bar holds all steeper ground where that is at most this share of all. */
  private static final double TAIL = 0.002;

  private static final int STEEPEST_DEG = 90;

  /** From the foot of a bar upwards. */
  private static final int[] ORDER = {Mobility.NO_GO, Mobility.SLOW, Mobility.GO, 0};

  private static final String[] WORDS = {"no verdict", "go", "slow", "no-go"};

  private final double cellM2;
  private final Map<Double, String> limits;
  private final int bars;

  /** Number of cells by bar of one degree and class. */
  private final long[][] cells = new long[STEEPEST_DEG + 1][ORDER.length];

  SlopeHistogram(float[] slopeDeg, byte[] cls, double cellM2, Map<Double, String> limits) {
    this.cellM2 = cellM2;
    this.limits = limits;
    long all = 0;
    for (int i = 0; i < slopeDeg.length; i++) {
      if (!Float.isNaN(slopeDeg[i])) {
        cells[(int) slopeDeg[i]][cls[i]]++;
        all++;
      }
    }
    int steepest = STEEPEST_DEG;
    while (steepest > 0 && sum(cells[steepest]) == 0) {
      steepest--;
    }
    int least = 1;
    for (double deg : limits.keySet()) {
      least = Math.max(least, 2 + (int) deg);
    }
    int last = steepest;
    for (long above = 0; last >= least && above + sum(cells[last]) <= TAIL * all; last--) {
      above += sum(cells[last]);
    }
    this.bars = Math.max(least, last + 1);
    for (int b = bars; b <= STEEPEST_DEG; b++) {
      for (int cls1 = 0; cls1 < ORDER.length; cls1++) {
        cells[bars - 1][cls1] += cells[b][cls1];
      }
    }
  }

  static Section.Chart chart(Ground ground, ShownMobility m, int number) {
    float[] slopeDeg = ground.data.terrain().slopeDeg().values();
    SlopeHistogram h =
        new SlopeHistogram(
            slopeDeg, m.cls().values(), ground.spec.cellAreaM2(), limits(m.vehicle()));
    return new Section.Chart(
        "Ground by slope: its area, and how much of it is of which class",
        h.draw(),
        "slope " + (number - 1));
  }

  /** Returns the limits on slope, those of the same angle together, by angle. */
  static Map<Double, String> limits(Vehicle v) {
    Map<Double, String> all = new TreeMap<>();
    if (v.slowFrom() != null) {
      put(all, v.slowFrom().slopeDeg(), "slow from");
    }
    if (v.limits() != null) {
      put(all, v.limits().sideDeg(), "side");
      put(all, v.limits().climbDeg(), "climb");
      put(all, v.limits().descendDeg(), "descent");
    }
    return all;
  }

  private static void put(Map<Double, String> all, Double deg, String name) {
    if (deg != null) {
      all.merge(deg, name, (a, b) -> a + ", " + b);
    }
  }

  String draw() {
    double mostKm2 = cellM2 / 1e6;
    for (int b = 0; b < bars; b++) {
      mostKm2 = Math.max(mostKm2, sum(cells[b]) * cellM2 / 1e6);
    }
    int top = ROW * (1 + limits.size());
    int foot = top + AREA + GAP + SHARE;
    double perDeg = (WIDTH - LEFT - RIGHT) / (double) bars;
    Svg svg =
        new Svg(
            WIDTH,
            foot + BOTTOM,
            "Area by slope, parted by class, with the limits on slope: " + words(),
            Map.of());
    Ticks km2 = Ticks.between(0, mostKm2, 3);
    StringBuilder rules = new StringBuilder();
    for (double v : km2.values()) {
      double y = top + AREA * (1 - v / mostKm2);
      rules.append('M').append(LEFT).append(' ').append(Svg.n(y)).append('H');
      rules.append(WIDTH - RIGHT);
      svg.text(LEFT - 6, y + 4, "end", km2.text(v) + (v > 0 ? " km²" : ""));
    }
    svg.path("rule", rules);
    svg.text(LEFT - 6, foot - SHARE + 8.0, "end", "100 %");
    svg.text(LEFT - 6, foot + 2.0, "end", "0");
    for (int b = 0; b < bars; b++) {
      bar(svg, b, perDeg, AREA / mostKm2, top);
    }
    Ticks deg = Ticks.between(0, bars, 12);
    for (double v : deg.values()) {
      svg.text(LEFT + v * perDeg, foot + 18.0, "middle", deg.text(v));
    }
    svg.text((LEFT + WIDTH - RIGHT) / 2.0, foot + 36.0, "middle", "slope of the cell (deg)");
    int row = 0;
    for (Map.Entry<Double, String> limit : limits.entrySet()) {
      double x = LEFT + limit.getKey() * perDeg;
      int y = ROW * ++row;
      svg.path("limit", "M" + Svg.n(x) + " " + (y - 10) + "V" + foot);
      boolean leftOf = x > WIDTH - 230;
      svg.text(
          leftOf ? x - 5 : x + 5,
          y,
          leftOf ? "end" : "start",
          limit.getValue() + " " + Figures.plain(limit.getKey()) + " deg");
    }
    svg.path("box", "M" + LEFT + " " + top + "V" + (top + AREA) + "H" + (WIDTH - RIGHT));
    svg.path("box", "M" + LEFT + " " + (foot - SHARE) + "V" + foot + "H" + (WIDTH - RIGHT));
    return svg.end();
  }

  private void bar(Svg svg, int b, double perDeg, double perKm2, int top) {
    double x = LEFT + b * perDeg + 0.5;
    double width = perDeg - 1;
    long all = sum(cells[b]);
    int high = b + 1 < bars ? b + 1 : STEEPEST_DEG + 1;
    svg.group(
        "bar", Map.of("low", Integer.toString(b), "high", Integer.toString(high), "says", says(b)));
    svg.rect("reach-for", x, top, width, (double) AREA + GAP + SHARE);
    double height = all * cellM2 / 1e6 * perKm2;
    svg.rect("area", x, top + AREA - height, width, height);
    double y = (double) top + AREA + GAP + SHARE;
    for (int cls : ORDER) {
      double part = all == 0 ? 0 : (double) SHARE * cells[b][cls] / all;
      if (part > 0) {
        y -= part;
        svg.rect("class-" + cls, x, y, width, part);
        if (cls > Mobility.GO) {
          svg.rect("class-" + cls + "-ink", x, y, width, part);
        }
      }
    }
    svg.endGroup();
  }

  /** What a bar holds, in words. */
  String says(int b) {
    StringBuilder text = new StringBuilder("slope ").append(b);
    text.append(b + 1 < bars ? " to " + (b + 1) + " deg: " : " deg and more: ");
    text.append(Figures.area(sum(cells[b]) * cellM2));
    List<String> parts = new ArrayList<>();
    for (int cls : ORDER) {
      if (cells[b][cls] > 0) {
        String share = Figures.percent((double) cells[b][cls], (double) sum(cells[b]));
        parts.add(share + " % " + WORDS[cls]);
      }
    }
    return text.append(parts.isEmpty() ? "" : ", ").append(String.join(", ", parts)).toString();
  }

  int bars() {
    return bars;
  }

  private String words() {
    List<String> all = new ArrayList<>();
    limits.forEach((deg, names) -> all.add(names + " " + Figures.plain(deg) + " deg"));
    return all.isEmpty() ? "none" : String.join("; ", all);
  }

  private static long sum(long[] bar) {
    long sum = 0;
    for (long n : bar) {
      sum += n;
    }
    return sum;
  }
}
