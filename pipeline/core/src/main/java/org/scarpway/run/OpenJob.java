package org.scarpway.run;

import java.util.function.Supplier;
import org.scarpway.config.Job;
import org.scarpway.dem.Dem;
import org.scarpway.dem.DemReader;
import org.scarpway.geodata.RasterIo;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * A job with what its stages share: the grid, the places on it, the digests of its inputs. Heights
 * are read when a stage first asks for them; until then only headers were.
 */
record OpenJob(
    Job job,
    GridSpec spec,
    Places places,
    InputDigests digests,
    Supplier<Dem> dem,
    GroundStages stages,
    RasterIo io,
    Workers workers,
    Progress progress) {

  /**
   * @throws org.scarpway.stage.UserError for a grid or places that cannot be worked on
   */
  static OpenJob open(Job job, RasterIo io, Workers workers, Progress progress) {
    GroundStages stages = new GroundStages(job, io, workers, progress);
    GridSpec spec = DemReader.spec(job.dem(), io);
    io.requireWritable(spec);
    Places places = new Places(job, spec);
    InputDigests digests = new InputDigests(job.inputs());
    return new OpenJob(
        job, spec, places, digests, new Kept<>(stages::dem), stages, io, workers, progress);
  }
}
