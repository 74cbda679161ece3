package org.scarpway.run.unit;

import java.lang.ref.SoftReference;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Function;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.hazard.Hazard;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.run.ground.FleetEnvelope;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.SoftCached;
import org.scarpway.run.product.ShownCells;
import org.scarpway.run.unit.KeptDriving.Driving;
import org.scarpway.stage.Floats;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.Walking;

/** Ground kept in memory while there is room; what was released is read or computed again. */
final class MemoryGround implements FinishedGround {
  private final OpenJob job;
  private final Function<String, Path> folders;
  private final SoftCached<Terrain> terrain = new SoftCached<>(this::readTerrain);
  private final KeptDriving kept;
  private final Map<Vehicle, SoftCached<Driving>> driving = new HashMap<>();
  private final SoftCached<Walking> walker = new SoftCached<>(this::walk);
  private final Map<FleetEnvelope, SoftReference<Hazard>> hazards = new HashMap<>();

  /**
   * @param folders the folder of a finished stage
   * @param kept ground of vehicles from earlier runs
   */
  MemoryGround(OpenJob job, Function<String, Path> folders, KeptDriving kept) {
    this.job = job;
    this.folders = folders;
    this.kept = kept;
  }

  @Override
  public void computed(Terrain all) {
    terrain.put(all);
  }

  @Override
  public void computed(FleetEnvelope demands, Hazard all) {
    hazards.put(demands, new SoftReference<>(all));
  }

  @Override
  public HazardRows hazard(FleetEnvelope demands) {
    HazardRows anew = HazardRows.computed(job.stages().hazardStrips(job.spec(), demands));
    SoftReference<Hazard> held = hazards.get(demands);
    Hazard all = held == null ? null : held.get();
    return all == null ? anew : new Held(all);
  }

  private record Held(Hazard all) implements HazardRows {
    @Override
    public int haloRows() {
      return 0;
    }

    @Override
    public Hazard strip(Terrain terrain, int firstRow) {
      return all;
    }
  }

  @Override
  public void computed(Mobility all, int skipRows, int rows) {
    kept.keep(all);
    driving(all.vehicle()).put(Driving.of(all));
  }

  @Override
  public TerrainRows terrain() {
    return (firstRow, rows) -> terrain.get();
  }

  private Terrain readTerrain() {
    try (TerrainFiles files =
        new TerrainFiles(folders.apply(TerrainTask.ID), job.spec(), job.workers())) {
      return files.rows(0, job.spec().rows());
    }
  }

  private SoftCached<Driving> driving(Vehicle vehicle) {
    return driving.computeIfAbsent(vehicle, v -> new SoftCached<>(() -> keptOrComputed(v)));
  }

  private Driving keptOrComputed(Vehicle vehicle) {
    Driving before = kept.of(vehicle);
    if (before != null) {
      return before;
    }
    Mobility[] all = {null};
    new MobilityStrips(job, vehicle, this).each((m, fromRow, skipRows, rows) -> all[0] = m);
    kept.keep(all[0]);
    return Driving.of(all[0]);
  }

  @Override
  public TraversalInput of(Vehicle vehicle) {
    Driving d = driving(vehicle).get();
    return input(vehicle, d, null, null);
  }

  @Override
  public TraversalInput withMargins(Vehicle vehicle, boolean withHazard) {
    FloatGrid hazard01 = withHazard ? shown().floats(hazardFile("hazard")) : null;
    Driving d = driving(vehicle).get();
    FloatGrid margin01 = d.margin01();
    if (margin01 == null) {
      margin01 = shown().floats(folders.apply(MobilityTask.id(vehicle)).resolve("margin.tif"));
    }
    return input(vehicle, d, margin01, hazard01);
  }

  private TraversalInput input(Vehicle vehicle, Driving d, FloatGrid margin01, FloatGrid hazard01) {
    return new TraversalInput(
        vehicle,
        d.field(),
        d.limit(),
        Floats.of(heightM().values()),
        margin01 == null ? null : Floats.of(margin01.values()),
        hazard01 == null ? null : Floats.of(hazard01.values()),
        null);
  }

  private FloatGrid heightM() {
    int rows = job.spec().rows();
    return new FloatGrid(job.spec(), job.heights().rows(0, rows, null));
  }

  private ShownCells shown() {
    return job.strips().shown();
  }

  private Path hazardFile(String name) {
    return folders.apply(HazardTask.ID).resolve(name + ".tif");
  }

  @Override
  public Walking walker() {
    return walker.get();
  }

  private Walking walk() {
    ByteGrid causes = shown().codes(hazardFile("causes"));
    return job.stages().walker(terrain.get(), causes);
  }
}
