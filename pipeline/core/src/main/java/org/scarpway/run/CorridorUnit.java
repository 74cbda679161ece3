package org.scarpway.run;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.dem.Dem;
import org.scarpway.geodata.RasterIo;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.CorridorRequest;
import org.scarpway.reach.CorridorResult;
import org.scarpway.reach.CorridorSolver;
import org.scarpway.reach.Ground;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.vehicle.Mobility;

/** corridor/NAME/: the ground in which one route should be drawn. */
final class CorridorUnit implements Unit<CorridorResult> {
  private static final int VERSION = 2;

  private final CorridorRequest request;
  private final String vehicle;
  private final Dem dem;
  private final Supplier<Mobility> mobility;
  private final Workers workers;
  private final Progress progress;
  private final CorridorProducts products;
  private final StageKey key;

  CorridorUnit(
      Job.CorridorEntry entry,
      Places places,
      Dem dem,
      StageKey mobilityKey,
      Supplier<Mobility> mobility,
      RasterIo io,
      Workers workers,
      Progress progress) {
    List<CorridorRequest.Stop> stops = new ArrayList<>();
    for (String name : entry.via()) {
      Places.Spot s = places.stop(name, entry.where());
      stops.add(new CorridorRequest.Stop(name, s.xM(), s.yM()));
    }
    this.request =
        new CorridorRequest(
            entry.name(), stops, entry.cost(), entry.withinPct(), entry.alternatives());
    this.vehicle = entry.vehicle();
    this.dem = dem;
    this.mobility = mobility;
    this.workers = workers;
    this.progress = progress;
    this.products = new CorridorProducts(spec(), io);
    this.key = StageKey.of("corridor", VERSION).add(mobilityKey).add("request", request).build();
  }

  private GridSpec spec() {
    return dem.heightM().spec();
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
    return spec().cells();
  }

  @Override
  public CorridorResult compute() {
    return CorridorSolver.solve(
        request, new Ground(mobility.get(), dem.heightM()), workers, progress);
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
