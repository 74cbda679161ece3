package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.table.CsvTable;
import org.scarpway.geodata.table.CsvTable.Column;
import org.scarpway.run.product.PlaceTable;
import org.scarpway.site.FigureSpread;
import org.scarpway.site.RankStability;
import org.scarpway.site.SiteFigure;
import org.scarpway.site.SiteScore;

/** Writes the tables of sites/. */
final class SiteTables {
  private SiteTables() {}

  /**
   * @param notShown names of limits that the reach relies on and the cells do not resolve
   */
  static void writeRanking(Path file, List<SiteScore> scores, String notShown, PlaceFrame frame) {
    List<Column> columns =
        new ArrayList<>(
            List.of(
                Column.text("site"),
                Column.text("rank"),
                Column.number("score", 4),
                Column.text("pareto_front"),
                Column.number("x_m", 2),
                Column.number("y_m", 2),
                Column.number("void_pct", 2)));
    for (SiteFigure f : SiteFigure.values()) {
      columns.add(Column.number(f.key(), 4));
    }
    columns.add(Column.text("limits_not_resolved"));
    List<List<Object>> rows = new ArrayList<>();
    for (SiteScore s : scores) {
      List<Object> row =
          new ArrayList<>(
              List.of(
                  s.figures().name(),
                  s.rank(),
                  s.score01(),
                  s.onParetoFront() ? "yes" : "no",
                  s.figures().xM(),
                  s.figures().yM(),
                  s.figures().voidPct()));
      for (SiteFigure f : SiteFigure.values()) {
        row.add(s.figures().value(f));
      }
      row.add(notShown);
      rows.add(row);
    }
    PlaceTable.write(file, columns, rows, frame);
  }

  static void writeStability(Path file, List<RankStability> stability) {
    List<List<Object>> rows = new ArrayList<>();
    for (RankStability s : stability) {
      rows.add(
          List.of(
              s.site(),
              s.what(),
              s.draws(),
              s.firstPct(),
              s.meanRank(),
              s.bestRank(),
              s.worstRank()));
    }
    CsvTable.write(
        file,
        List.of(
            Column.text("site"),
            Column.text("varied"),
            Column.text("draws"),
            Column.number("first_pct", 2),
            Column.number("mean_rank", 3),
            Column.text("best_rank"),
            Column.text("worst_rank")),
        rows);
  }

  static void writeSpread(Path file, List<FigureSpread> spread) {
    List<List<Object>> rows = new ArrayList<>();
    for (FigureSpread s : spread) {
      rows.add(
          List.of(
              s.site(),
              s.figure().key(),
              s.figure().unit(),
              s.known(),
              s.mean(),
              s.sigma(),
              s.least(),
              s.most()));
    }
    CsvTable.write(
        file,
        List.of(
            Column.text("site"),
            Column.text("figure"),
            Column.text("unit"),
            Column.text("realisations"),
            Column.number("mean", 4),
            Column.number("standard_deviation", 4),
            Column.number("least", 4),
            Column.number("most", 4)),
        rows);
  }
}
