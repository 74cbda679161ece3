package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.run.ground.FleetEnvelope;
import org.scarpway.run.ground.GroundStages;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.SoilLayer;
import org.scarpway.run.product.ProductFiles;
import org.scarpway.run.product.ShownCells;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.unit.TerrainFiles.Layer;
import org.scarpway.stage.Floats;
import org.scarpway.terrain.FootprintFit;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.FieldRows;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.MobilityCounts;
import org.scarpway.vehicle.SlowGround;
import org.scarpway.vehicle.SoilMap;
import org.scarpway.vehicle.TraversalCost;
import org.scarpway.vehicle.Unresolved;
import org.scarpway.vehicle.Vehicle;

/**
 * Mobility of one vehicle on ground larger than memory: computed on strips of finished terrain with
 * halo rows around them.
 */
final class MobilityStrips {
  private static final List<Layer> LAYERS =
      List.of(
          Layer.ELEVATION,
          Layer.SLOPE,
          Layer.EAST,
          Layer.NORTH,
          Layer.ROUGHNESS,
          Layer.STEP,
          Layer.CONVEXITY);

  private final OpenJob job;
  private final GridSpec spec;
  private final Vehicle vehicle;
  private final Path terrain;

  /**
   * @param terrain the folder of the finished terrain stage
   */
  MobilityStrips(OpenJob job, Vehicle vehicle, Path terrain) {
    this.job = job;
    this.spec = job.spec();
    this.vehicle = vehicle;
    this.terrain = terrain;
  }

  /**
   * Returns the number of halo rows: rows beyond a strip that its cells may depend on. They cover
   * all ground under the vehicle, and some more.
   */
  static int haloRows(Vehicle vehicle, GridSpec spec) {
    double lengthM = vehicle.body().lengthM();
    double axlesM = vehicle.wheels() == null ? 0 : vehicle.wheels().wheelbaseM();
    double reachM = Math.hypot(Math.max(lengthM, axlesM), vehicle.body().widthM());
    return 4 + (int) Math.ceil(reachM / spec.cellYM());
  }

  /** The parts of the result that are not in a raster. */
  record Rest(Unresolved unresolved, SlowGround slow, List<String> notes) {}

  /**
   * Receives one computed strip, whose first {@code skipRows} rows are halo and must be skipped.
   */
  private interface OnStrip {
    void take(Mobility strip, int skipRows, int rows);
  }

  /**
   * @return the results for all strips together
   */
  private Rest each(OnStrip use) {
    GroundStages stages = job.stages();
    SoilLayer soils = stages.soilLayer(spec);
    MobilityCounts counts = new MobilityCounts();
    List<String> notes = new ArrayList<>();
    Unresolved[] unresolved = {null};
    SlowGround[] slow = {null};
    job.progress().begin("mobility of " + vehicle.name(), spec.cells());
    try (TerrainFiles ground = new TerrainFiles(terrain, spec, LAYERS)) {
      GroundStages.HazardRows hazards =
          stages.hazardStrips(spec, FleetEnvelope.of(job.job(), List.of(vehicle)));
      // The probability of a step needs the halo from which the steps themselves were measured.
      boolean sure = stages.trust(spec).errors() == null;
      int steps = sure ? 0 : FootprintFit.haloRows(stages.terrainParams(spec), spec);
      int halo = Math.max(Math.max(haloRows(vehicle, spec), hazards.haloRows()), steps);
      job.strips()
          .each(
              (firstRow, rows) -> {
                int top = Math.max(0, firstRow - halo);
                int end = Math.min(spec.rows(), firstRow + rows + halo);
                Terrain t = ground.rows(top, end - top);
                Hazard own = hazards.strip(t, top);
                SoilMap here = soils == null ? null : soils.rows(top, end - top);
                counts.next(firstRow - top, rows);
                Mobility strip = stages.mobility(t, own, here, vehicle, counts);
                // The counts are running totals, so the notes after the last strip cover all
                // strips.
                notes.clear();
                notes.addAll(strip.notes());
                unresolved[0] = strip.unresolved();
                slow[0] = strip.slow();
                use.take(strip, firstRow - top, rows);
              });
    }
    job.progress().end();
    notes.addAll(soils == null ? List.of() : soils.notes());
    return new Rest(unresolved[0], slow[0], notes);
  }

  void write(Path dir, ProductFiles<Mobility> files, ClassAreas areas) {
    Rest rest =
        each(
            (m, skipRows, rows) -> {
              files.append(m, skipRows, rows);
              areas.add(m, skipRows, rows);
            });
    files.finish();
    areas.of(rest.unresolved(), rest.slow());
    StoredResult.write(dir, rest);
  }

  /**
   * Computes the open headings of every cell and their costs, again from the finished terrain.
   *
   * @param gradEast gradient of the whole grid towards the east, as in the terrain products
   * @param gradNorth the same towards the north
   */
  TraversalCost field(Floats gradEast, Floats gradNorth) {
    FieldRows field = new FieldRows(job.workers().memory(), spec, gradEast, gradNorth);
    each((m, skipRows, rows) -> field.add(m.field(), skipRows, rows));
    return field.field();
  }

  /** Returns the subsampled result shown in a report. */
  Mobility shown(Path dir) {
    Rest rest = StoredResult.read(dir, Rest.class);
    ShownCells shown = new ShownCells(spec, job.strips().shownStep());
    return new Mobility(
        vehicle,
        shown.codes(dir.resolve("class.tif")),
        shown.codes(dir.resolve("limit.tif")),
        shown.floats(dir.resolve("headings_pct.tif")),
        shown.floats(dir.resolve("speed_ms.tif")),
        null,
        null,
        job.stages().trust(spec).errors() == null ? null : shown.floats(dir.resolve("p_no_go.tif")),
        null,
        rest.unresolved(),
        rest.slow(),
        rest.notes());
  }
}
