package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.geodata.vector.CellSet;
import org.scarpway.reach.corridor.CorridorSolver;
import org.scarpway.reach.question.CorridorRequest;
import org.scarpway.reach.question.CorridorResult;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.Places;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.store.StageKey;

/** The stage corridor/NAME/: the corridor in which one route should be drawn. */
final class CorridorTask extends QuestionTask<CorridorResult> {
  private static final int VERSION = 16;

  private final CorridorRequest request;
  private final String vehicle;
  private final Supplier<TraversalInput> ground;
  private final CorridorProducts products;
  private final StageKey key;

  /**
   * @param mobility key of the vehicle's mobility
   * @param hazard key of the hazard, null if the corridor does not use it
   */
  CorridorTask(
      OpenJob job,
      Job.CorridorEntry entry,
      StageKey mobility,
      StageKey hazard,
      Supplier<TraversalInput> ground) {
    super(job, "corridor/" + entry.name());
    List<CorridorRequest.Stop> stops = new ArrayList<>();
    for (String name : entry.via()) {
      Places.Spot s = job.places().stop(name, entry.where());
      stops.add(new CorridorRequest.Stop(name, s.xM(), s.yM(), s.stayS()));
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
            entry.tradeOffs(),
            entry.reserves(),
            entry.suits());
    this.vehicle = entry.vehicle();
    this.ground = ground;
    this.products =
        new CorridorProducts(
            job.spec(),
            job.job().dem().body(),
            () -> job.stages().frame(),
            job.job().terrain().reconnaissance());
    StageKey.Builder key = StageKey.of("corridor", VERSION).add(mobility);
    if (hazard != null) {
      key.add(hazard);
    }
    this.key =
        key.add("request", request)
            .add("reconnaissance", job.job().terrain().reconnaissance())
            .build();
  }

  @Override
  public StageKey key() {
    return key;
  }

  @Override
  Answer<CorridorResult> solve(Path dir) {
    return CorridorSolver.answer(request, ground.get(), job.workers(), job.progress())::rows;
  }

  @Override
  List<RasterProduct<CorridorResult, ?>> rasters() {
    return CorridorProducts.rasters(request, vehicle);
  }

  @Override
  int areas() {
    return request.withinPct().size();
  }

  @Override
  IntPredicate inArea(int area, CorridorResult rows) {
    float[] excess = rows.excessPct().values();
    double pct = request.withinPct().get(area);
    return i -> excess[i] <= pct;
  }

  @Override
  void writePolygons(Path dir, CorridorResult result, List<CellSet> areas) {
    products.writePolygons(dir, request, areas);
  }

  @Override
  void writeRest(Path dir, CorridorResult result) {
    products.writeRest(dir, result);
  }

  @Override
  public CorridorResult load(Path dir) {
    return CorridorProducts.load(
        dir,
        request,
        vehicle,
        job.strips().shown().floats(dir.resolve(CorridorProducts.EXCESS + ".tif")));
  }
}
