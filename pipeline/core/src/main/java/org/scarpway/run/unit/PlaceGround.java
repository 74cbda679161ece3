package org.scarpway.run.unit;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.scarpway.dem.Dem;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.run.ground.FleetEnvelope;
import org.scarpway.run.ground.GroundStages;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.ground.SoilLayer;
import org.scarpway.terrain.FootprintFit;
import org.scarpway.terrain.TerrainLayers;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.terrain.TerrainStrips;
import org.scarpway.vehicle.CellMobility;
import org.scarpway.vehicle.HeightTrust;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.MobilityExplain;
import org.scarpway.vehicle.OnFoot;
import org.scarpway.vehicle.SoilMap;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.WalkStage;

/**
 * The ground around single places, with exactly the values that a run computes, to the last bit:
 * whatever depends on all ground is determined from all ground, and a window around the place
 * includes every cell that its values depend on.
 */
public final class PlaceGround {
  /** Side (cells) of the blocks by which places are evaluated. */
  private static final int BLOCK_CELLS = 32;

  private final OpenJob open;
  private final GroundStages stages;
  private final GridSpec spec;
  private final TerrainStrips strips;
  private final Map<FleetEnvelope, GroundStages.HazardRows> hazards = new HashMap<>();
  private final SoilLayer soils;
  private final double radiusM;
  private final Map<Vehicle, MobilityExplain.Limits> limits = new HashMap<>();
  private Block last;

  /** Terrain and hazards shared by the places of one block. */
  private record Block(
      int index,
      TerrainLayers layers,
      double datumM,
      int top,
      int left,
      Map<FleetEnvelope, Hazard> hazards,
      SoilMap soils) {}

  /**
   * A place with the ground around it.
   *
   * @param top row of the whole grid that is the first row of the layers
   * @param left column of the whole grid that is the first column of the layers
   * @param cell of the place in the layers
   * @param wholeCell of the place in the whole grid
   */
  public record Here(
      TerrainLayers layers, int top, int left, int cell, int wholeCell, double heightM) {}

  /**
   * Reads every height once.
   *
   * @throws org.scarpway.stage.UserError if the ground is too small to be evaluated
   */
  public PlaceGround(OpenJob open) {
    this.open = open;
    this.stages = open.stages();
    this.spec = open.spec();
    TerrainParams params = stages.terrainParams(spec);
    this.strips = new TerrainStrips(open.heights(), params);
    this.soils = stages.soilLayer(spec);
    int halo = hazards(FleetEnvelope.of(open.job(), open.job().vehicles())).haloRows();
    for (Vehicle v : open.job().vehicles()) {
      halo = Math.max(halo, hazards(v).haloRows());
      halo = Math.max(halo, MobilityStrips.haloRows(v, spec));
    }
    int cells = FootprintFit.haloRows(params, spec) + halo + 4;
    this.radiusM = (BLOCK_CELLS / 2 + 1 + cells) * Math.max(spec.cellXM(), spec.cellYM());
  }

  /**
   * Returns the ground around a place, which must lie on the grid. Cheap if the previous place was
   * in the same block.
   */
  public Here at(double xM, double yM) {
    int whole = spec.cellOf(xM, yM);
    int row = Math.floorDiv(whole, spec.cols());
    int col = whole % spec.cols();
    if (last == null || last.index != block(xM, yM)) {
      last = blockOf(row, col, block(xM, yM));
    }
    GridSpec part = last.layers.terrain().slopeDeg().spec();
    int cell = (row - last.top) * part.cols() + col - last.left;
    double heightM = last.datumM + last.layers.terrain().heightM().values()[cell];
    return new Here(last.layers, last.top, last.left, cell, whole, heightM);
  }

  /**
   * Returns the number of the block that contains a place; to evaluate many places, go block by
   * block.
   */
  public int block(double xM, double yM) {
    int across = (spec.cols() + BLOCK_CELLS - 1) / BLOCK_CELLS;
    return spec.rowOf(yM) / BLOCK_CELLS * across + spec.colOf(xM) / BLOCK_CELLS;
  }

  private Block blockOf(int row, int col, int index) {
    int midRow = Math.min(spec.rows() - 1, row / BLOCK_CELLS * BLOCK_CELLS + BLOCK_CELLS / 2);
    int midCol = Math.min(spec.cols() - 1, col / BLOCK_CELLS * BLOCK_CELLS + BLOCK_CELLS / 2);
    Dem near = open.ground().get().around(spec.xM(midCol), spec.yM(midRow), radiusM);
    GridSpec part = near.heightM().spec();
    int top = (int) Math.round((spec.northM() - part.northM()) / spec.cellYM());
    int left = (int) Math.round((part.westM() - spec.westM()) / spec.cellXM());
    TerrainLayers layers = strips.window(near.heightM(), open.workers());
    SoilMap soil = soils == null ? null : soils.window(top, left, part.rows(), part.cols());
    return new Block(index, layers, near.datumM(), top, left, new HashMap<>(), soil);
  }

  /** Evaluates every limit of the vehicle there. */
  public CellMobility explain(Here here, Vehicle vehicle) {
    return explain(
        here, vehicle, limits.computeIfAbsent(vehicle, v -> limits(v, stages.trust(spec))));
  }

  /** True if the vehicle can use the place provided that the heights are exactly as measured. */
  public boolean openAsMeasured(Here here, Vehicle vehicle) {
    byte cls = explain(here, vehicle, limits(vehicle, HeightTrust.AS_MEASURED)).cls();
    return cls == Mobility.GO || cls == Mobility.SLOW;
  }

  private CellMobility explain(Here here, Vehicle vehicle, MobilityExplain.Limits held) {
    Block b = block(here);
    Hazard hazard = hazard(b, FleetEnvelope.of(open.job(), List.of(vehicle)));
    return MobilityExplain.at(b.layers.terrain(), hazard, held, b.soils, here.cell);
  }

  private MobilityExplain.Limits limits(Vehicle vehicle, HeightTrust trust) {
    return new MobilityExplain.Limits(
        vehicle, open.job().dem().body(), open.job().terrain().unresolved(), trust);
  }

  /** Holds the place against every limit of the job's walker. */
  public OnFoot onFoot(Here here) {
    Hazard hazard = hazard(block(here), FleetEnvelope.of(open.job(), open.job().vehicles()));
    return WalkStage.at(
        here.layers.terrain(),
        hazard.causes(),
        open.job().walker(),
        open.job().dem().body(),
        here.cell);
  }

  private Block block(Here here) {
    int row = here.wholeCell / spec.cols();
    int col = here.wholeCell % spec.cols();
    int index = block(spec.xM(col), spec.yM(row));
    if (last == null || last.index != index) {
      last = blockOf(row, col, index);
    }
    return last;
  }

  private Hazard hazard(Block b, FleetEnvelope demands) {
    return b.hazards.computeIfAbsent(
        demands, d -> hazards(d).window(b.layers.terrain(), b.top, b.left));
  }

  /** Returns the fraction of the ground covered by rocks there, NaN where it is unknown. */
  public double rockCoverage(Here here) {
    return stages.rockCoverage(spec, here.wholeCell);
  }

  private GroundStages.HazardRows hazards(Vehicle vehicle) {
    return hazards(FleetEnvelope.of(open.job(), List.of(vehicle)));
  }

  private GroundStages.HazardRows hazards(FleetEnvelope demands) {
    return hazards.computeIfAbsent(demands, d -> stages.hazardStrips(spec, d));
  }
}
