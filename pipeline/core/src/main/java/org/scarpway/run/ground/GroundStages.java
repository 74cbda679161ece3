package org.scarpway.run.ground;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Geometry;
import org.scarpway.config.Job;
import org.scarpway.dem.DemReader;
import org.scarpway.dem.DemRows;
import org.scarpway.dem.PlaceFrame;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.grid.ByteGrid;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.hazard.Hazard;
import org.scarpway.hazard.HazardParams;
import org.scarpway.hazard.HazardStrips;
import org.scarpway.hazard.RockParams;
import org.scarpway.hazard.RockRange;
import org.scarpway.run.product.KeepOutFile;
import org.scarpway.run.product.OverlayRaster;
import org.scarpway.run.product.ProductFiles;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.unit.PlaceGround;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;
import org.scarpway.terrain.LayerErrors;
import org.scarpway.terrain.Terrain;
import org.scarpway.terrain.TerrainParams;
import org.scarpway.vehicle.HeightTrust;
import org.scarpway.vehicle.Mobility;
import org.scarpway.vehicle.MobilityCounts;
import org.scarpway.vehicle.MobilityStage;
import org.scarpway.vehicle.RollingAgainstSoil;
import org.scarpway.vehicle.SlowWithoutSoil;
import org.scarpway.vehicle.SoilMap;
import org.scarpway.vehicle.UncheckedLimits;
import org.scarpway.vehicle.Vehicle;
import org.scarpway.vehicle.WalkStage;
import org.scarpway.vehicle.Walking;

/**
 * The stages from elevation to mobility with a job's settings, on all of its ground or on strips of
 * it. {@link PlaceGround} evaluates single places.
 */
public final class GroundStages {
  /**
   * Distance between rocks in a vehicle's path, in vehicle lengths, below which ground is slow. Own
   * choice.
   */
  private static final double SLOW_LENGTHS = 10;

  private final Job job;
  private final RasterIo io;
  private final Workers workers;
  private final Progress progress;
  private DemRows ground;
  private PlaceFrame frame;
  private HeightTrust trust;

  public GroundStages(Job job, RasterIo io, Workers workers, Progress progress) {
    this.job = job;
    this.io = io;
    this.workers = workers;
    this.progress = progress;
  }

  /**
   * Returns the warnings about vehicles and the job's files of areas. The files are read for them,
   * so that they are the same whichever stages were computed or reused.
   *
   * @param vehicles those of the job that matter
   */
  public List<String> warnings(List<Vehicle> vehicles) {
    List<String> warnings = new ArrayList<>();
    for (Vehicle v : vehicles) {
      RollingAgainstSoil.note(v, job.dem().body()).ifPresent(warnings::add);
      UncheckedLimits.note(v, job.soils() != null).ifPresent(warnings::add);
      SlowWithoutSoil.note(v, job.soils() != null).ifPresent(warnings::add);
    }
    keepOutAreas(FleetEnvelope.of(job, vehicles), warnings);
    soilLayer(frame().grid(), warnings);
    return warnings.stream().distinct().toList();
  }

  /** Returns a writer for the rasters of a stage, which are written concurrently. */
  public <S> ProductFiles<S> files(Path dir, GridSpec spec, List<RasterProduct<S, ?>> products) {
    return new ProductFiles<>(dir, spec, products, io, workers);
  }

  DemRows demRows() {
    if (ground == null) {
      ground = DemRows.open(job.dem(), io, workers);
    }
    return ground;
  }

  /** Returns the frame that maps places given by people to the grid. */
  public PlaceFrame frame() {
    if (frame == null) {
      frame = DemReader.frame(job.dem(), io);
    }
    return frame;
  }

  /**
   * Returns the terrain settings; lengths that the job leaves open come from its largest vehicle.
   */
  public TerrainParams terrainParams(GridSpec spec) {
    double wheelbaseM = 0;
    double footprintM = 0;
    double spacingM = 0;
    for (Vehicle v : job.vehicles()) {
      double baseM = v.wheels() == null ? v.body().lengthM() : v.wheels().wheelbaseM();
      double trackM = v.wheels() == null ? v.body().widthM() : v.wheels().widestTrackM();
      wheelbaseM = Math.max(wheelbaseM, baseM);
      footprintM = Math.max(footprintM, Math.hypot(baseM, trackM));
      spacingM = Math.max(spacingM, Math.min(baseM, trackM));
    }
    Double asked = job.terrain().baselineM();
    return new TerrainParams(
        job.terrain().slope(),
        asked == null ? Math.max(footprintM, 3 * spec.cellM()) : asked,
        spacingM,
        wheelbaseM,
        job.dem().verticalSigmaM(),
        job.dem().correlationLengthM(),
        FleetEnvelope.of(job, job.vehicles()).slopeDeg());
  }

  /** Returns the probability with which limits must hold, and what is known of the height error. */
  public HeightTrust trust(GridSpec spec) {
    if (trust == null) {
      LayerErrors errors = LayerErrors.of(terrainParams(spec), spec);
      trust = errors == null ? HeightTrust.AS_MEASURED : new HeightTrust(job.confidence(), errors);
    }
    return trust;
  }

  /**
   * Computes mobility on a strip of terrain with the hazard to that vehicle and the soils there.
   */
  public Mobility mobility(
      Terrain terrain, Hazard own, SoilMap soils, Vehicle vehicle, MobilityCounts counts) {
    return MobilityStage.compute(
        terrain,
        own,
        vehicle,
        soils,
        job.dem().body(),
        job.terrain().unresolved(),
        trust(terrain.heightM().spec()),
        counts,
        workers,
        progress.part());
  }

