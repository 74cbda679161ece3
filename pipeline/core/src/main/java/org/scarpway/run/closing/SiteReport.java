package org.scarpway.run.closing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.scarpway.report.ReportData;
import org.scarpway.run.unit.SiteEllipses;
import org.scarpway.run.unit.SiteTables;
import org.scarpway.run.unit.SiteTask;
import org.scarpway.site.FigureSpread;
import org.scarpway.site.LandingEllipse;
import org.scarpway.site.RankStability;
import org.scarpway.site.SiteFigure;
import org.scarpway.site.SiteRanking;
import org.scarpway.site.SiteScore;
import org.scarpway.stage.Digits;

/** The section of the report on the candidate sites. */
final class SiteReport {
  private SiteReport() {}

  /** Returns the ranking as tables of the report. */
  static List<ReportData.Table> tables(
      SiteTask.Ranking r, Map<SiteFigure, Double> weights, Map<String, LandingEllipse> ellipses) {
    List<String> header = new ArrayList<>(List.of("site", "rank", "score", "Pareto front"));
    List<String> questions = SiteTables.questions(r.scores());
    for (SiteFigure f : SiteFigure.values()) {
      if (f != SiteFigure.REACH_AREA || questions.isEmpty()) {
        header.add(f.label() + " (" + f.unit() + ")");
      }
    }
    questions.forEach(q -> header.add("surely reached by " + q + " (km2)"));
    header.add("limits not resolved");
    List<List<String>> rows = new ArrayList<>();
    for (SiteScore s : r.scores()) {
      List<String> row =
          new ArrayList<>(
              List.of(
                  s.figures().name(),
                  String.valueOf(s.rank()),
                  text(s.score01()),
                  s.onParetoFront() ? "yes" : "no"));
      for (SiteFigure f : SiteFigure.values()) {
        if (f != SiteFigure.REACH_AREA || questions.isEmpty()) {
          row.add(text(s.figures().value(f)));
        }
      }
      for (int q = 0; q < questions.size(); q++) {
        row.add(text(s.figures().areas().get(q).surelyM2() / 1e6));
      }
      row.add(r.notShown().isEmpty() ? "none" : r.notShown());
      rows.add(row);
    }
    List<List<String>> steady = new ArrayList<>();
    for (RankStability s : r.stability()) {
      steady.add(
          List.of(
              s.site(),
              s.what(),
              String.valueOf(s.draws()),
              text(s.firstPct()),
              text(s.meanRank()),
              s.bestRank() + " to " + s.worstRank()));
    }
    List<ReportData.Table> tables = new ArrayList<>();
    tables.add(
        new ReportData.Table(
            "Ranking of the candidate sites",
            summary(r)
                + reason(r.scores(), weights)
                + counted(r.scores())
                + " "
                + SiteEllipses.sentence(ellipses.values()),
            header,
            rows,
            null,
            contributions(r.scores(), weights)));
    tables.add(SiteEllipses.table(ellipses));
    tables.add(
        new ReportData.Table(
            "How steady the ranking is",
            "",
            List.of("site", "varied", "draws", "first in (%)", "mean rank", "ranks"),
            steady));
    if (!r.spread().isEmpty()) {
      tables.add(spreadTable(r));
    }
    return tables;
  }

  /** Figures on the ground as measured beside their spread over realisations of the ground. */
  private static ReportData.Table spreadTable(SiteTask.Ranking r) {
    List<List<String>> rows = new ArrayList<>();
    for (FigureSpread s : r.spread()) {
      SiteScore measured =
          r.scores().stream()
              .filter(c -> c.figures().name().equals(s.site()))
              .findFirst()
              .orElseThrow();
      rows.add(
          List.of(
              s.site(),
              s.figure().label() + " (" + s.figure().unit() + ")",
              text(measured.figures().value(s.figure())),
              text(s.mean()),
              text(s.sigma()),
              text(s.least()),
              text(s.most()),
              String.valueOf(s.known())));
    }
    return new ReportData.Table(
        "What the height error does to the candidates",
        spreadSummary(r),
        List.of(
            "site",
            "figure",
            "as measured",
            "mean",
            "standard deviation",
            "least",
            "most",
            "realisations with it"),
        rows);
  }

