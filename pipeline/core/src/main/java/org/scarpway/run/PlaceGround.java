package org.scarpway.run;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.dem.Dem;
import org.scarpway.dem.HeightRows;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainStage;
import org.scarpway.terrain.TerrainStrips;
import org.scarpway.vehicle.CellMobility;
import org.scarpway.vehicle.MobilityExplain;
import org.scarpway.vehicle.MoveField;
import org.scarpway.vehicle.SoilMap;
import org.scarpway.vehicle.Vehicle;

/**
 * The ground about single places with the values that a run gives them, to the last bit: what
 * depends on all ground is settled on all ground, and a window about the place holds every cell
 * that its values look at.
 */
final class PlaceGround {
  private final OpenJob open;
  private final GroundStages stages;
  private final GridSpec spec;
  private final TerrainStrips strips;
  private final Map<Demands, GroundStages.HazardRows> hazards = new HashMap<>();
  private final SoilLayer soils;
  private final double radiusM;
  private Here last;

  /**
   * A place with the ground about it.
   *
   * @param top row of the whole grid under the first one of the terrain
   * @param left column likewise
   * @param cell of the place in the terrain
   */
  record Here(Terrain terrain, int top, int left, int cell, int wholeCell, double heightM) {
    private GridSpec window() {
      return terrain.slopeDeg().spec();
    }
  }

  /**
   * Looks at every height once.
   *
   * @throws org.scarpway.stage.UserError where the ground is too small to be measured
   */
  PlaceGround(OpenJob open) {
    this.open = open;
    this.stages = open.stages();
    this.spec = open.spec();
    HeightRows heights =
        open.strips() == null ? HeightRows.of(open.dem().get().heightM()) : open.ground().get();
    TerrainParams params = stages.terrainParams(spec);
    this.strips = new TerrainStrips(heights, params);
    this.soils = stages.soilLayer(spec);
    int halo = hazards(Demands.of(open.job().vehicles())).haloRows();
    for (Vehicle v : open.job().vehicles()) {
      halo = Math.max(halo, hazards(v).haloRows());
      halo = Math.max(halo, MobilityStrips.haloRows(v, spec));
    }
    int cells = TerrainStage.haloRows(params, spec) + halo + 4;
    this.radiusM = cells * Math.max(spec.cellXM(), spec.cellYM());
  }

  /** The place must lie on the grid. */
  Here at(double xM, double yM) {
    int whole = spec.cellOf(xM, yM);
    if (last != null && last.wholeCell == whole) {
      return last;
    }
    Dem near = open.ground().get().around(xM, yM, radiusM);
    GridSpec window = near.heightM().spec();
    int top = (int) Math.round((spec.northM() - window.northM()) / spec.cellYM());
    int left = (int) Math.round((window.westM() - spec.westM()) / spec.cellXM());
    int cell = (whole / spec.cols() - top) * window.cols() + whole % spec.cols() - left;
    Terrain terrain = strips.window(near.heightM(), open.workers());
    double heightM = near.datumM() + near.heightM().values()[cell];
    last = new Here(terrain, top, left, cell, whole, heightM);
    return last;
  }

  /** Every limit of the vehicle there. */
  CellMobility explain(Here here, Vehicle vehicle) {
    Hazard own = hazards(vehicle).window(here.terrain, here.top, here.left);
    GridSpec window = here.window();
    SoilMap soil =
        soils == null ? null : soils.window(here.top, here.left, window.rows(), window.cols());
    return MobilityExplain.at(
        here.terrain,
        own,
        vehicle,
        soil,
        open.job().dem().body(),
        open.job().terrain().unresolved(),
        here.cell);
  }

  /** Whether the job's walker can stand there. */
  boolean walkable(Here here) {
    Hazard hazard =
        hazards(Demands.of(open.job().vehicles())).window(here.terrain, here.top, here.left);
    MoveField field = stages.walkerOnStrip(here.terrain, hazard);
    return field.allowed(here.cell) != 0;
  }

  /** Fraction of the ground under rocks there, NaN where it is not known. */
  double rockCoverage(Here here) {
    return stages.rockCoverage(spec, here.wholeCell);
  }

  private GroundStages.HazardRows hazards(Vehicle vehicle) {
    return hazards(Demands.of(List.of(vehicle)));
  }

  private GroundStages.HazardRows hazards(Demands demands) {
    return hazards.computeIfAbsent(demands, d -> stages.hazardStrips(spec, d));
  }
}
