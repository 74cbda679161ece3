package org.scarpway.report;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.report.ReportData.AtPlace;
import org.scarpway.vehicle.CellMobility;
import org.scarpway.vehicle.CellMobility.OnHeading;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.Vehicle;

/**
 * The section on one vehicle at the places of the job: a rose of headings for each place, and the
 * same as a table.
 */
final class RoseSection {
  static final String TITLE = "Headings and speed at the places";

  private final Vehicle vehicle;
  private final List<AtPlace> places;

  RoseSection(ReportData data, Vehicle vehicle) {
    this.vehicle = vehicle;
    places = data.atPlaces().stream().filter(p -> p.vehicle().equals(vehicle.name())).toList();
  }

  boolean isEmpty() {
    return places.isEmpty();
  }

  /** Returns the roses side by side, or an empty text if there are none. */
  String html() {
    if (isEmpty()) {
      return "";
    }
    double ratedMs = vehicle.drive().speedMs();
    StringBuilder html = new StringBuilder("<div class=\"roses\">");
    for (AtPlace p : places) {
      html.append("<div>").append(HeadingRose.svg(p.cell(), ratedMs)).append("<span>");
      html.append(Svg.escaped(p.place())).append("<br>").append(words(p.cell()));
      html.append("</span></div>");
    }
    html.append("</div><p class=\"note\">Petal: heading allowed, as long as its speed; the outer");
    html.append(" ring is the rated ").append(Figures.brief(ratedMs)).append(" m/s, the inner one");
    html.append(" half of it. Bar on the rim: heading shut. Grid north is up.</p>");
    return html.toString();
  }

  TableView table() {
    TableView table =
        new TableView(
            "At the places, " + vehicle.name(),
            "place",
            "class",
            "limit that binds",
            "headings allowed (%)",
            "slope (deg)",
            "slowest (m/s)",
            "fastest (m/s)",
            "soil");
    for (AtPlace p : places) {
      CellMobility c = p.cell();
      double slowest = Double.POSITIVE_INFINITY;
      double fastest = Double.NEGATIVE_INFINITY;
      for (OnHeading h : c.headings()) {
        if (h.allowed()) {
          slowest = Math.min(slowest, h.speedMs());
          fastest = Math.max(fastest, h.speedMs());
        }
      }
      List<String> row = new ArrayList<>();
      row.add(p.place());
      row.add(className(c));
      row.add(c.binding() == null ? "none" : c.binding().label());
      row.add(Figures.sig(c.headingsPct()));
      row.add(Figures.sig(c.slopeDeg()));
      row.add(Figures.sig(slowest));
      row.add(Figures.sig(fastest));
      row.add(c.soil() == null ? "rolling coefficient" : c.soil());
      table.row(null, row);
    }
    return table;
  }

  /**
   * Returns every limit at every place: the value on the heading where the limit is tightest. An
   * allowed value that is the same at all places has its own column, otherwise it follows each
   * value (value / allowed).
   */
  TableView limits() {
    List<CellMobility.Check> limits = new ArrayList<>();
    List<String> header = new ArrayList<>(List.of("limit", "allowed"));
    for (AtPlace p : places) {
      header.add(p.place());
      for (CellMobility.Check c : checks(p.cell())) {
        if (find(limits, c.what()) == null) {
          limits.add(c);
        }
      }
    }
    TableView table =
        new TableView(
            "Limits at the places, "
                + vehicle.name()
                + ": got on the heading where it is tightest; where that is more than allowed, how many"
                + " headings it closes",
            header);
    for (CellMobility.Check limit : limits) {
      String unit = limit.unit().isEmpty() ? "" : " (" + limit.unit() + ")";
      List<CellMobility.Check> got =
          places.stream().map(p -> find(checks(p.cell()), limit.what())).toList();
      boolean same = got.stream().allMatch(c -> c == null || allowed(c).equals(allowed(limit)));
      List<String> row = new ArrayList<>();
      row.add(limit.what() + unit);
      row.add(same ? allowed(limit) : "varies");
      for (int i = 0; i < got.size(); i++) {
        CellMobility.Check c = got.get(i);
        row.add(c == null ? Figures.NONE : got(c, !same) + closes(places.get(i).cell(), c));
      }
      table.row(null, row);
    }
    return table;
  }

  private static List<CellMobility.Check> checks(CellMobility cell) {
    List<CellMobility.Check> all = new ArrayList<>(cell.checks());
    cell.tightest().forEach(t -> all.add(t.check()));
    return all;
  }

  private static CellMobility.Check find(List<CellMobility.Check> checks, String what) {
    return checks.stream().filter(c -> c.what().equals(what)).findFirst().orElse(null);
  }

  private static String allowed(CellMobility.Check c) {
    return Double.isNaN(c.allowed())
        ? "not known"
        : c.allowed() < Float.MAX_VALUE ? Figures.sig(c.allowed()) : "any";
  }

  /**
   * Formats the value with the number of decimals that gives the allowed value three significant
   * digits.
   */
  private static String got(CellMobility.Check c, boolean withAllowed) {
    boolean bounded = c.allowed() > 0 && c.allowed() < Float.MAX_VALUE;
    int decimals = bounded ? 2 - (int) Math.floor(Math.log10(c.allowed())) : 0;
    String got =
        bounded ? Figures.fixed(c.got(), Math.max(0, Math.min(6, decimals))) : Figures.sig(c.got());
    return got + (withAllowed ? " / " + allowed(c) : "");
  }

  /** What a limit that is exceeded means for the drive; a limit of the whole cell shuts it. */
  private static String closes(CellMobility cell, CellMobility.Check c) {
    if (c.held()) {
      return "";
    }
    long closed =
        cell.headings().stream()
            .filter(h -> h.checks().stream().anyMatch(o -> o.what().equals(c.what()) && !o.held()))
            .count();
    return closed == 0
        ? " (beyond what is allowed)"
        : " (closes " + closed + " of " + cell.headings().size() + " headings)";
  }

  private static String words(CellMobility c) {
    if (c.headings().isEmpty()) {
      return "not judged";
    }
    long open = c.headings().stream().filter(OnHeading::allowed).count();
    return className(c) + ", " + open + " of " + c.headings().size() + " headings";
  }

  private static String className(CellMobility c) {
    return switch (c.cls()) {
      case Mobility.GO -> "go";
      case Mobility.SLOW -> "slow";
      case Mobility.NO_GO -> "no-go";
      default -> "not judged";
    };
  }
}