  private static String spreadSummary(SiteTask.Ranking r) {
    SiteScore best = r.scores().get(0);
    String site = best.figures().name();
    RankStability steady =
        r.stability().stream()
            .filter(s -> s.site().equals(site) && s.what().equals(RankStability.HEIGHT_ERROR))
            .findFirst()
            .orElseThrow();
    FigureSpread reach =
        r.spread().stream()
            .filter(s -> s.site().equals(site) && s.figure() == SiteFigure.REACH_AREA)
            .findFirst()
            .orElseThrow();
    String first =
        String.format(
            Locale.ROOT,
            "Measured anew on %d realisations of the stated height error, %s comes first in %.0f %%",
            steady.draws(),
            site,
            steady.firstPct());
    return reach.known() == 0
        ? first + "."
        : Digits.text(
            "%s; the area reached from it is %s km² on average (%s to %s), %s as measured.",
            first,
            reach.mean(),
            reach.least(),
            reach.most(),
            best.figures().value(SiteFigure.REACH_AREA));
  }

  private static ReportData.Contributions contributions(
      List<SiteScore> scores, Map<SiteFigure, Double> weights) {
    Map<SiteFigure, Double> most = SiteRanking.shares(weights);
    List<Map<SiteFigure, Double>> adds = SiteRanking.contributions(scores, weights);
    List<ReportData.Site> sites = new ArrayList<>();
    for (int i = 0; i < scores.size(); i++) {
      Map<SiteFigure, Double> of = adds.get(i);
      SiteScore s = scores.get(i);
      sites.add(
          new ReportData.Site(
              s.figures().name(), s.score01(), most.keySet().stream().map(of::get).toList()));
    }
    return new ReportData.Contributions(
        most.keySet().stream().map(SiteFigure::label).toList(), List.copyOf(most.values()), sites);
  }

  /** What puts the first candidate ahead of the second, and what speaks for the second. */
  private static String reason(List<SiteScore> scores, Map<SiteFigure, Double> weights) {
    if (scores.size() < 2) {
      return "";
    }
    List<String> ahead = new ArrayList<>();
    List<String> behind = new ArrayList<>();
    SiteRanking.lead(scores, weights).entrySet().stream()
        .sorted(Comparator.comparingDouble(e -> -Math.abs(e.getValue())))
        .forEach(
            e -> {
              SiteFigure f = e.getKey();
              List<String> to = e.getValue() > 0 ? ahead : behind;
              if (Math.abs(e.getValue()) >= 0.005) {
                // The site of which the sentence speaks comes first.
                int own = e.getValue() > 0 ? 0 : 1;
                to.add(
                    Digits.text(
                        "%s (%s against %s%s, %s of the score)",
                        f.label(),
                        text(scores.get(own).figures().value(f)),
                        text(scores.get(1 - own).figures().value(f)),
                        unit(f),
                        Math.abs(e.getValue())));
              }
            });
    String second = scores.get(1).figures().name();
    return (ahead.isEmpty()
            ? " Nothing puts it ahead of " + second + ": their scores are equal."
            : " Ahead of " + second + " by " + String.join(", ", ahead) + ".")
        + (behind.isEmpty() ? "" : " For " + second + " speaks " + String.join(", ", behind) + ".");
  }

  /** The unit after a number; none of a count or a share. */
  private static String unit(SiteFigure f) {
    return f.unit().equals("1") || f.unit().equals("count") ? "" : " " + f.unit();
  }

  /** Which reach questions the figures of reach and targets are counted over. */
  private static String counted(List<SiteScore> scores) {
    List<String> questions = SiteTables.questions(scores);
    return questions.isEmpty()
        ? ""
        : " Reach and targets are those of " + String.join(", ", questions) + ".";
  }

  private static String summary(SiteTask.Ranking r) {
    SiteScore best = r.scores().get(0);
    RankStability steady =
        r.stability().stream()
            .filter(s -> s.site().equals(best.figures().name()))
            .findFirst()
            .orElseThrow();
    return String.format(
        Locale.ROOT,
        "By the job's weights %s comes first of %d candidates (score %.2f); with the weights varied by up to %.0f %% it stays first in %.0f %% of %d draws.",
        best.figures().name(),
        r.scores().size(),
        best.score01(),
        100 * SiteTask.WEIGHT_SPREAD,
        steady.firstPct(),
        steady.draws());
  }

  private static String text(double v) {
    if (Double.isNaN(v)) {
      return "none";
    }
    return Double.isInfinite(v) ? "beyond the map" : Digits.of(v);
  }
}
