package org.scarpway.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.scarpway.audit.Finding;
import org.scarpway.reach.question.ReachFigure;
import org.scarpway.reach.question.ReachRequest;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.reach.question.ReachResult.TargetReach;
import org.scarpway.reach.question.ReplanResult.Consumable;
import org.scarpway.report.Section.Answer;
import org.scarpway.report.Section.KeyNumber;
import org.scarpway.report.Section.MapView;
import org.scarpway.vehicle.Limit;
import org.scarpway.vehicle.ShownMobility;
import org.scarpway.vehicle.Unresolved;

/** The section on a reach question: how far a vehicle can drive from a base and still come home. */
final class ReachSection {
  private final Ground ground;
  private final ReachResult reach;
  private final ReachRequest request;
  private final double surelyM2;
  private final double possiblyM2;

  private ReachSection(Ground ground, ReachResult reach) {
    this.ground = ground;
    this.reach = reach;
    this.request = reach.request();
    this.surelyM2 = reach.surelyM2();
    this.possiblyM2 = reach.possiblyM2();
  }

  static Section of(Ground ground, ReachResult reach, int number) {
    return new ReachSection(ground, reach).section(number);
  }

  private Section section(int number) {
    MapView main =
        reachMap(number)
            .captioned(
                "Layers of the map at the head of the page: what ends the reach, times, energies, narrowest"
                    + " passages.");
    List<TableView> tables = new ArrayList<>();
    tables.add(bandTable());
    tables.add(endTable());
    if (!reach.targets().isEmpty()) {
      tables.add(targetTable());
    }
    if (!reach.passages().isEmpty()) {
      tables.add(passageTable());
    }
    if (!reach.summary().isEmpty()) {
      tables.add(summaryTable());
    }
    return new Section(
        "reach-question-" + number,
        title(),
        answer(),
        "",
        "",
        List.of(main),
        List.of(BudgetChart.chart(reach, number)),
        tables);
  }

  /** Returns the map with which the section begins, as a figure of its own. */
  static MapFigure figure(Ground ground, ReachResult reach) {
    ReachSection section = new ReachSection(ground, reach);
    return new MapFigure(section.title(), section.answer(), section.reachMap(1));
  }

  private String title() {
    String second = request.rescue().second();
    String vehicles = second.isEmpty() ? reach.vehicle() : reach.vehicle() + " and " + second;
    return request.name() + ": " + vehicles + " from " + request.baseName();
  }

  private MapView reachMap(int number) {
    ReachBands bands = new ReachBands(ground.pixels, reach);
    Layer layer =
        ground.keep(
            ground.layers.classes(
                "reach-" + number,
                "Reachable ground: " + request.name(),
                bands.codes,
                bands.edges,
                bands.styles,
                bands.cells,
                bands.inside,
                ground.layers.whole(),
                "Surely: one path was found that meets every budget and the home rule. Possibly:"
                    + " each can be met alone, but no path was found that meets them together."
                    + " Ground without colour is not reachable."));
    MapLabels labels = ground.places();
    if (ground.data.places().stream().noneMatch(p -> p.name().equals(request.baseName()))) {
      labels.add(request.baseXM(), request.baseYM(), "base", request.baseName());
    }
    for (ReachBands.BandLabel l : bands.labels) {
      labels.add(l.xM(), l.yM(), MapLabels.ON_LINE, l.text());
    }
    return new MapView("map-" + layer.id(), layer, "", labels, List.of());
  }

  private Answer answer() {
    List<String> text = new ArrayList<>();
    StringBuilder s = new StringBuilder("From ").append(request.baseName()).append(", ");
    s.append(reach.vehicle()).append(" surely reaches ").append(Figures.area(surelyM2));
    s.append(" (")
        .append(Figures.percent(surelyM2, ground.groundM2))
        .append(" % of the ground with elevation)");
    s.append(
        request.home() == ReachRequest.HomeRule.WALK_BACK
            ? walkBackText(
                request.budget(), reach.summary(), ground.data.maxWalkKm().get(request.name()))
            : homeText(request.home()) + secondText() + budgetText(request.budget()));
    s.append('.');
    if (!reach.reserveText().isEmpty()) {
      s.append(" At every moment of a trip, after what getting home takes from there, ");
      s.append(reach.reserveText()).append(" are left in reserve.");
    }
    unresolved()
        .ifPresent(
            u ->
                s.append(" All of it is ground on which the cells do not show ")
                    .append(labels(u))
                    .append(": it may be worse there than the answer takes it for."));
    ReachRequest.Suits suits = request.budget().suits();
    if (suits != null) {
      s.append(" The crew rides in suits, which last ")
          .append(Figures.duration(suits.enduranceS()));
      s.append(" from leaving the base, riding and staying too; of it ");
      s.append(Figures.duration(suits.reserveS()));
      s.append(" at least is kept. Joules spent while riding or staying are not counted.");
    }
    if (possiblyM2 > 0) {
      s.append(" A further ").append(Figures.area(possiblyM2));
      s.append(" is possible, but no single path that meets everything was found.");
    }
    boolean own = reach.targets().stream().anyMatch(t -> t.target().stayS() != request.stayS());
    if (own) {
      s.append(" The map counts ");
      s.append(request.stayS() > 0 ? "a stay of " + Figures.duration(request.stayS()) : "no stay");
      s.append(" where the trip turns round; each target is judged by its own.");
    }
    text.add(s.toString());
    if (!reach.drivenAgain().isEmpty()) {
      text.add(drivenAgainText());
    }
    List<KeyNumber> keys = new ArrayList<>();
    keys.add(KeyNumber.ofArea(surelyM2, "surely reached"));
    if (!reach.targets().isEmpty()) {
      long reached = reach.targets().stream().filter(TargetReach::reached).count();
      int all = reach.targets().size();
      keys.add(new KeyNumber(reached + " of " + all, "", "targets"));
      text.add(targetsText(reached, all));
    }
    return new Answer(keys, text);
  }