  /**
   * Checks every value of the rock coverage.
   *
   * @throws org.scarpway.stage.UserError for a coverage from which no hazard can be computed
   */
  public void requireRocks(GridSpec spec) {
    Job.HazardSettings h = job.hazard();
    if (h.rockCoverageRaster() == null) {
      return;
    }
    RockRange range = new RockRange(h.rockCounts(), h.rockNoData());
    String file = h.rockCoverageRaster().toString();
    OverlayRaster.open(spec, frame(), h.rockCoverageRaster(), io, MostRocks.RULE)
        .eachPixel((k, row, col) -> range.require(k, file, row, col, "the file"));
  }

  /** Returns the fraction of the ground covered by rocks at a cell, NaN where it is unknown. */
  public double rockCoverage(GridSpec spec, int cell) {
    Job.HazardSettings h = job.hazard();
    if (h.rockCoverageRaster() != null) {
      OverlayRaster raster =
          OverlayRaster.open(spec, frame(), h.rockCoverageRaster(), io, MostRocks.RULE);
      return raster.rows(cell / spec.cols(), 1).values()[cell % spec.cols()];
    }
    return h.rockCoverage() == null ? 0 : h.rockCoverage();
  }

  /** Returns the soils by place, readable by rows, null if the job gives none. */
  public SoilLayer soilLayer(GridSpec spec) {
    return soilLayer(spec, new ArrayList<>());
  }

  private SoilLayer soilLayer(GridSpec spec, List<String> said) {
    return job.soils() == null ? null : SoilLayer.open(spec, frame(), job.soils(), io, said);
  }

  /**
   * @param causes of the hazard, as bits
   */
  public Walking walker(Terrain terrain, ByteGrid causes) {
    return WalkStage.compute(terrain, causes, job.walker(), job.dem().body(), workers, progress);
  }

  /**
   * Computes walking on some rows of a strip; the terrain must include heights and gradients.
   *
   * @param causes of the hazard, as bits
   */
  public Walking walkerOnStrip(Terrain terrain, ByteGrid causes, int firstRow, int rows) {
    return WalkStage.compute(
        terrain, causes, job.walker(), job.dem().body(), firstRow, rows, workers, Progress.NONE);
  }

  /**
   * Returns the margin (m) kept around keep-out ground: half of the swept width plus the job's
   * margin.
   */
  public double marginM(FleetEnvelope demands) {
    return demands.swathM() / 2 + job.hazard().marginM();
  }

  /** Computes hazard on strips of terrain. */
  public record HazardRows(
      HazardStrips strips, OverlayRaster coverage, Workers workers, Progress progress) {
    /** Returns the number of halo rows: rows beyond a strip that its hazard may depend on. */
    public int haloRows() {
      return strips.haloRows();
    }

    private FloatGrid rocks(Terrain terrain, int firstRow) {
      int rows = terrain.slopeDeg().spec().rows();
      return coverage == null ? null : coverage.rows(firstRow, rows);
    }

    /**
     * @param firstRow row of the whole grid that is the first row of the terrain
     */
    public Hazard strip(Terrain terrain, int firstRow) {
      return strips.strip(terrain, firstRow, rocks(terrain, firstRow), workers, progress);
    }

    /** Computes hazard on a window of the grid that begins at this row and column. */
    public Hazard window(Terrain terrain, int firstRow, int firstCol) {
      GridSpec part = terrain.slopeDeg().spec();
      FloatGrid rocks =
          coverage == null ? null : coverage.window(firstRow, firstCol, part.rows(), part.cols());
      return strips.window(terrain, firstRow, firstCol, rocks, workers, Progress.NONE);
    }
  }

  private List<Geometry> keepOutAreas(FleetEnvelope demands, List<String> said) {
    List<Geometry> areas = new ArrayList<>();
    for (Path file : job.hazard().keepOut()) {
      areas.addAll(keepOutAreas(file, demands, said));
    }
    return areas;
  }

  /** Returns the keep-out areas of one file on the grid. */
  public List<Geometry> keepOutAreas(Path file, FleetEnvelope demands, List<String> said) {
    return KeepOutFile.read(file, frame(), marginM(demands), "closes nothing", said);
  }

  public HazardRows hazardStrips(GridSpec spec, FleetEnvelope demands) {
    Job.HazardSettings h = job.hazard();
    OverlayRaster coverage =
        h.rockCoverageRaster() == null
            ? null
            : OverlayRaster.open(spec, frame(), h.rockCoverageRaster(), io, MostRocks.RULE);
    HazardParams params =
        new HazardParams(
            new RockParams(
                h.rockCounts(),
                coverage == null ? "hazard.rock_coverage" : h.rockCoverageRaster().toString(),
                h.rockCoverage(),
                h.rockNoData(),
                demands.rocks(),
                h.rockSlowM() == null ? SLOW_LENGTHS * demands.lengthM() : h.rockSlowM(),
                h.rockNoGoM() == null ? demands.lengthM() : h.rockNoGoM()),
            keepOutAreas(demands, new ArrayList<>()),
            marginM(demands),
            demands.slopeDeg(),
            demands.stepM(),
            demands.clearanceM(),
            demands.turnM(),
            new HazardParams.Room(
                h.minGapM() == null ? demands.swathM() : h.minGapM(),
                h.turningM() == null ? demands.turnM() : h.turningM(),
                demands.blockedDeg()));
    HazardStrips strips = new HazardStrips(spec, params);
    return new HazardRows(strips, coverage, workers, progress);
  }
}
