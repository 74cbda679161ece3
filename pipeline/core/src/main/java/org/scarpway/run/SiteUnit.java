package org.scarpway.run;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Supplier;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.config.Job;
import org.scarpway.geodata.CsvTable;
import org.scarpway.geodata.CsvTable.Column;
import org.scarpway.geodata.Feature;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.report.ReportData;
import org.scarpway.site.FigureSpread;
import org.scarpway.site.RankStability;
import org.scarpway.site.SiteComparison;
import org.scarpway.site.SiteFigure;
import org.scarpway.site.SiteFigures;
import org.scarpway.site.SiteInput;
import org.scarpway.site.SiteParams;
import org.scarpway.site.SiteScore;
import org.scarpway.terrain.Terrain;

/** sites/: the candidates measured by the same questions, ranked, and how steady the ranking is. */
final class SiteUnit implements Unit<SiteUnit.Ranking> {
  private static final int VERSION = 3;
  private static final long SEED = 20_260_101L;
  private static final int DRAWS = 2000;
  private static final double WEIGHT_SPREAD = 0.5;

  /**
   * Candidates, best first, and the ranking under other weights and on other ground.
   *
   * @param spread of the figures over realisations of the height error; empty where none are asked
   */
  record Ranking(
      List<SiteScore> scores, List<RankStability> stability, List<FigureSpread> spread) {}

  /**
   * A score with its figures in the order of {@link SiteFigure}, so that it is stored in one order.
   */
  record StoredScore(
      String name,
      double xM,
      double yM,
      List<Double> values,
      List<SiteFigures.ReachedArea> areas,
      double voidPct,
      int rank,
      double score01,
      boolean onParetoFront) {}

  /** What is kept for the next run. */
  record Stored(
      List<StoredScore> scores, List<RankStability> stability, List<FigureSpread> spread) {}

  private final OpenJob job;
  private final GridSpec spec;
  private final SiteParams params;
  private final StageKey hazardKey;
  private final Supplier<Terrain> terrain;
  private final Supplier<Hazard> hazard;
  private final Supplier<List<SiteInput>> candidates;
  private final StageKey key;

  /**
   * @param upstream keys of everything the candidates' answers come from, the hazard's first
   * @param candidates measured only if the ranking has to be made anew
   */
  SiteUnit(
      OpenJob job,
      List<StageKey> upstream,
      Supplier<Terrain> terrain,
      Supplier<Hazard> hazard,
      Supplier<List<SiteInput>> candidates) {
    Job.SiteSettings settings = job.job().sites();
    List<Places.Spot> spots =
        settings.candidates().stream().map(n -> job.places().stop(n, settings.where())).toList();
    this.job = job;
    this.spec = job.spec();
    this.params = params(settings);
    this.hazardKey = upstream.get(0);
    this.terrain = terrain;
    this.hazard = hazard;
    this.candidates = candidates;
    StageKey.Builder key =
        StageKey.of("sites", VERSION)
            .add("ellipse", settings.ellipseLongM() + " x " + settings.ellipseShortM())
            .add("weights", settings.weights())
            .add("monte carlo", settings.monteCarlo() == null ? "none" : settings.monteCarlo())
            .add(
                "places", spots.stream().map(s -> s.name() + " " + s.xM() + " " + s.yM()).toList());
    for (int i = 0; i < upstream.size(); i++) {
      key.add("upstream " + i, upstream.get(i).hex());
    }
    this.key = key.build();
  }

  private static SiteParams params(Job.SiteSettings settings) {
    Map<SiteFigure, Double> weights = new EnumMap<>(SiteFigure.class);
    for (Job.Weight w : settings.weights()) {
      weights.put(SiteFigure.ofKey(w.figure()).orElseThrow(), w.weight());
    }
    return new SiteParams(settings.ellipseLongM(), settings.ellipseShortM(), 0, weights);
  }

  @Override
  public String id() {
    return "sites";
  }

  @Override
  public StageKey key() {
    return key;
  }

  @Override
  public long cells() {
    Job.MonteCarlo drawn = job.job().sites().monteCarlo();
    return (long) spec.cells() * (drawn == null ? 1 : 1 + drawn.realisations());
  }

