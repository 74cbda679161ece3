package org.scarpway.run.ground;

import java.util.List;
import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.dem.Dem;
import org.scarpway.dem.DemReader;
import org.scarpway.dem.DemRows;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.grid.GridSpec;
import org.scarpway.run.store.InputDigests;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * A job with what its stages share: the grid, the places on it, the digests of its inputs. Heights
 * are read when a stage first asks for them; until then only headers were.
 *
 * @param strips how ground larger than memory is cut, null where all of it fits
 * @param ground heights by rows and around places
 * @param dem all heights; of ground larger than memory those that a report shows
 */
public record OpenJob(
    Job job,
    GridSpec spec,
    Strips strips,
    Places places,
    InputDigests digests,
    Supplier<DemRows> ground,
    Supplier<Dem> dem,
    GroundStages stages,
    RasterIo io,
    Workers workers,
    Progress progress) {

  /**
   * @throws org.scarpway.stage.UserError for a grid or places that cannot be worked on
   */
  public static OpenJob open(Job job, RasterIo io, Workers workers, Progress progress) {
    OpenJob open = openToCheck(job, io, workers, progress);
    open.places.requireInside();
    return open;
  }

  /** The same where places may lie outside the grid. */
  public static OpenJob openToCheck(Job job, RasterIo io, Workers workers, Progress progress) {
    GridSpec spec = DemReader.spec(job.dem(), io);
    Strips strips = Strips.choose(job, spec, Runtime.getRuntime().maxMemory());
    return open(job, spec, strips, io, workers, progress);
  }

  public static OpenJob open(
      Job job, GridSpec spec, Strips strips, RasterIo io, Workers workers, Progress progress) {
    GroundStages stages = new GroundStages(job, io, workers, progress);
    io.requireWritable(spec);
    Places places = new Places(job, stages.frame());
    InputDigests digests = new InputDigests(job.inputs());
    Supplier<DemRows> ground = stages::demRows;
    Supplier<Dem> dem =
        new SoftCached<>(
            () ->
                strips == null
                    ? ground.get().whole(progress)
                    : ground.get().spread(strips.shownSpec(), strips.shownStep(), progress));
    return new OpenJob(
        job, spec, strips, places, digests, ground, dem, stages, io, workers, progress);
  }

  /**
   * Looks at every height.
   *
   * @return what a reviewer must know of them, one line each
   * @throws org.scarpway.stage.UserError for heights that no map may be made of
   */
  public List<String> checkHeights() {
    return dem.get().warnings();
  }
}
