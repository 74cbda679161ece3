package org.scarpway.run.unit;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.geodata.tiff.CellKind;
import org.scarpway.geodata.tiff.RasterRows;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.reach.question.TraversalInput;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.SoftCached;
import org.scarpway.run.unit.TerrainFiles.Layer;
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
 * Ground larger than memory as reach needs it: the whole grid in scratch files, filled from the
 * finished rasters. Made on first use and shared by the questions of a job.
 */
final class ScratchGround {
  private static final List<Layer> LAYERS = List.of(Layer.ELEVATION, Layer.EAST, Layer.NORTH);

  private final OpenJob job;
  private final GridSpec spec;
  private final StageNode<Terrain> terrain;
  private final StageNode<Hazard> hazard;
  private final SoftCached<Shape> shape = new SoftCached<>(this::shape);
  private final SoftCached<Walking> walker = new SoftCached<>(this::walk);
  private final SoftCached<Floats> hazard01 = new SoftCached<>(this::hazard01);
  private final Map<Vehicle, SoftCached<TraversalCost>> fields = new HashMap<>();
  private final Map<Vehicle, SoftCached<Floats>> margins = new HashMap<>();

  private record Shape(Floats heightM, Floats gradEast, Floats gradNorth) {}

  ScratchGround(OpenJob job, StageNode<Terrain> terrain, StageNode<Hazard> hazard) {
    this.job = job;
    this.spec = job.spec();
    this.terrain = terrain;
    this.hazard = hazard;
  }

  TraversalInput of(Vehicle vehicle) {
    TraversalCost field =
        fields.computeIfAbsent(vehicle, v -> new SoftCached<>(() -> drive(v))).get();
    return new TraversalInput(vehicle, field, null, shape.get().heightM(), null, null, null);
  }

  /**
   * Returns the ground with the vehicle's margins.
   *
   * @param mobility the finished stage of the vehicle
   * @param withHazard true to include the hazard
   */
  TraversalInput of(Vehicle vehicle, StageNode<Mobility> mobility, boolean withHazard) {
    TraversalInput plain = of(vehicle);
    Floats margin01 =
        margins
            .computeIfAbsent(vehicle, v -> new SoftCached<>(() -> layer(mobility, "margin.tif")))
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

  private Floats layer(StageNode<?> stage, String name) {
    Floats all = Floats.of(spec.cells(), job.workers().memory().scratch());
    float[] part = new float[job.strips().rows() * spec.cols()];
    try (RasterRows<float[]> file =
        RasterRows.open(stage.folder().resolve(name), CellKind.FLOAT32)) {
      job.strips()
          .each(
              (firstRow, rows) -> {
                file.read(firstRow, rows, part);
                all.write(firstRow * spec.cols(), part, 0, rows * spec.cols());
              });
    }
    return all;
  }

  Walking walker() {
    return walker.get();
  }

  private Shape shape() {
    ScratchFile file = job.workers().memory().scratch();
    Floats heightM = Floats.of(spec.cells(), file);
    Floats east = Floats.of(spec.cells(), file);
    Floats north = Floats.of(spec.cells(), file);
    try (TerrainFiles files = new TerrainFiles(terrain.folder(), spec, LAYERS)) {
      job.strips()
          .each(
              (firstRow, rows) -> {
                Terrain t = files.rows(firstRow, rows);
                int at = firstRow * spec.cols();
                int n = rows * spec.cols();
                heightM.write(at, t.heightM().values(), 0, n);
                east.write(at, t.gradEast().values(), 0, n);
                north.write(at, t.gradNorth().values(), 0, n);
              });
    }
    return new Shape(heightM, east, north);
  }

  private Floats hazard01() {
    return layer(hazard, "hazard.tif");
  }

  private TraversalCost drive(Vehicle vehicle) {
    Shape s = shape.get();
    return new MobilityStrips(job, vehicle, terrain.folder()).field(s.gradEast(), s.gradNorth());
  }

  private Walking walk() {
    Shape s = shape.get();
    FieldRows field = new FieldRows(job.workers().memory(), spec, s.gradEast(), s.gradNorth());
    long[] cells = new long[2];
    Walking[] last = new Walking[1];
    job.progress().begin("walking of " + job.job().walker().name(), spec.cells());
    try (TerrainFiles files = new TerrainFiles(terrain.folder(), spec, LAYERS);
        RasterRows<byte[]> causes =
            RasterRows.open(hazard.folder().resolve("causes.tif"), CellKind.UINT8)) {
      job.strips()
          .each(
              (firstRow, rows) -> {
                int from = Math.max(0, firstRow - WalkStage.HALO_ROWS);
                int to = Math.min(spec.rows(), firstRow + rows + WalkStage.HALO_ROWS);
                Terrain t = files.rows(from, to - from);
                ByteGrid here = ByteGrid.empty(t.gradEast().spec());
                causes.read(from, to - from, here.values());
                Walking strip = job.stages().walkerOnStrip(t, here, firstRow - from, rows);
                field.add(strip.field(), firstRow - from, rows);
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
