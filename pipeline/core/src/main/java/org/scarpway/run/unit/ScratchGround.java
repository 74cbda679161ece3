package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Function;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.run.ground.FleetEnvelope;
import org.scarpway.run.ground.GroundStages;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.SoftCached;
import org.scarpway.run.ground.Strips;
import org.scarpway.stage.Floats;
import org.scarpway.stage.ScratchFile;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.FieldRows;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.WalkStage;
import org.scarpway.vehicle.Walking;

/**
 * Ground larger than memory: read from finished rasters, and for reach and corridors, which look at
 * all of it in any order, put into scratch files on first use.
 */
final class ScratchGround implements FinishedGround {
  private final OpenJob job;
  private final GridSpec spec;
  private final Function<String, Path> folders;
  private final SoftCached<Shape> shape = new SoftCached<>(this::shape);
  private final SoftCached<Walking> walker = new SoftCached<>(this::walk);
  private final SoftCached<Floats> hazard01 =
      new SoftCached<>(() -> layer(HazardTask.ID, "hazard"));
  private final Map<Vehicle, SoftCached<TraversalCost>> fields = new HashMap<>();

  /** Demands of the finished hazard; null if it is not all in its rasters. */
  private FleetEnvelope hazardOf;

  /** Costs of the strips of vehicles whose mobility is being computed. */
  private final Map<Vehicle, FieldRows> coming = new HashMap<>();

  private final Map<Vehicle, SoftCached<Floats>> margins = new HashMap<>();

  private record Shape(Floats heightM, Floats gradEast, Floats gradNorth) {}

  /**
   * @param folders the folder of a finished stage
   */
  ScratchGround(OpenJob job, Function<String, Path> folders) {
    this.job = job;
    this.spec = job.spec();
    this.folders = folders;
  }

  @Override
  public void computed(Terrain strip) {
    // Its rasters hold it.
  }

  @Override
  public void computed(FleetEnvelope demands, Hazard strip) {
    // Rasters hold all of a hazard but its rocks.
    hazardOf = strip.boulders().isEmpty() ? demands : null;
  }

  @Override
  public HazardRows hazard(FleetEnvelope demands) {
    GroundStages.HazardRows rows = job.stages().hazardStrips(spec, demands);
    return demands.equals(hazardOf)
        ? new HazardFiles(
            folders.apply(HazardTask.ID), rows.strips().keepOut()::outline, job.workers())
        : HazardRows.computed(rows);
  }

  @Override
  public void computed(Mobility strip, int skipRows, int rows) {
    if (!Strips.looksAtAll(job.job())) {
      return;
    }
    FieldRows field = coming.computeIfAbsent(strip.vehicle(), v -> fieldRows());
    field.add(strip.field(), skipRows, rows);
    if (field.isWhole()) {
      coming.remove(strip.vehicle());
      field(strip.vehicle()).put(field.field());
    }
  }

  @Override
  public TerrainRows terrain() {
    return new TerrainFiles(folders.apply(TerrainTask.ID), spec, job.workers());
  }

  private SoftCached<TraversalCost> field(Vehicle vehicle) {
    return fields.computeIfAbsent(vehicle, v -> new SoftCached<>(() -> drive(v)));
  }

  @Override
  public TraversalInput of(Vehicle vehicle) {
    TraversalCost field = field(vehicle).get();
    return new TraversalInput(vehicle, field, null, shape.get().heightM(), null, null, null);
  }

  @Override
  public TraversalInput withMargins(Vehicle vehicle, boolean withHazard) {
    TraversalInput plain = of(vehicle);
    Floats margin01 =
        margins
            .computeIfAbsent(
                vehicle, v -> new SoftCached<>(() -> layer(MobilityTask.id(v), "margin")))
            .get();
    return new TraversalInput(
        vehicle,
        plain.field(),
        null,
        plain.heightM(),
        margin01,
        withHazard ? hazard01.get() : null,
        null);
  }

  private Floats layer(String stage, String name) {
    Floats all = Floats.of(spec.cells(), job.workers().memory().scratch());
    read(stage, name, all);
    return all;
  }

  private void read(String stage, String name, Floats all) {
    float[] part = new float[job.strips().rows() * spec.cols()];
    try (RasterRows<float[]> file =
        RasterRows.open(folders.apply(stage).resolve(name + ".tif"), CellKind.FLOAT32)) {
      job.strips()
          .each(
              (firstRow, rows) -> {
                file.read(firstRow, rows, part);
                all.write(firstRow * spec.cols(), part, 0, rows * spec.cols());
              });
    }
  }

  @Override
  public Walking walker() {
    return walker.get();
  }

  private Shape shape() {
    ScratchFile file = job.workers().memory().scratch();
    Shape s =
        new Shape(
            Floats.of(spec.cells(), file),
            Floats.of(spec.cells(), file),
            Floats.of(spec.cells(), file));
    read(TerrainTask.ID, TerrainTask.ELEVATION, s.heightM);
    read(TerrainTask.ID, TerrainTask.EAST, s.gradEast);
    read(TerrainTask.ID, TerrainTask.NORTH, s.gradNorth);
    return s;
  }

  private TraversalCost drive(Vehicle vehicle) {
    FieldRows field = fieldRows();
    new MobilityStrips(job, vehicle, this)
        .each((m, fromRow, skipRows, rows) -> field.add(m.field(), skipRows, rows));
    return field.field();
  }

  private FieldRows fieldRows() {
    Shape s = shape.get();
    return new FieldRows(job.workers().memory(), spec, s.gradEast(), s.gradNorth());
  }

  private Walking walk() {
    FieldRows field = fieldRows();
    long[] cells = new long[2];
    Walking[] last = new Walking[1];
    job.progress().begin("walking of " + job.job().walker().name(), spec.cells());
    try (TerrainRows terrain = terrain();
        RasterRows<byte[]> causes =
            RasterRows.open(folders.apply(HazardTask.ID).resolve("causes.tif"), CellKind.UINT8)) {
      job.strips()
          .each(
              WalkStage.HALO_ROWS,
              (top, fromRow, rows, end) -> {
                Terrain t = terrain.rows(top, end - top);
                ByteGrid here = ByteGrid.empty(t.gradEast().spec());
                causes.read(top, end - top, here.values());
                Walking strip = job.stages().walkerOnStrip(t, here, fromRow - top, rows);
                field.add(strip.field(), fromRow - top, rows);
                cells[0] += strip.gentleCells();
                cells[1] += strip.steppedCells();
                last[0] = strip;
                job.progress().advance((long) rows * spec.cols());
              });
    }
    job.progress().end();
    return new Walking(
        field.field(),
        cells[0],
        cells[1],
        last[0].maxStepM(),
        last[0].hiddenStepM(),
        last[0].peakSeconds(),
        last[0].sustained(),
        last[0].suited());
  }
}
