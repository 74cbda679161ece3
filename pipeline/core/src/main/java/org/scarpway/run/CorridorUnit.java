package org.scarpway.run;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.grid.FloatGrid;
import org.scarpway.hazard.Hazard;
import org.scarpway.reach.CorridorRequest;
import org.scarpway.reach.CorridorResult;
import org.scarpway.reach.CorridorSolver;
import org.scarpway.reach.Ground;
import org.scarpway.vehicle.Mobility;

/** corridor/NAME/: the ground in which one route should be drawn. */
final class CorridorUnit implements Unit<CorridorResult> {
  private static final int VERSION = 3;

  private final CorridorRequest request;
  private final String vehicle;
  private final OpenJob job;
  private final Supplier<Mobility> mobility;
  private final Supplier<FloatGrid> hazard01;
  private final CorridorProducts products;
  private final StageKey key;

  /**
   * @param hazard asked for by trade-offs only
   */
  CorridorUnit(
      OpenJob job,
      Job.CorridorEntry entry,
      StageNode<Mobility> mobility,
      StageNode<Hazard> hazard) {
    List<CorridorRequest.Stop> stops = new ArrayList<>();
    for (String name : entry.via()) {
      Places.Spot s = job.places().stop(name, entry.where());
      stops.add(new CorridorRequest.Stop(name, s.xM(), s.yM()));
    }
    this.request =
        new CorridorRequest(
            entry.name(),
            stops,
            entry.anyOrder(),
            entry.cost(),
            entry.withinPct(),
            entry.alternatives(),
            entry.mostSharedPct(),
            entry.tradeOffs());
    this.vehicle = entry.vehicle();
    this.job = job;
    this.mobility = mobility;
    this.products = new CorridorProducts(job.spec(), job.io());
    boolean weighsHazard = entry.tradeOffs() > 0;
    this.hazard01 = () -> weighsHazard ? hazard.get().hazard01() : null;
    StageKey.Builder key = StageKey.of("corridor", VERSION).add(mobility.key());
    if (weighsHazard) {
      key.add(hazard.key());
    }
    this.key = key.add("request", request).build();
  }

  @Override
  public String id() {
    return "corridor/" + request.name();
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
  public CorridorResult compute() {
    return CorridorSolver.solve(
        request,
        new Ground(mobility.get(), job.dem().get().heightM(), hazard01.get()),
        job.workers(),
        job.progress());
  }

  @Override
  public void write(Path dir, CorridorResult result) {
    products.write(dir, result);
  }

  @Override
  public CorridorResult load(Path dir) {
    return products.load(dir, request, vehicle);
  }
}
