package org.scarpway.run.unit;

import java.nio.file.Path;
import java.util.List;
import org.scarpway.config.Job;
import org.scarpway.dem.HeightRows;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.ProductFiles;
import org.scarpway.run.product.RasterProduct;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;
import org.scarpway.stage.Memory;
import org.scarpway.stage.ScratchFile;
import org.scarpway.terrain.SlopeMonteCarlo;
import org.scarpway.terrain.SlopeSpread;
import org.scarpway.terrain.TerrainParams;

/**
 * The stage slope-error/: the effect of the height error on the slope, by Monte Carlo simulation.
 */
final class SlopeErrorTask implements StageTask<SlopeSpread> {
  private static final int VERSION = 2;

  private final OpenJob job;
  private final Job.MonteCarlo settings;
  private final GridSpec spec;
  private final TerrainParams params;
  private final FinishedGround ground;
  private final StageKey key;

  SlopeErrorTask(OpenJob job, StageKey terrain, FinishedGround ground) {
    this.job = job;
    this.settings = job.job().terrain().monteCarlo();
    this.spec = job.spec();
    this.params = job.stages().terrainParams(spec);
    this.ground = ground;
    this.key =
        StageKey.of("slope-error", VERSION)
            .add(terrain)
            .add("realisations", settings.realisations())
            .add("seed", settings.seed())
            .build();
  }

  @Override
  public String id() {
    return "slope-error";
  }

  @Override
  public StageKey key() {
    return key;
  }

  @Override
  public long cells() {
    return (long) spec.cells() * settings.realisations();
  }

  @Override
  public void make(Path dir) {
    SlopeMonteCarlo drawn = measured();
    drawn.draw(settings.realisations(), settings.seed(), job.workers(), job.progress());
    try (ProductFiles<SlopeSpread> files = job.stages().files(dir, spec, products())) {
      job.strips().each((firstRow, rows) -> files.append(drawn.rows(firstRow, rows), 0, rows));
      files.finish();
    }
    StoredResult.write(dir, params.slopeLimitDeg());
  }

  private SlopeMonteCarlo measured() {
    Memory memory = job.workers().memory();
    double bytes = SlopeMonteCarlo.bytes(spec, params.correlationLengthM());
    ScratchFile file = job.strips().inMemory() ? memory.scratch((long) bytes) : memory.scratch();
    HeightRows heights = job.heights();
    SlopeMonteCarlo all =
        new SlopeMonteCarlo(spec, heights.lowestM(), heights.highestM(), params, file);
    try (FinishedGround.TerrainRows terrain = ground.terrain()) {
      job.strips().each((firstRow, rows) -> all.measured(firstRow, terrain.rows(firstRow, rows)));
    }
    return all;
  }

  private List<RasterProduct<SlopeSpread, ?>> products() {
    String by =
        " over "
            + settings.realisations()
            + " realisations of the height error, seed "
            + settings.seed();
    return List.of(
        RasterProduct.floats(
            "slope_sigma_deg",
            BandInfo.of("standard deviation of the slope" + by, "deg"),
            SlopeSpread::sigmaDeg),
        RasterProduct.floats(
            "slope_bias_deg",
            BandInfo.of("mean slope less the slope as measured" + by, "deg"),
            SlopeSpread::biasDeg),
        RasterProduct.floats(
            "slope_over_limit",
            BandInfo.of("share with a slope above " + params.slopeLimitDeg() + " deg" + by, "1"),
            SlopeSpread::overLimit01));
  }

  @Override
  public SlopeSpread load(Path dir) {
    return new SlopeSpread(
        get(dir, "slope_sigma_deg"),
        get(dir, "slope_bias_deg"),
        get(dir, "slope_over_limit"),
        StoredResult.read(dir, Double.class),
        settings.realisations(),
        settings.seed());
  }

  private FloatGrid get(Path dir, String name) {
    return job.strips().shown().floats(dir.resolve(name + ".tif"));
  }
}
