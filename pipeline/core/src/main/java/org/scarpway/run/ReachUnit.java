package org.scarpway.run;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.dem.Dem;
import org.scarpway.geodata.RasterIo;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.Ground;
import org.scarpway.reach.ReachRequest;
import org.scarpway.reach.ReachResult;
import org.scarpway.reach.ReachSolver;
import org.scarpway.reach.WalkHome;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.MoveField;

/** reach/NAME/: one question of how far and still home. */
final class ReachUnit implements Unit<ReachResult> {
  private static final int VERSION = 2;

  private final ReachRequest request;
  private final String vehicle;
  private final List<ReachRequest.Target> targets;
  private final Dem dem;
  private final Supplier<Mobility> mobility;
  private final Supplier<WalkHome> walkHome;
  private final Workers workers;
  private final Progress progress;
  private final RasterIo io;
  private final ReachProducts products;
  private final StageKey key;

  /**
   * @param walker costs on foot; asked for by the rule walk-back only
   */
  ReachUnit(
      Job job,
      Job.ReachEntry entry,
      Places places,
      Dem dem,
      StageKey mobilityKey,
      Supplier<Mobility> mobility,
      Supplier<MoveField> walker,
      RasterIo io,
      Workers workers,
      Progress progress) {
    Places.Spot base = places.stop(entry.from(), entry.where());
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
    this.targets = places.targets();
    this.dem = dem;
    this.mobility = mobility;
    boolean walks = entry.home() == ReachRequest.HomeRule.WALK_BACK;
    this.walkHome = () -> walks ? WalkHome.toBase(job.walker(), walker.get()) : null;
    this.workers = workers;
    this.progress = progress;
    this.io = io;
    this.products = new ReachProducts(spec(), job.dem().body(), io);
    this.key =
        StageKey.of("reach", VERSION)
            .add(mobilityKey)
            .add("request", request)
            .add("targets", targets)
            .add("walker", walks ? job.walker() : "none")
            .build();
  }

  private GridSpec spec() {
    return dem.heightM().spec();
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
    return spec().cells();
  }

  @Override
  public ReachResult compute() {
    return ReachSolver.solve(
        request,
        new Ground(mobility.get(), dem.heightM()),
        walkHome.get(),
        targets,
        workers,
        progress);
  }

  @Override
  public void write(Path dir, ReachResult result) {
    products.write(dir, result, new FileBatch(io, workers));
  }

  @Override
  public ReachResult load(Path dir) {
    return products.load(dir, request, vehicle);
  }
}
