package org.scarpway.run.unit;

import java.nio.file.Path;
import org.scarpway.config.Job;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.tiff.BandInfo;
import org.scarpway.grid.FloatGrid;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.ground.GroundStages;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.product.FileBatch;
import org.scarpway.run.product.StoredResult;
import org.scarpway.run.store.StageKey;
import org.scarpway.terrain.SlopeSpread;

/**
 * The stage slope-error/: the effect of the height error on the slope, by Monte Carlo simulation.
 */
final class SlopeErrorTask implements StageTask<SlopeSpread> {
  private static final int VERSION = 1;

  private final Job.MonteCarlo settings;
  private final GridSpec spec;
  private final FinishedGround ground;
  private final GroundStages stages;
  private final RasterIo io;
  private final StageKey key;

  SlopeErrorTask(OpenJob job, StageKey terrain, FinishedGround ground) {
    this.settings = job.job().terrain().monteCarlo();
    this.spec = job.spec();
    this.ground = ground;
    this.stages = job.stages();
    this.io = job.io();
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
    SlopeSpread s = stages.slopeSpread(ground.terrain().rows(0, spec.rows()));
    String by = " over " + s.realisations() + " realisations of the height error, seed " + s.seed();
    FileBatch files = stages.files();
    files.add(
        dir.resolve("slope_sigma_deg.tif"),
        s.sigmaDeg(),
        BandInfo.of("standard deviation of the slope" + by, "deg"));
    files.add(
        dir.resolve("slope_bias_deg.tif"),
        s.biasDeg(),
        BandInfo.of("mean slope less the slope as measured" + by, "deg"));
    files.add(
        dir.resolve("slope_over_limit.tif"),
        s.overLimit01(),
        BandInfo.of("share with a slope above " + s.limitDeg() + " deg" + by, "1"));
    files.write();
    StoredResult.write(dir, s.limitDeg());
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
    return new FloatGrid(spec, io.readFloats(dir.resolve(name + ".tif")).values());
  }
}
