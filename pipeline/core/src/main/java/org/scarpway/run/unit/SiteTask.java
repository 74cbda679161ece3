package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Supplier;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.scarpway.config.Job;
import org.scarpway.geodata.vector.Feature;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.run.product.Layers;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;
import org.scarpway.site.FigureSpread;
import org.scarpway.site.RankStability;
import org.scarpway.site.SiteComparison;
import org.scarpway.site.SiteFigures;
import org.scarpway.site.SiteGround;
import org.scarpway.site.SiteInput;
import org.scarpway.site.SiteParams;
import org.scarpway.site.SiteScore;

/**
 * The stage sites/: the candidates evaluated by the same questions and ranked, and the sensitivity
 * of the ranking.
 */
public final class SiteTask implements StageTask<SiteTask.Ranking> {
  private static final int VERSION = 11;
  private static final long SEED = 20_260_101L;
  private static final int DRAWS = 2000;

  /** Fraction by which each weight is varied up and down. */
  public static final double WEIGHT_SPREAD = 0.5;

  /**
   * Candidates, best first, and the ranking under other weights and on other realisations of the
   * ground.
   *
   * @param notShown names of limits of the vehicles that the reach relies on and the cells do not
   *     resolve
   * @param spread of the figures over realisations of the height error; empty if none are asked for
   */
  public record Ranking(
      List<SiteScore> scores,
      List<RankStability> stability,
      List<FigureSpread> spread,
      String notShown) {}

  /** A score as stored. */
  record StoredScore(StoredFigures figures, int rank, double score01, boolean onParetoFront) {}

  /** The result as stored for the next run. */
  record Stored(
      List<StoredScore> scores,
      List<RankStability> stability,
      List<FigureSpread> spread,
      String notShown) {}

  private final OpenJob job;
  private final GridSpec spec;
  private final SiteParams params;
  private final SiteRealisations.Measured measured;
  private final Supplier<SiteGround> ground;
  private final Supplier<List<SiteInput>> candidates;
  private final Supplier<String> notShown;
  private final StageKey key;

  /**
   * @param hazard key of the hazard
   * @param mobility key of a vehicle's mobility
   * @param upstream keys of everything else the candidates' answers come from
   * @param candidates evaluated only if the ranking has to be computed again
   * @param notShown names of limits of their vehicles that the cells do not resolve
   */
  SiteTask(
      OpenJob job,
      StageKey hazard,
      Function<String, StageKey> mobility,
      List<StageKey> upstream,
      Supplier<SiteGround> ground,
      Supplier<List<SiteInput>> candidates,
      Supplier<String> notShown) {
    Job.SiteSettings settings = job.job().sites();
    this.job = job;
    this.spec = job.spec();
    this.params = SiteEllipses.params(settings);
    this.ground = ground;
    this.candidates = candidates;
    this.notShown = notShown;
    StageKey figures = restsOn("figures of sites", job, hazard, upstream).build();
    this.measured = new SiteRealisations.Measured(figures, hazard, mobility);
    this.key =
        restsOn("sites", job, hazard, upstream)
            .add("weights", settings.weights())
            .add("monte carlo", settings.monteCarlo() == null ? "none" : settings.monteCarlo())
            .build();
  }

  /** Returns the key of what depends on everything but the weights. */
  private static StageKey.Builder restsOn(
      String stage, OpenJob job, StageKey hazard, List<StageKey> upstream) {
    Job.SiteSettings settings = job.job().sites();
    List<Places.Spot> spots =
        settings.candidates().stream().map(n -> job.places().stop(n, settings.where())).toList();
    StageKey.Builder key =
        StageKey.of(stage, VERSION)
            .add("ellipse", settings.ellipseLongM() + " x " + settings.ellipseShortM())
            .add("ellipse azimuth", settings.ellipseAzimuthDeg())
            .add("places", spots.stream().map(s -> s.name() + " " + s.xM() + " " + s.yM()).toList())
            .add("upstream hazard", hazard.hex());
    for (int i = 0; i < upstream.size(); i++) {
      key.add("upstream " + i, upstream.get(i).hex());
    }
    return key;
  }

  @Override
  public String id() {
    return "sites";
  }

  @Override
  public boolean isQuestion() {
    return true;
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

  private Ranking compute(Path dir) {
    List<SiteInput> inputs = candidates.get();
    List<SiteScore> scores;
    try (SiteGround open = ground.get()) {
      scores = SiteComparison.compare(params, open, inputs);
    }
    List<SiteFigures> figures = scores.stream().map(SiteScore::figures).toList();
    List<RankStability> stability = new ArrayList<>();
    stability.addAll(
        RankStability.overWeights(figures, params.weights(), WEIGHT_SPREAD, DRAWS, SEED));
    stability.addAll(RankStability.overAnyWeights(figures, params.weights(), DRAWS, SEED));
    if (job.job().sites().monteCarlo() == null) {
      return new Ranking(scores, stability, List.of(), notShown.get());
    }
    List<List<SiteFigures>> drawn = new SiteRealisations(job, params, measured).measure(dir);
    stability.addAll(RankStability.overRealisations(drawn, params.weights()));
    return new Ranking(scores, stability, FigureSpread.of(drawn), notShown.get());
  }

  @Override
  public void make(Path dir) {
    Ranking r = compute(dir);
    SiteTables.writeRanking(
        dir.resolve("ranking.csv"), r.scores(), r.notShown(), job.stages().frame());
    SiteTables.writeStability(dir.resolve("stability.csv"), r.stability());
    if (!r.spread().isEmpty()) {
      SiteTables.writeSpread(dir.resolve("height_error.csv"), r.spread());
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
    Layers.write(
        dir.resolve("sites.gpkg"),
        spec,
        Layers.points(
            new Layers.Words("sites", "", "candidate sites", "Candidate sites with rank and score"),
            points));
    Layers.writeGeoJson(dir.resolve("sites.geojson"), spec, job.job().dem().body(), points);
    List<Feature> ellipses = SiteEllipses.features(params, spec, r.scores());
    Layers.write(
        dir.resolve("ellipses.gpkg"),
        spec,
        Layers.polygons(
            new Layers.Words(
                "ellipses",
                "",
                "landing ellipses",
                "Areas that hold 99 % of touchdowns, with rank of the site"),
            ellipses));
    Layers.writeGeoJson(dir.resolve("ellipses.geojson"), spec, job.job().dem().body(), ellipses);
    StoredResult.write(
        dir,
        new Stored(
            r.scores().stream().map(SiteTask::stored).toList(),
            r.stability(),
            r.spread(),
            r.notShown()));
  }

  @Override
  public Ranking load(Path dir) {
    Stored stored = StoredResult.read(dir, Stored.class);
    return new Ranking(
        stored.scores().stream().map(SiteTask::score).toList(),
        stored.stability(),
        stored.spread(),
        stored.notShown());
  }

  private static StoredScore stored(SiteScore s) {
    return new StoredScore(StoredFigures.of(s.figures()), s.rank(), s.score01(), s.onParetoFront());
  }

  private static SiteScore score(StoredScore s) {
    return new SiteScore(s.figures().figures(), s.rank(), s.score01(), s.onParetoFront());
  }
}
