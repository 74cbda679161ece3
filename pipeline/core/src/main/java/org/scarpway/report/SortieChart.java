package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import org.scarpway.report.SortieAnswer.Step;
import org.scarpway.report.SortieAnswer.Told;

/**
 * Draws the timetable of a sortie as bars, a row for each day, and below it what is left of battery
 * and life support over the whole trip. The SVG contains numbers and fixed words only, no text from
 * the user; stops bear their number in the table.
 */
final class SortieChart {
  private static final int WIDTH = 860;
  private static final int LEFT = 74;
  private static final int RIGHT = 14;
  private static final int TOP = 30;
  private static final int ROW = 24;
  private static final int BAR = 18;
  private static final int PANEL = 90;
  private static final int GAP = 42;
  private static final int FOOT = 40;
  private static final double DAY_S = 86_400;

  /** Part of the shown span of a day that lies behind its hours, for the night. */
  private static final double NIGHT = 1.2;

  private final SortieAnswer answer;
  private final double spanS;
  private final StringBuilder svg = new StringBuilder();

  private SortieChart(SortieAnswer answer) {
    this.answer = answer;
    this.spanS = Math.min(DAY_S, NIGHT * answer.supply().daySpanS());
  }

  /** Returns the chart, or an empty text if the crew stays at the base. */
  static String svg(SortieAnswer answer) {
    return answer.steps().isEmpty() ? "" : new SortieChart(answer).draw();
  }

  private String draw() {
    List<Step> steps = answer.steps();
    int days = steps.get(steps.size() - 1).day();
    int foot = TOP + days * ROW;
    boolean battery = Double.isFinite(answer.supply().batteryJ());
    boolean life = Double.isFinite(answer.supply().lifeS());
    int panels = (battery ? 1 : 0) + (life ? 1 : 0);
    int height = foot + FOOT + panels * (PANEL + GAP) + 24;
    svg.append("<svg class=\"chart\" viewBox=\"0 0 ").append(WIDTH).append(' ').append(height);
    svg.append(
        "\" role=\"img\" aria-label=\"Timetable day by day, and what is left of battery and");
    svg.append(" life support.\">");
    key();
    for (Step s : steps) {
      bar(s);
    }
    for (int day = 1; day <= days; day++) {
      text(LEFT - 6, TOP + (day - 1) * ROW + BAR - 4, "end", "day " + day);
    }
    Ticks hours = Ticks.between(0, spanS / 3600, 10);
    for (double h : hours.values()) {
      text(xOfDay(h * 3600), foot + 14, "middle", hours.text(h));
    }
    text((LEFT + WIDTH - RIGHT) / 2.0, foot + 30, "middle", "hours of the day; nights go on");
    int top = foot + FOOT + 16;
    if (battery) {
      curve(
          top,
          "battery (kWh); dashed: reserve",
          s -> s.batteryJ() / 3.6e6,
          s -> s.leastJ() / 3.6e6,
          answer.supply().batteryJ() / 3.6e6,
          answer.supply().keptJ() / 3.6e6);
      top += PANEL + GAP;
    }
    if (life) {
      curve(
          top,
          "life support (h); dashed: reserve",
          s -> s.lifeS() / 3600,
          s -> s.lifeS() / 3600,
          answer.supply().lifeS() / 3600,
          answer.supply().keptS() / 3600);
    }
    return svg.append("</svg>").toString();
  }

  private void key() {
    double x = LEFT;
    for (Told act : Told.values()) {
      boolean told = answer.steps().stream().anyMatch(s -> s.act() == act);
      if (told) {
        box(x, 6, 12, 12, fill(act));
        String word = act.name().toLowerCase(Locale.ROOT);
        text(x + 16, 16, "start", word);
        x += 34 + 7.0 * word.length();
      }
    }
  }

  private void bar(Step s) {
    double dawnS = (s.day() - 1) * DAY_S;
    double from = xOfDay(s.fromS() - dawnS);
    double to = xOfDay(Math.min(spanS, s.toS() - dawnS));
    double y = TOP + (s.day() - 1.0) * ROW;
    if (to > from) {
      box(from, y, to - from, BAR, fill(s.act()));
      int number = number(s);
      if (number > 0 && to - from > 12) {
        text((from + to) / 2, y + BAR - 4, "middle", Integer.toString(number));
      }
    }
  }