  /**
   * The budget is that of the whole trip; a walk home is as long as the walker lasts and its rule
   * allows at most.
   *
   * @param maxWalkKm longest walk by the rules, null for any
   */
  static String walkBackText(
      ReachRequest.Budget budget, List<ReachFigure> summary, Double maxWalkKm) {
    String text =
        " on trips"
            + budgetText(budget)
            + " and the crew can walk home from every point of the way"
            + longest(summary, ReachFigure.LONGEST_WALK)
                .map(h -> ", in " + SafeSide.up(Consumable.TIME, h * 3600) + " at most")
                .orElse("");
    if (maxWalkKm == null) {
      return text;
    }
    return text
        + ", within the "
        + BigDecimal.valueOf(maxWalkKm).stripTrailingZeros().toPlainString()
        + " km that max_walk_km allows"
        + longest(summary, ReachFigure.FARTHEST_WALK)
            .map(km -> " (" + SafeSide.up(Consumable.DISTANCE, km * 1000) + " at most)")
            .orElse("");
  }

  private static Optional<Double> longest(List<ReachFigure> summary, String name) {
    return summary.stream()
        .filter(f -> f.name().equals(name) && f.value() > 0)
        .map(ReachFigure::value)
        .findFirst();
  }

  /** Returns the vehicle's limits that the cells do not resolve; empty if all are resolved. */
  private Optional<Unresolved> unresolved() {
    return ground.data.mobility().stream()
        .filter(m -> m.unresolved() != null)
        .filter(
            m ->
                m.vehicle().name().equals(reach.vehicle())
                    || m.vehicle().name().equals(request.rescue().second()))
        .map(ShownMobility::unresolved)
        .findFirst();
  }

  private static String labels(Unresolved unresolved) {
    return String.join(", ", unresolved.limits().stream().map(Limit::label).toList());
  }

  /**
   * States how many trips were simulated again. That none of them breaks a rule is a precondition
   * of the answer.
   */
  private String drivenAgainText() {
    int trips = reach.drivenAgain().size();
    long broken = reach.drivenAgain().stream().filter(f -> !f.holds()).count();
    StringBuilder s = new StringBuilder().append(trips);
    s.append(trips == 1 ? " trip" : " trips").append(" recalculated independently; ");
    s.append(broken == 0 ? "none" : Long.toString(broken));
    s.append(" broke a limit (tolerance 0.5 %)");
    reach.drivenAgain().stream()
        .filter(f -> f.leftPct() < Double.POSITIVE_INFINITY)
        .min(Comparator.comparingDouble(Finding::leftPct))
        .ifPresent(
            f ->
                s.append(". At the tightest moment ")
                    .append(Figures.sig(Math.max(0, f.leftPct())))
                    .append(" % of the ")
                    .append(f.leftOf())
                    .append(" was left"));
    return s.append('.').toString();
  }

  private String targetsText(long reached, int all) {
    StringBuilder s = new StringBuilder();
    s.append(reached).append(" of ").append(all).append(" targets ");
    s.append(reached == 1 ? "is" : "are").append(" reached");
    int named = 0;
    for (TargetReach t : reach.targets()) {
      if (!t.reached() && named++ < 6) {
        s.append(named == 1 ? "; not reached: " : ", ").append(t.target().name());
        if (t.end() != null && !t.end().isEmpty()) {
          s.append(" (").append(t.whyNot() == null ? t.end() : t.whyNot().shortText(t.end()));
          s.append(')');
        }
      }
    }
    return s.append(named > 6 ? " and " + (named - 6) + " more." : ".").toString();
  }

  /** Tells what a pair of two kinds of vehicles keeps to. */
  private String secondText() {
    String second = request.rescue().second();
    return second.isEmpty()
        ? ""
        : " with '"
            + second
            + "' as the other, on ground open to both and no faster than the slower of them,";
  }

  static String homeText(ReachRequest.HomeRule home) {
    return switch (home) {
      case NONE -> " one way, with no way home asked for,";
      case DRIVE_BACK -> " and drives home again";
      case WALK_BACK -> " and the crew can walk home from every point of the way";
      case PAIR -> " as a pair, either vehicle able to bring everybody home,";
      case BASE_RESCUE -> " and a second vehicle at the base can fetch the crew in time";
    };
  }

