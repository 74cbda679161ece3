package org.scarpway.run.unit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.config.Job;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.run.ground.JobVehicles;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Pair;
import org.scarpway.run.ground.Places;
import org.scarpway.run.ground.SiteQuestions;
import org.scarpway.run.store.StageKey;
import org.scarpway.site.SiteGround;
import org.scarpway.site.SiteInput;
import org.scarpway.site.SiteReach;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;

/**
 * A job's ground up to mobility on other heights than those of its elevation model, in a folder of
 * its own, and the candidates' questions on it.
 */
final class DrawnGround {
  private final OpenJob job;
  private final Keys keys;
  private final Path dir;
  private final FinishedGround ground;

  /** Keys of the stages on this ground, by which answers are kept. */
  interface Keys {
    StageKey hazard();

    StageKey mobility(String vehicle);
  }

  /**
   * Computes the ground.
   *
   * @param job on the other heights
   * @param dir for the rasters that later work reads, which must not be removed before it ends
   */
  DrawnGround(OpenJob job, Keys keys, Path dir) {
    this.job = job;
    this.keys = keys;
    this.dir = dir;
    this.ground =
        job.strips().inMemory()
            ? new MemoryGround(job, dir::resolve, new KeptDriving(job, null))
            : new ScratchGround(job, dir::resolve);
    new TerrainTask(job, ground).makeGround(folder(TerrainTask.ID));
    new HazardTask(job, keys.hazard(), ground).makeGround(folder(HazardTask.ID));
    new MobilityTask(job, first(), keys.hazard(), ground)
        .makeGround(folder(MobilityTask.id(first())));
  }

  private Vehicle first() {
    return job.job().vehicles().get(0);
  }

  private Path folder(String id) {
    try {
      return Files.createDirectories(dir.resolve(id));
    } catch (IOException e) {
      throw new StageFailure("cannot write " + dir.resolve(id) + ": " + Reason.of(e), e);
    }
  }

  /** Opens the layers on which sites are compared. */
  SiteGround sites() {
    return new SiteFiles(
        job.spec(),
        dir.resolve(TerrainTask.ID),
        dir.resolve(HazardTask.ID),
        dir.resolve(MobilityTask.id(first())));
  }

  /**
   * Answers the questions of all candidates. A base that is no-go on this ground has no reach. The
   * same applies under walk-back if the base or a refuge cannot be walked.
   */
  List<SiteInput> candidates() {
    List<SiteInput> all = new ArrayList<>();
    for (String name : job.job().sites().candidates()) {
      Places.Spot spot = job.places().stop(name, job.job().sites().where());
      List<SiteReach> answers = new ArrayList<>();
      for (Job.ReachEntry question : SiteQuestions.of(job.job(), name)) {
        if (JobVehicles.driving(job.job(), question).stream()
                .allMatch(v -> stands(ground.of(v).field(), spot))
            && canWalk(question, spot)) {
          answers.add(answer(question));
        }
      }
      all.add(new SiteInput(name, spot.xM(), spot.yM(), answers));
    }
    return all;
  }

  private SiteReach answer(Job.ReachEntry question) {
    return new ReachTask(
            job,
            question,
            keys::mobility,
            keys.hazard(),
            () -> input(question),
            () -> "",
            ground::walker)
        .siteReach(null);
  }

  private TraversalInput input(Job.ReachEntry question) {
    Pair pair = Pair.of(job.job(), question);
    if (pair != null) {
      return pair.ground(ground::of);
    }
    TraversalInput plain = ground.of(JobVehicles.vehicle(job.job(), question.vehicle()));
    Vehicle loaded = JobVehicles.loaded(job.job(), question);
    return loaded == null
        ? plain
        : plain.withLoaded(plain.field().withLoad(ground.of(loaded).field()));
  }

  private boolean canWalk(Job.ReachEntry question, Places.Spot base) {
    if (question.home() != HomeRule.WALK_BACK) {
      return true;
    }
    TraversalCost onFoot = ground.walker().field();
    return stands(onFoot, base)
        && question.refuges().stream()
            .allMatch(r -> stands(onFoot, job.places().stop(r, question.where())));
  }

  private boolean stands(TraversalCost field, Places.Spot spot) {
    return field.allowed(job.spec().cellOf(spot.xM(), spot.yM())) != 0;
  }
}
