package org.scarpway.run;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.geodata.MapCrs;
import org.scarpway.geodata.RasterIo;
import org.scarpway.geodata.RasterIos;
import org.scarpway.grid.GridSpec;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
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
        OpenJob open = OpenJob.openToCheck(job, io, workers, Progress.NONE);
        GridSpec spec = open.spec();
        List<String> warnings = new ArrayList<>(open.checkHeights());
        PlaceGround ground = new PlaceGround(open);
        List<String> mistakes = new ArrayList<>(open.places().outside());
        mistakes.addAll(Preflight.mistakes(open, ground));
        UserError.throwAll(mistakes);
        warnings.addAll(Preflight.deadTargets(open, ground));
        warnings.addAll(open.stages().warnings());
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
        warnings.stream().distinct().forEach(w -> out.println("warning: " + w));
      }
    }
  }
}