  @Override
  public Ranking compute() {
    List<SiteScore> scores =
        SiteComparison.compare(params, terrain.get(), hazard.get(), candidates.get());
    List<SiteFigures> figures = scores.stream().map(SiteScore::figures).toList();
    List<RankStability> stability = new ArrayList<>();
    stability.addAll(
        RankStability.overWeights(figures, params.weights(), WEIGHT_SPREAD, DRAWS, SEED));
    stability.addAll(RankStability.overAnyWeights(figures, params.weights(), DRAWS, SEED));
    if (job.job().sites().monteCarlo() == null) {
      return new Ranking(scores, stability, List.of());
    }
    List<List<SiteFigures>> drawn =
        new SiteRealisations(job, params, hazardKey).measure(job.progress());
    stability.addAll(RankStability.overRealisations(drawn, params.weights()));
    return new Ranking(scores, stability, FigureSpread.of(drawn));
  }

  @Override
  public void write(Path dir, Ranking r) {
    writeRanking(dir.resolve("ranking.csv"), r.scores());
    writeStability(dir.resolve("stability.csv"), r.stability());
    if (!r.spread().isEmpty()) {
      writeSpread(dir.resolve("height_error.csv"), r.spread());
    }
    List<Feature> points = new ArrayList<>();
    for (SiteScore s : r.scores()) {
      Map<String, Object> about = new LinkedHashMap<>();
      about.put("name", s.figures().name());
      about.put("rank", s.rank());
      about.put("score", s.score01());
      points.add(
          new Feature(
              new GeometryFactory().createPoint(new Coordinate(s.figures().xM(), s.figures().yM())),
              about));
    }
    Layers.write(dir.resolve("sites.gpkg"), spec, Layers.points("sites", points));
    StoredResult.write(
        dir,
        new Stored(r.scores().stream().map(SiteUnit::stored).toList(), r.stability(), r.spread()));
  }

  @Override
  public Ranking load(Path dir) {
    Stored stored = StoredResult.read(dir, Stored.class);
    return new Ranking(
        stored.scores().stream().map(SiteUnit::score).toList(),
        stored.stability(),
        stored.spread());
  }

  /** The ranking as tables of the report. */
  static List<ReportData.Table> tables(Ranking r) {
    List<String> header = new ArrayList<>(List.of("site", "rank", "score", "Pareto front"));
    for (SiteFigure f : SiteFigure.values()) {
      header.add(f.label() + " (" + f.unit() + ")");
    }
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
        row.add(text(s.figures().value(f)));
      }
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
    tables.add(new ReportData.Table("Ranking of the candidate sites", summary(r), header, rows));
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

  /** Figures as measured beside what they are on realisations of the ground. */
  private static ReportData.Table spreadTable(Ranking r) {
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

  private static String spreadSummary(Ranking r) {
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
        : String.format(
            Locale.ROOT,
            "%s; the area reached from it is %.4g km2 on average (%.4g to %.4g), %.4g as measured.",
            first,
            reach.mean(),
            reach.least(),
            reach.most(),
            best.figures().value(SiteFigure.REACH_AREA));
  }

  private static void writeSpread(Path file, List<FigureSpread> spread) {
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

  private static String summary(Ranking r) {
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
        100 * WEIGHT_SPREAD,
        steady.firstPct(),
        steady.draws());
  }

  private static String text(double v) {
    if (Double.isNaN(v)) {
      return "none";
    }
    return Double.isInfinite(v) ? "beyond the map" : String.format(Locale.ROOT, "%.4g", v);
  }

  private static void writeRanking(Path file, List<SiteScore> scores) {
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
      rows.add(row);
    }
    CsvTable.write(file, columns, rows);
  }

  private static void writeStability(Path file, List<RankStability> stability) {
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

  private static StoredScore stored(SiteScore s) {
    List<Double> values = new ArrayList<>();
    for (SiteFigure f : SiteFigure.values()) {
      values.add(s.figures().value(f));
    }
    return new StoredScore(
        s.figures().name(),
        s.figures().xM(),
        s.figures().yM(),
        values,
        s.figures().areas(),
        s.figures().voidPct(),
        s.rank(),
        s.score01(),
        s.onParetoFront());
  }

  private static SiteScore score(StoredScore s) {
    Map<SiteFigure, Double> values = new EnumMap<>(SiteFigure.class);
    for (SiteFigure f : SiteFigure.values()) {
      values.put(f, s.values().get(f.ordinal()));
    }
    return new SiteScore(
        new SiteFigures(s.name(), s.xM(), s.yM(), values, s.areas(), s.voidPct()),
        s.rank(),
        s.score01(),
        s.onParetoFront());
  }
}
