package org.scarpway.run.unit;

import java.util.ArrayList;
import java.util.List;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.run.ground.FleetEnvelope;
import org.scarpway.run.ground.GroundStages;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.SoilLayer;
import org.scarpway.terrain.FootprintFit;
import org.scarpway.terrain.Terrain;
import org.scarpway.vehicle.ClassCells;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.MobilityCounts;
import org.scarpway.vehicle.SlowGround;
import org.scarpway.vehicle.SoilMap;
import org.scarpway.vehicle.Unresolved;
import org.scarpway.vehicle.Vehicle;

/** Computes the mobility of one vehicle on strips of finished terrain with halo rows around. */
final class MobilityStrips {
  private final OpenJob job;
  private final GridSpec spec;
  private final Vehicle vehicle;
  private final FinishedGround ground;

  /**
   * @param ground with the finished terrain
   */
  MobilityStrips(OpenJob job, Vehicle vehicle, FinishedGround ground) {
    this.job = job;
    this.spec = job.spec();
    this.vehicle = vehicle;
    this.ground = ground;
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
  record Rest(Unresolved unresolved, SlowGround slow, ClassCells cells, List<String> notes) {}

  /**
   * Receives one computed strip, whose first {@code skipRows} rows are halo and must be skipped.
   */
  interface OnStrip {
    void take(Mobility strip, int fromRow, int skipRows, int rows);
  }

  /**
   * @return the results for all strips together
   */
  Rest each(OnStrip use) {
    GroundStages stages = job.stages();
    SoilLayer soils = stages.soilLayer(spec);
    MobilityCounts counts = new MobilityCounts();
    ClassCells.Tally cells = new ClassCells.Tally();
    List<String> notes = new ArrayList<>();
    Unresolved[] unresolved = {null};
    SlowGround[] slow = {null};
    job.progress().begin("mobility of " + vehicle.name(), 3L * spec.cells());
    FleetEnvelope demands = FleetEnvelope.of(job.job(), List.of(vehicle));
    try (FinishedGround.TerrainRows terrain = ground.terrain();
        FinishedGround.HazardRows hazards = ground.hazard(demands)) {
      // The probability of a step needs the halo from which the steps themselves were measured.
      boolean sure = stages.trust(spec).errors() == null;
      int steps = sure ? 0 : FootprintFit.haloRows(stages.terrainParams(spec), spec);
      int halo = Math.max(Math.max(haloRows(vehicle, spec), hazards.haloRows()), steps);
      job.strips()
          .each(
              halo,
              (top, fromRow, rows, end) -> {
                Terrain t = terrain.rows(top, end - top);
                Hazard own = hazards.strip(t, top);
                SoilMap here = soils == null ? null : soils.rows(top, end - top);
                counts.next(fromRow - top, rows);
                Mobility strip = stages.mobility(t, own, here, vehicle, counts);
                // The counts are running totals, so the notes after the last strip cover all
                // strips.
                notes.clear();
                notes.addAll(strip.notes());
                unresolved[0] = strip.unresolved();
                slow[0] = strip.slow();
                cells.add(strip, (fromRow - top) * spec.cols(), rows * spec.cols());
                use.take(strip, fromRow, fromRow - top, rows);
              });
    }
    job.progress().end();
    notes.addAll(soils == null ? List.of() : soils.notes());
    return new Rest(unresolved[0], slow[0], cells.cells(spec.cellAreaM2()), notes);
  }
}