  /** Number of the stop in the table, 0 for other acts. */
  private int number(Step s) {
    if (s.act() == Told.STOP || s.act() == Told.WALK) {
      for (int i = 0; i < answer.stops().size(); i++) {
        if (answer.stops().get(i).name().equals(s.to())) {
          return i + 1;
        }
      }
    }
    return 0;
  }

  /**
   * @param least value at the worst moment of a step
   * @param full value when setting out
   */
  private void curve(
      int top,
      String title,
      ToDoubleFunction<Step> atEnd,
      ToDoubleFunction<Step> least,
      double full,
      double kept) {
    List<Step> steps = answer.steps();
    double endS = steps.get(steps.size() - 1).toS();
    text(LEFT, top - 8, "start", title);
    Ticks ticks = Ticks.between(0, full, 4);
    for (double v : ticks.values()) {
      double y = y(top, v, full);
      svg.append("<path class=\"rule\" d=\"M").append(LEFT).append(' ').append(n(y));
      svg.append('H').append(WIDTH - RIGHT).append("\"/>");
      text(LEFT - 6, y + 4, "end", ticks.text(v));
    }
    svg.append("<path class=\"box\" d=\"M").append(LEFT).append(' ').append(top).append('V');
    svg.append(top + PANEL).append('H').append(WIDTH - RIGHT).append("\"/>");
    svg.append("<path class=\"pinch\" stroke-dasharray=\"6 4\" d=\"M").append(LEFT).append(' ');
    svg.append(n(y(top, kept, full))).append('H').append(WIDTH - RIGHT).append("\"/>");
    StringBuilder line = new StringBuilder("M" + LEFT + " " + n(y(top, full, full)));
    for (Step s : steps) {
      if (least.applyAsDouble(s) < atEnd.applyAsDouble(s)) {
        double at = x((s.fromS() + s.toS()) / 2, endS);
        line.append('L').append(n(at)).append(' ').append(n(y(top, least.applyAsDouble(s), full)));
      }
      line.append('L').append(n(x(s.toS(), endS))).append(' ');
      line.append(n(y(top, atEnd.applyAsDouble(s), full)));
    }
    svg.append("<path class=\"c1\" d=\"").append(line).append("\"/>");
    for (double day : dayStarts(endS)) {
      text(x(day, endS), top + PANEL + 14, "middle", "day " + Math.round(day / DAY_S + 1));
    }
  }

  private static List<Double> dayStarts(double endS) {
    List<Double> all = new ArrayList<>();
    for (double s = 0; s < endS; s += DAY_S) {
      all.add(s);
    }
    return all;
  }

  private double xOfDay(double s) {
    return LEFT + Math.max(0, Math.min(1, s / spanS)) * (WIDTH - RIGHT - LEFT);
  }

  private static double x(double s, double endS) {
    return LEFT + s / endS * (WIDTH - RIGHT - LEFT);
  }

  private static double y(int top, double v, double full) {
    return top + PANEL * (1 - Math.max(0, Math.min(1, v / full)));
  }

  private void box(double x, double y, double w, double h, String fill) {
    svg.append("<rect x=\"").append(n(x)).append("\" y=\"").append(n(y)).append("\" width=\"");
    svg.append(n(w)).append("\" height=\"").append(n(h)).append("\" fill=\"").append(fill);
    svg.append("\" stroke=\"#fff\"/>");
  }

  private void text(double x, double y, String anchor, String words) {
    svg.append("<text x=\"").append(n(x)).append("\" y=\"").append(n(y));
    svg.append("\" text-anchor=\"").append(anchor).append("\">").append(words).append("</text>");
  }

  private static String n(double v) {
    return Figures.fixed(v, 1);
  }

  private static String hex(int rgb) {
    return String.format(Locale.ROOT, "#%06x", rgb);
  }

  private static String fill(Told act) {
    return switch (act) {
      case DRIVE -> hex(Palette.BLUE);
      case WAIT -> "#d8dde3";
      case STOP -> hex(Palette.SKY);
      case WALK -> hex(Palette.ORANGE);
      case RESERVE -> hex(Palette.YELLOW);
      case NIGHT -> "#4a5563";
      case REST -> hex(Palette.PURPLE);
    };
  }
}
