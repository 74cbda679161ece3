package org.scarpway.run;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.dem.Dem;
import org.scarpway.geodata.MapCrs;
import org.scarpway.geodata.RasterIo;
import org.scarpway.geodata.RasterIos;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/** Everything that can be checked of a job without writing anything. */
public final class JobCheck {
  private JobCheck() {}

  /**
   * @throws org.scarpway.stage.UserError with every problem of the files at once, or the first one
   *     of the ground
   */
  public static void check(Path jobFile, Map<String, String> overrides, PrintStream out) {
    RasterIo io = RasterIos.best();
    for (Job job : JobReader.readAll(jobFile, overrides)) {
      try (Workers workers = new Workers(Runtime.getRuntime().availableProcessors())) {
        GroundStages stages = new GroundStages(job, io, workers, Progress.NONE);
        Dem dem = stages.dem();
        GridSpec spec = dem.heightM().spec();
        io.requireWritable(spec);
        Places places = new Places(job, spec);
        Preflight.requireDrivablePlaces(job, places, dem, stages);
        out.printf(
            Locale.ROOT,
            "%s: ok. %d x %d cells of %.3f x %.3f m on %s, %s%n",
            job.name(),
            spec.rows(),
            spec.cols(),
            spec.cellXM(),
            spec.cellYM(),
            job.dem().body().name(),
            MapCrs.of(spec.crsWkt()).name());
        dem.warnings().forEach(w -> out.println("warning: " + w));
        stages.warnings().forEach(w -> out.println("warning: " + w));
      }
    }
  }
}
