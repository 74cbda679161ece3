package org.scarpway.report;

import java.util.List;
import java.util.Map;
import org.scarpway.reach.question.ReachByBudget;
import org.scarpway.reach.question.ReachRequest.Quantity;
import org.scarpway.reach.question.ReachResult;

/**
 * Draws the area reached with smaller budgets of time and of energy, side by side, in stairs: what
 * a step reaches holds for every budget up to the next.
 */
final class BudgetChart {
  private static final int WIDTH = 860;
  private static final int LEFT = 74;
  private static final int GAP = 92;
  private static final int PANEL = (WIDTH - LEFT - GAP - 14) / 2;
  private static final int TOP = 24;
  private static final int HEIGHT = 130;
  private static final int BOTTOM = 42;

  private BudgetChart() {}

  static Section.Chart chart(ReachResult reach, int number) {
    return new Section.Chart(
        "Area reached with less time or less energy: surely (filled) and at most (hatched)",
        reach.byBudget().isEmpty() ? "" : svg(reach.byBudget()),
        "budget " + (number - 1));
  }

  private static String svg(List<ReachByBudget> all) {
    double mostKm2 = 0;
    for (ReachByBudget b : all) {
      mostKm2 = Math.max(mostKm2, b.possiblyM2().get(b.possiblyM2().size() - 1) / 1e6);
    }
    mostKm2 = mostKm2 > 0 ? mostKm2 : 1;
    Svg svg =
        new Svg(
            WIDTH,
            TOP + HEIGHT + BOTTOM,
            "Area surely reached and at most reached with smaller budgets of time and energy",
            Map.of());
    Ticks km2 = Ticks.between(0, mostKm2, 5);
    for (int i = 0; i < all.size(); i++) {
      panel(svg, all.get(i), LEFT + i * (PANEL + GAP), km2, HEIGHT / mostKm2);
    }
    return svg.end();
  }

  private static void panel(Svg svg, ReachByBudget b, int left, Ticks km2, double perKm2) {
    int foot = TOP + HEIGHT;
    int steps = b.surelyM2().size();
    boolean time = b.quantity() == Quantity.TIME_S;
    double per = time ? 3600 : 3.6e6;
    String unit = time ? "h" : "kWh";
    StringBuilder rules = new StringBuilder();
    for (double v : km2.values()) {
      double y = foot - v * perKm2;
      rules.append('M').append(left).append(' ').append(Svg.n(y)).append('H').append(left + PANEL);
      svg.text(left - 6, y + 4, "end", km2.text(v) + (v > 0 ? " km²" : ""));
    }
    svg.path("rule", rules);
    double width = (double) PANEL / steps;
    for (int k = 0; k < steps; k++) {
      // From its own budget up to the next; the whole budget is the last line.
      double x = left + (k + 1) * width;
      double wide = k + 1 < steps ? width : 3;
      double surely = b.surelyM2().get(k) / 1e6 * perKm2;
      double most = b.possiblyM2().get(k) / 1e6 * perKm2;
      svg.group(
          "bar",
          Map.of(
              "says",
              says(b, k, per, unit),
              "of",
              time ? "time" : "energy",
              "share",
              Figures.plain((k + 1.0) / steps)));
      svg.rect("reach-for", x, TOP, width, HEIGHT);
      svg.rect("most", x, foot - most, wide, most - surely);
      svg.rect("most-ink", x, foot - most, wide, most - surely);
      svg.rect("adds", x, foot - surely, wide, surely);
      svg.endGroup();
    }
    Ticks amounts = Ticks.between(0, b.budget() / per, 6);
    for (double v : amounts.values()) {
      svg.text(left + v * per / b.budget() * PANEL, foot + 18.0, "middle", amounts.text(v));
    }
    svg.text(
        left + PANEL / 2.0,
        foot + 36.0,
        "middle",
        (time ? "time" : "energy")
            + " ("
            + unit
            + "), of it "
            + Figures.plain(b.reservePct())
            + " % kept");
    svg.path("box", "M" + left + " " + TOP + "V" + foot + "H" + (left + PANEL));
  }

  private static String says(ReachByBudget b, int k, double per, String unit) {
    return "with "
        + Figures.brief(b.amount(k) / per)
        + " of "
        + Figures.brief(b.budget() / per)
        + " "
        + unit
        + " and everything else as asked: surely "
        + Figures.area(b.surelyM2().get(k))
        + ", at most "
        + Figures.area(b.possiblyM2().get(k));
  }
}
