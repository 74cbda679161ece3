package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.scarpway.reach.question.DayRings;
import org.scarpway.reach.question.DayRingsRequest;
import org.scarpway.report.Section.Answer;
import org.scarpway.report.Section.KeyNumber;
import org.scarpway.report.Section.Line;
import org.scarpway.report.Section.MapView;

/** The section on a sortie of days. */
final class SortieSection {
  /** Number of line styles for ways. */
  private static final int WAYS = 4;

  private final Ground ground;
  private final SortieData sortie;
  private final DayRings rings;
  private final DayRingsRequest request;
  private final SortieAnswer plan;

  private SortieSection(Ground ground, SortieData sortie) {
    this.ground = ground;
    this.sortie = sortie;
    this.rings = sortie.rings();
    this.request = rings.request();
    this.plan = sortie.plan();
  }

  static Section of(Ground ground, SortieData sortie, int number) {
    return new SortieSection(ground, sortie).section(number);
  }

  private Section section(int number) {
    Layer days =
        ground.keep(
            ground.layers.classes(
                "sortie-" + number,
                "Day of arrival: " + request.name(),
                SortieRings.codes(rings),
                SortieRings.styles(request.days()),
                TilePack.Halving.WORST_BAND,
                "Surely reached by the end of the day, and home by day "
                    + request.days()
                    + ". Possibly: time and energy alone suffice, but no trip was found that"
                    + " keeps everything. Ground without colour is not reached."));
    return new Section(
        "sortie-question-" + number,
        request.name() + ": " + rings.vehicle() + " from " + request.baseName(),
        answer(),
        "",
        "",
        List.of(new MapView("map-" + days.id(), days, "", ground.places(), lines())),
        List.of(
            new Section.Chart("Timetable and reserves", plan == null ? "" : SortieChart.svg(plan))),
        tables());
  }

  /** One line for each day. */
  private List<Line> lines() {
    Map<Integer, StringBuilder> byDay = new TreeMap<>();
    for (SortieAnswer.Way w : plan == null ? List.<SortieAnswer.Way>of() : plan.ways()) {
      if (w.line().size() > 1) {
        byDay
            .computeIfAbsent(w.day(), day -> new StringBuilder())
            .append(SvgPath.through(ground.spec, w.line()));
      }
    }
    List<Line> all = new ArrayList<>();
    byDay.forEach(
        (day, d) ->
            all.add(new Line("centre way" + ((day - 1) % WAYS + 1), d.toString(), "day " + day)));
    return all;
  }

  private List<TableView> tables() {
    List<TableView> all = new ArrayList<>();
    if (plan != null && !plan.steps().isEmpty()) {
      all.add(SortieTablesView.timetable(request.name(), plan));
    }
    if (plan != null) {
      all.add(SortieTablesView.stops(request.name(), plan));
    }
    all.add(dayTable());
    return all;
  }

  private Answer answer() {
    int days = request.days();
    double all = rings.surelyM2().get(days - 1);
    List<String> text = new ArrayList<>();
    List<KeyNumber> keys = new ArrayList<>();
    if (plan != null) {
      text.addAll(planned());
      long done = plan.stops().stream().filter(s -> s.day() > 0).count();
      keys.add(new KeyNumber(done + " of " + plan.stops().size(), "", "stops"));
      keys.add(
          new KeyNumber(
              Figures.brief(plan.value()), "", "of value " + Figures.brief(plan.wholeValue())));
    }
    text.add(
        String.format(
            Locale.ROOT,
            "In %s of %s driving each, %s, %s surely reaches %s from %s and is"
                + " home by the end of the last day by %s.%s",
            days(days),
            Figures.duration(request.driveS()),
            request.camps() == null ? "with nights anywhere" : "with nights at camps only",
            rings.vehicle(),
            Figures.area(all),
            request.baseName(),
            request.home().name().toLowerCase(Locale.ROOT).replace('_', '-'),
            rings.possiblyM2() > 0
                ? " A further " + Figures.area(rings.possiblyM2()) + " is possible."
                : ""));
    text.addAll(sortie.warnings());
    keys.add(KeyNumber.ofArea(rings.surelyM2().get(0), "on day 1"));
    if (days > 1) {
      keys.add(KeyNumber.ofArea(all, "by day " + days));
    }
    return new Answer(keys, text);
  }

  private static String days(int n) {
    return n == 1 ? "one day" : n + " days";
  }

  private List<String> planned() {
    if (!plan.found()) {
      return List.of("No plan keeps every rule with all stops that must be done.");
    }
    List<String> all = new ArrayList<>();
    String most =
        plan.proven()
            ? "No plan brings more."
            : "No plan was proven best: any could bring at most "
                + Figures.sig(plan.mostMorePct())
                + " % more.";
    double km = plan.ways().stream().mapToDouble(SortieAnswer.Way::distanceM).sum() / 1000;
    all.add(
        plan.steps().isEmpty()
            ? "The crew stays at the base: no stop can be made and brought home from. " + most
            : String.format(
                Locale.ROOT,
                "The plan makes %d of %d stops in %s and %s km, and brings %s of %s. %s",
                plan.stops().stream().filter(s -> s.day() > 0).count(),
                plan.stops().size(),
                days(plan.steps().get(plan.steps().size() - 1).day()),
                Figures.brief(km),
                Figures.brief(plan.value()),
                Figures.brief(plan.wholeValue()),
                most));
    if (!plan.steps().isEmpty()) {
      all.add("The plan was driven again day by day by independent code; no rule was broken.");
    }
    all.addAll(plan.more());
    return all;
  }

  private TableView dayTable() {
    TableView table =
        new TableView(
            "Ground by day: " + request.name(),
            "By the end of day",
            "surely reached, km²",
            "at the edge of the model, km");
    for (int k = 1; k <= request.days(); k++) {
      double edgeM = rings.edgeM().get(k - 1);
      table.row(
          Integer.toString(k),
          Figures.km2(rings.surelyM2().get(k - 1)),
          edgeM > 0 ? Figures.sig(edgeM / 1000) : "0");
    }
    return table;
  }
}
