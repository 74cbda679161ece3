package org.scarpway.report;

import java.util.Locale;
import org.scarpway.report.SortieAnswer.Step;
import org.scarpway.report.SortieAnswer.Stop;

/** The tables of a sortie in the report: its timetable, and the stops with what leaves them out. */
final class SortieTablesView {
  private static final double DAY_S = 86_400;

  private SortieTablesView() {}

  static TableView timetable(String name, SortieAnswer a) {
    TableView table =
        new TableView(
            "Timetable: " + name,
            "Day",
            "from",
            "to",
            "act",
            "place",
            "km",
            "energy, kWh",
            "battery beyond the reserve, kWh",
            "life support beyond the reserve if nothing fails, h",
            "what ends the day, or least is left of");
    for (Step s : a.steps()) {
      double dawnS = (s.day() - 1) * DAY_S;
      table.row(
          Integer.toString(s.day()),
          clock(s.fromS() - dawnS),
          clock(s.toS() - dawnS),
          s.act().name().toLowerCase(Locale.ROOT) + (s.walks() > 1 ? " x " + s.walks() : ""),
          place(s),
          s.distanceM() > 0 ? Figures.sig(s.distanceM() / 1000) : Figures.NONE,
          Figures.sig(s.energyJ() / 3.6e6),
          Figures.sig((s.leastJ() - a.supply().keptJ()) / 3.6e6),
          Figures.sig((s.lifeS() - a.supply().keptS()) / 3600),
          s.binds().isEmpty() ? Figures.NONE : s.binds());
    }
    return table;
  }

  private static String place(Step s) {
    if (s.from().equals(s.to())) {
      return s.to();
    }
    return switch (s.act()) {
      case DRIVE -> "to " + s.to();
      case WAIT, STOP, WALK, RESERVE, NIGHT, REST -> "on the way to " + s.to();
    };
  }

  static TableView stops(String name, SortieAnswer a) {
    TableView table =
        new TableView(
            "Stops: " + name, "No.", "stop", "value", "day", "stay", "walks", "why left out");
    int number = 0;
    for (Stop s : a.stops()) {
      number++;
      table.row(
          Integer.toString(number),
          s.name() + (s.must() ? " (must)" : ""),
          Figures.sig(s.value()),
          s.day() > 0 ? Integer.toString(s.day()) : Figures.NONE,
          Figures.duration(s.staysS()),
          Integer.toString(s.walks()),
          s.why().isEmpty() ? Figures.NONE : s.why());
    }
    return table;
  }

  /** Hours and minutes of a day, counted from its first hour. */
  private static String clock(double s) {
    long min = Math.round(s / 60);
    return String.format(Locale.ROOT, "%d:%02d", min / 60, min % 60);
  }
}