  static String budgetText(ReachRequest.Budget b) {
    List<String> parts = new ArrayList<>();
    if (b.timeS() != null) {
      parts.add(Figures.duration(b.timeS()));
    }
    if (b.energyJ() != null) {
      parts.add(Figures.energy(b.energyJ()));
    }
    if (b.distanceM() != null) {
      parts.add(Figures.distance(b.distanceM()));
    }
    if (b.lifeSupportS() != null) {
      parts.add(Figures.duration(b.lifeSupportS()) + " of life support");
    }
    return parts.isEmpty() ? " without a budget" : " within " + String.join(" and ", parts);
  }

  private TableView bandTable() {
    TableView table =
        new TableView(
            "Ground inside each band, " + request.name(),
            "band",
            "area (km²)",
            "share of ground with elevation (%)");
    int n = Math.min(reach.bandAreasM2().size(), request.bands().size());
    for (int k = 0; k < n; k++) {
      double m2 = reach.bandAreasM2().get(k);
      table.row(
          "whole trip within " + request.bands().get(k).label(),
          Figures.km2(m2),
          Figures.percent(m2, ground.groundM2));
    }
    table.row(
        "surely, all budgets", Figures.km2(surelyM2), Figures.percent(surelyM2, ground.groundM2));
    table.row(
        "possibly, in addition",
        Figures.km2(possiblyM2),
        Figures.percent(possiblyM2, ground.groundM2));
    return table;
  }

  /** What ends the reach where, by area. */
  private TableView endTable() {
    TableView table =
        new TableView(
            "What ends the reach, " + request.name(),
            "ends by",
            "area (km²)",
            "share of ground with elevation (%)");
    long[] cells = LayerFactory.count(reach.binding());
    for (ClassStyle style : ClassStyle.ends()) {
      double m2 = cells[style.code()] * ground.spec.cellAreaM2();
      if (m2 > 0) {
        String share = Figures.percent(m2, ground.groundM2);
        table.row(Paint.swatch(style).uri(), List.of(style.label(), Figures.km2(m2), share));
      }
    }
    return table;
  }

  private TableView targetTable() {
    TableView table =
        new TableView(
            "Targets, " + request.name(),
            "target",
            "E (m)",
            "N (m)",
            "stay",
            "reached",
            "out",
            "home",
            "total",
            "distance in all (km)",
            "energy (kWh)",
            "time spare",
            "energy spare (kWh)",
            "life support spare",
            "what ends it");
    for (TargetReach t : reach.targets()) {
      double x = t.target().xM();
      double y = t.target().yM();
      table.row(
          t.target().name(),
          Figures.fixed(x, 0),
          Figures.fixed(y, 0),
          t.target().stayS() > 0 ? Figures.duration(t.target().stayS()) : Figures.NONE,
          t.reached() ? "yes" : "no",
          Figures.duration(t.outTimeS()),
          Figures.duration(t.homeTimeS()),
          Figures.duration(t.totalTimeS()),
          Figures.fixed(t.distanceM() / 1000, 2),
          Figures.sig(t.totalEnergyJ() / 3.6e6),
          Figures.duration(t.timeSpareS()),
          Figures.sig(t.energySpareJ() / 3.6e6),
          Figures.duration(t.lifeSpareS()),
          t.end() == null || t.end().isEmpty() ? Figures.NONE : whyNot(t));
    }
    return table;
  }

  private static String whyNot(TargetReach t) {
    return t.whyNot() == null ? t.end() : t.whyNot().sentence(t.end());
  }

  private TableView passageTable() {
    TableView table =
        new TableView(
            "Narrow passages on which the reach depends, " + request.name(),
            "passage",
            "width (m)",
            "reach lost without it (km²)",
            "share of the reach (%)",
            "targets lost",
            "E (m)",
            "N (m)");
    for (ReachResult.PinchPoint p : reach.passages()) {
      table.row(
          "N" + (table.rows().size() + 1),
          Figures.sig(p.widthM()),
          Figures.km2(p.behindM2()),
          Figures.fixed(p.behindPct(), 0),
          p.targets().isEmpty() ? Figures.NONE : String.join(", ", p.targets()),
          Figures.fixed(p.xM(), 0),
          Figures.fixed(p.yM(), 0));
    }
    return table;
  }

  private TableView summaryTable() {
    TableView table =
        new TableView(
            "Key figures, " + request.name(), "figure", "value", "unit", "limits not resolved");
    String notShown = unresolved().map(ReachSection::labels).orElse("none");
    for (ReachFigure f : reach.summary()) {
      table.row(
          f.name(),
          f.tellsCoordinate() ? Figures.fixed(f.value(), 0) : Figures.sig(f.value()),
          Figures.unit(f.unit()),
          f.tellsReachedArea() ? notShown : "");
    }
    return table;
  }
}
