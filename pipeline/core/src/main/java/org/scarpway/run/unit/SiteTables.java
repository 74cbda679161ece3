package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.Column;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.run.product.PlaceTable;
import org.scarpway.site.FigureSpread;
import org.scarpway.site.RankStability;
import org.scarpway.site.SiteFigure;
import org.scarpway.site.SiteScore;

/** Writes the tables of sites/. */
public final class SiteTables {
  private static final List<Column<RankStability>> STABILITY =
      List.of(
          Column.text("site", RankStability::site),
          Column.text("varied", RankStability::what),
          Column.whole("draws", RankStability::draws),
          Column.number("first_pct", 2, RankStability::firstPct),
          Column.number("mean_rank", 3, RankStability::meanRank),
          Column.whole("best_rank", RankStability::bestRank),
          Column.whole("worst_rank", RankStability::worstRank));

  private static final List<Column<FigureSpread>> SPREAD =
      List.of(
          Column.text("site", FigureSpread::site),
          Column.text("figure", s -> s.figure().key()),
          Column.text("unit", s -> s.figure().unit()),
          Column.whole("realisations", FigureSpread::known),
          Column.number("mean", 4, FigureSpread::mean),
          Column.number("standard_deviation", 4, FigureSpread::sigma),
          Column.number("least", 4, FigureSpread::least),
          Column.number("most", 4, FigureSpread::most));

  private SiteTables() {}

  /**
   * @param notShown names of limits that the reach relies on and the cells do not resolve
   */
  static void writeRanking(Path file, List<SiteScore> scores, String notShown, PlaceFrame frame) {
    List<Column<SiteScore>> columns = new ArrayList<>();
    columns.add(Column.text("site", s -> s.figures().name()));
    columns.add(Column.whole("rank", SiteScore::rank));
    columns.add(Column.number("score", 4, SiteScore::score01));
    columns.add(Column.text("pareto_front", s -> s.onParetoFront() ? "yes" : "no"));
    columns.add(Column.number("x_m", 2, s -> s.figures().xM()));
    columns.add(Column.number("y_m", 2, s -> s.figures().yM()));
    columns.add(Column.number("void_pct", 2, s -> s.figures().voidPct()));
    for (SiteFigure f : SiteFigure.values()) {
      columns.add(Column.number(f.key(), 4, s -> s.figures().value(f)));
    }
    List<String> questions = questions(scores);
    for (int i = 0; i < questions.size(); i++) {
      int q = i;
      columns.add(
          Column.number(
              "surely_km2 " + questions.get(i),
              4,
              s -> s.figures().areas().get(q).surelyM2() / 1e6));
    }
    columns.add(Column.text("limits_not_resolved", s -> notShown));
    PlaceTable.write(file, columns, scores, frame);
  }

  /**
   * Names of the questions that every candidate was asked, in order; one that has another name at
   * some candidate has all of them. Empty if the candidates were not asked the same.
   */
  public static List<String> questions(List<SiteScore> scores) {
    List<String> names = new ArrayList<>();
    int asked = scores.get(0).figures().areas().size();
    if (scores.stream().anyMatch(s -> s.figures().areas().size() != asked)) {
      return names;
    }
    for (int i = 0; i < asked; i++) {
      int q = i;
      String name =
          String.join(
              " or ",
              new TreeSet<>(
                  scores.stream().map(s -> s.figures().areas().get(q).question()).toList()));
      String free = name;
      for (int k = 2; names.contains(free); k++) {
        free = name + " " + k;
      }
      names.add(free);
    }
    return names;
  }

  static void writeStability(Path file, List<RankStability> stability) {
    CsvTable.write(file, STABILITY, stability);
  }

  static void writeSpread(Path file, List<FigureSpread> spread) {
    CsvTable.write(file, SPREAD, spread);
  }
}
