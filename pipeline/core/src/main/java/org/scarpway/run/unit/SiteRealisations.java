package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.dem.Dem;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.run.ground.GroundStages;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.run.ground.SiteQuestions;
import org.scarpway.run.ground.SoftCached;
import org.scarpway.run.ground.Strips;
import org.scarpway.run.store.StageKey;
import org.scarpway.site.SiteComparison;
import org.scarpway.site.SiteFigures;
import org.scarpway.site.SiteGround;
import org.scarpway.site.SiteInput;
import org.scarpway.site.SiteParams;
import org.scarpway.site.SiteReach;
import org.scarpway.stage.Progress;
import org.scarpway.terrain.ErrorField;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.Walking;

/**
 * Evaluates the candidates on realisations of the height error: terrain, hazard, mobility and every
 * reach question are computed as if each realisation were the elevation model. The effect of the
 * height error on a comparison cannot be derived from the slope error alone, since a gap may open
 * or close.
 */
final class SiteRealisations {
  /** Raised when a change of the code changes a realisation. */
  private static final int VERSION = 1;

  private final OpenJob job;
  private final SiteParams params;
  private final StageKey hazard;
  private final Function<String, StageKey> mobility;

  /**
   * @param hazard key of the hazard on the ground as measured
   * @param mobility key of a vehicle's mobility there
   */
  SiteRealisations(
      OpenJob job, SiteParams params, StageKey hazard, Function<String, StageKey> mobility) {
    this.params = params;
    this.hazard = hazard;
    this.mobility = mobility;
    // The stages of a realisation are steps of one stage here, which reports its own progress.
    GroundStages quiet = new GroundStages(job.job(), job.io(), job.workers(), Progress.NONE);
    this.job =
        new OpenJob(
            job.job(),
            job.spec(),
            Strips.whole(job.spec()),
            job.places(),
            job.digests(),
            job.ground(),
            job.dem(),
            quiet,
            job.io(),
            job.workers(),
            Progress.NONE);
  }

  /** Returns the figures of all candidates in the job's order, for each realisation. */
  List<List<SiteFigures>> measure(Progress progress) {
    Job.MonteCarlo asked = job.job().sites().monteCarlo();
    GridSpec spec = job.spec();
    Dem dem = job.dem().get();
    ErrorField errors =
        new ErrorField(
            "sites.monte_carlo",
            spec,
            job.job().dem().verticalSigmaM(),
            job.job().dem().correlationLengthM(),
            asked.seed(),
            null,
            job.workers());
    float[][] drawn = new float[2][spec.cells()];
    List<List<SiteFigures>> all = new ArrayList<>();
    progress.begin("sites on realisations of the ground", asked.realisations());
    while (all.size() < asked.realisations()) {
      int k = all.size() % 2;
      if (k == 0) {
        errors.draw(all.size() / 2, job.workers());
        errors.add(0, spec.rows(), dem.heightM().values(), drawn[0], drawn[1], job.workers());
      }
      Dem one = new Dem(new FloatGrid(spec, drawn[k]), dem.datumM(), dem.body(), List.of());
      all.add(figures(all.size(), one));
      progress.advance(1);
    }
    progress.end();
    return all;
  }

  /**
   * Returns the key of a stage on a realisation, given that on the ground as measured. Answers are
   * kept by it.
   */
  private StageKey drawn(StageKey measured, int k) {
    return StageKey.of("realisation", VERSION)
        .add(measured)
        .add("seed", job.job().sites().monteCarlo().seed())
        .add("number", k)
        .build();
  }

  private List<SiteFigures> figures(int k, Dem drawn) {
    Terrain terrain = job.stages().terrain(drawn);
    Hazard hazard = job.stages().hazard(terrain);
    Map<Vehicle, Mobility> known = new HashMap<>();
    Supplier<Walking> walker =
        new SoftCached<>(() -> job.stages().walker(terrain, hazard.causes()));
    List<SiteInput> candidates = new ArrayList<>();
    for (String name : job.job().sites().candidates()) {
      Places.Spot spot = job.places().stop(name, job.job().sites().where());
      List<SiteReach> answers = new ArrayList<>();
      for (Job.ReachEntry question : SiteQuestions.of(job.job(), name)) {
        Mobility m = mobility(vehicle(question.vehicle()), terrain, known);
        // A base that is no-go in a realisation has no reach there. The same applies under
        // walk-back if the base or a refuge cannot be walked.
        if (stands(m.field(), spot) && canWalk(question, spot, walker)) {
          TraversalInput plain = new TraversalInput(m, drawn.heightM());
          Vehicle loaded = JobVehicles.loaded(job.job(), question);
          TraversalInput ground =
              loaded == null
                  ? plain
                  : plain.withLoaded(m.field().withLoad(mobility(loaded, terrain, known).field()));
          answers.add(
              new ReachTask(
                      job,
                      question,
                      drawn(mobility.apply(question.vehicle()), k),
                      drawn(this.hazard, k),
                      () -> ground,
                      () -> "",
                      walker)
                  .siteReach(null));
        }
      }
      candidates.add(new SiteInput(name, spot.xM(), spot.yM(), answers));
    }
    String first = job.job().vehicles().get(0).name();
    SiteGround ground =
        SiteGround.of(
            terrain.slopeDeg(), hazard.hazard01(), mobility(vehicle(first), terrain, known).cls());
    return candidates.stream().map(c -> SiteComparison.measure(params, ground, c)).toList();
  }

  private boolean canWalk(Job.ReachEntry question, Places.Spot base, Supplier<Walking> walker) {
    return question.home() != HomeRule.WALK_BACK
        || (stands(walker.get().field(), base)
            && question.refuges().stream()
                .allMatch(
                    r -> stands(walker.get().field(), job.places().stop(r, question.where()))));
  }

  private boolean stands(TraversalCost field, Places.Spot spot) {
    return field.allowed(job.spec().cellOf(spot.xM(), spot.yM())) != 0;
  }

  private Vehicle vehicle(String name) {
    return JobVehicles.vehicle(job.job(), name);
  }

  private Mobility mobility(Vehicle vehicle, Terrain terrain, Map<Vehicle, Mobility> known) {
    return known.computeIfAbsent(vehicle, v -> job.stages().mobility(terrain, v));
  }
}
