package org.scarpway.run;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.reach.Ground;
import org.scarpway.reach.ReachRequest;
import org.scarpway.reach.ReachResult;
import org.scarpway.reach.ReachSolver;
import org.scarpway.reach.WalkHome;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.MoveField;

/** reach/NAME/: one question of how far and still home. */
final class ReachUnit implements Unit<ReachResult> {
  private static final int VERSION = 2;

  private final ReachRequest request;
  private final String vehicle;
  private final List<ReachRequest.Target> targets;
  private final OpenJob job;
  private final Supplier<Mobility> mobility;
  private final Supplier<WalkHome> walkHome;
  private final ReachProducts products;
  private final StageKey key;

  /**
   * @param walker costs on foot; asked for by the rule walk-back only
   */
  ReachUnit(
      OpenJob job,
      Job.ReachEntry entry,
      StageNode<Mobility> mobility,
      StageKey hazard,
      Supplier<MoveField> walker) {
    Places.Spot base = job.places().stop(entry.from(), entry.where());
    this.request =
        new ReachRequest(
            entry.name(),
            entry.from(),
            base.xM(),
            base.yM(),
            entry.budget(),
            entry.home(),
            entry.bands(),
            entry.stayS());
    this.vehicle = entry.vehicle();
    this.targets = job.places().targets();
    this.job = job;
    this.mobility = mobility;
    boolean walks = entry.home() == ReachRequest.HomeRule.WALK_BACK;
    List<WalkHome.Refuge> refuges = new ArrayList<>();
    for (String name : entry.refuges()) {
      Places.Spot s = job.places().stop(name, entry.where());
      refuges.add(new WalkHome.Refuge(name, s.xM(), s.yM()));
    }
    this.walkHome = () -> walks ? WalkHome.of(job.job().walker(), walker.get(), refuges) : null;
    this.products = new ReachProducts(job.spec(), job.job().dem().body(), job.io());
    this.key =
        StageKey.of("reach", VERSION)
            .add(mobility.key())
            .add("request", request)
            .add("targets", targets)
            .add("walker", walks ? job.job().walker() : "none")
            .add("refuges", refuges)
            .add("ground on foot", walks ? hazard.hex() : "none")
            .build();
  }

  @Override
  public String id() {
    return "reach/" + request.name();
  }

  @Override
  public StageKey key() {
    return key;
  }

  @Override
  public long cells() {
    return job.spec().cells();
  }

  @Override
  public ReachResult compute() {
    return ReachSolver.solve(
        request,
        new Ground(mobility.get(), job.dem().get().heightM()),
        walkHome.get(),
        targets,
        job.workers(),
        job.progress());
  }

  @Override
  public void write(Path dir, ReachResult result) {
    products.write(dir, result, job.stages().files());
  }

  @Override
  public ReachResult load(Path dir) {
    return products.load(dir, request, vehicle);
  }
}
