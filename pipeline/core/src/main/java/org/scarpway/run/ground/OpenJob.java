package org.scarpway.run.ground;

import java.util.List;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.dem.Dem;
import org.scarpway.dem.DemReader;
import org.scarpway.dem.DemRows;
import org.scarpway.dem.HeightRows;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.InputDigests;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * A job with the data that its stages share: grid, places and digests of its inputs. Heights are
 * read when a stage first needs them; until then only file headers have been read.
 *
 * @param strips how the ground is divided: one strip in memory, or many
 * @param ground heights by rows and around places
 * @param dem all heights; for ground larger than memory, the subsampled heights shown in a report
 * @param heightRows the heights by rows that stages are computed from: those in memory, or those of
 *     the file
 */
public record OpenJob(
    Job job,
    GridSpec spec,
    Strips strips,
    Places places,
    InputDigests digests,
    Supplier<DemRows> ground,
    Supplier<Dem> dem,
    Supplier<HeightRows> heightRows,
    GroundStages stages,
    RasterIo io,
    Workers workers,
    Progress progress) {

  /**
   * @throws org.scarpway.stage.UserError for a grid or places that the job cannot be run on
   */
  public static OpenJob open(
      Job job, RasterIo io, FileDigests files, Workers workers, Progress progress) {
    OpenJob open = openToCheck(job, io, files, workers, progress);
    open.places.requireInside();
    return open;
  }

  /** Opens a job like {@link #open}, but accepts places outside the grid. */
  public static OpenJob openToCheck(
      Job job, RasterIo io, FileDigests files, Workers workers, Progress progress) {
    GridSpec spec = DemReader.spec(job.dem(), io);
    Strips strips = Strips.choose(job, spec, Runtime.getRuntime().maxMemory());
    return open(job, spec, strips, io, files, workers, progress);
  }

  public static OpenJob open(
      Job job,
      GridSpec spec,
      Strips strips,
      RasterIo io,
      FileDigests files,
      Workers workers,
      Progress progress) {
    GroundStages stages = new GroundStages(job, io, workers, progress);
    io.requireWritable(spec);
    Places places = new Places(job, stages.frame());
    InputDigests digests = new InputDigests(job.inputs(), files);
    Supplier<DemRows> ground = stages::demRows;
    Supplier<Dem> dem =
        new SoftCached<>(
            () ->
                strips.inMemory()
                    ? ground.get().whole(progress)
                    : ground.get().spread(strips.shownSpec(), strips.shownStep(), progress));
    Supplier<HeightRows> rows =
        () -> strips.inMemory() ? HeightRows.of(dem.get().heightM()) : ground.get();
    return new OpenJob(
        job, spec, strips, places, digests, ground, dem, rows, stages, io, workers, progress);
  }

  /** Returns the job on other heights, whose stages report no progress. */
  public OpenJob on(HeightRows other) {
    GroundStages quiet = new GroundStages(job, io, workers, Progress.NONE);
    return new OpenJob(
        job,
        spec,
        strips,
        places,
        digests,
        ground,
        dem,
        () -> other,
        quiet,
        io,
        workers,
        Progress.NONE);
  }

  /** Returns the heights by rows. */
  public HeightRows heights() {
    return heightRows.get();
  }

  /**
   * Checks every height.
   *
   * @return warnings for a reviewer, one line each
   * @throws org.scarpway.stage.UserError for heights from which no map can be made
   */
  public List<String> checkHeights() {
    return dem.get().warnings();
  }
}
