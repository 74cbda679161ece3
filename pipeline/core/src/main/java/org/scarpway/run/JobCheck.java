package org.scarpway.run;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.dem.DemRows;
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
        DemRows ground = stages.demRows();
        GridSpec spec = ground.spec();
        io.requireWritable(spec);
        Places places = new Places(job, spec);
        List<String> warnings = ground.check(Progress.NONE);
        Preflight.requireDrivablePlaces(job, places, ground, stages);
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
        warnings.forEach(w -> out.println("warning: " + w));
        stages.warnings().forEach(w -> out.println("warning: " + w));
      }
    }
  }
}
