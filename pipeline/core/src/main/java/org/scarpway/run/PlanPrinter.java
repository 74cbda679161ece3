package org.scarpway.run;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.List;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.run.closing.JobOutputs;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.plan.JobPlan;
import org.scarpway.run.plan.RunOptions;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.stage.Progress;
import org.scarpway.stage.UserError;
import org.scarpway.stage.Workers;

/**
 * Prints what a run would do. If stages would run, it first applies the checks of the ground that a
 * run makes before its first stage, and prints no plan for a job that fails one. Writes no files.
 */
public final class PlanPrinter {
  /** Settings that are named; a change of vehicle can be many. */
  private static final int MOST_SETTINGS = 12;

  private PlanPrinter() {}

  /**
   * Prints the plan of every job of the files.
   *
   * @throws org.scarpway.stage.UserError for a job that cannot run or will not fit
   */
  public static void tell(List<Path> jobFiles, RunOptions options, PrintStream out) {
    RasterIo io = RasterIos.best();
    FileDigests files = new FileDigests();
    for (Path file : jobFiles) {
      for (Job job : JobReader.readAll(file, options.set())) {
        try (Workers workers = new Workers(options.threads())) {
          OpenJob open = OpenJob.open(job, io, files, workers, Progress.NONE);
          StageGraph graph = new StageGraph(open);
          List<String> redraw = JobOutputs.whyDrawn(options.out().resolve(job.name()), open, graph);
          JobPlan plan = JobPlan.of(open, graph, options, options.openStore(files), redraw);
          List<String> changed = SettingsChanged.since(options.out().resolve(job.name()), job);
          // What does not fit is told below the stages that ask for it.
          UserError tooLarge = tooLarge(open, plan, options);
          if (tooLarge == null) {
            Preflight.requireSound(open, graph::places, plan, options);
          }
          List<String> lines = plan.lines();
          out.println(lines.get(0));
          changed.stream().limit(MOST_SETTINGS).forEach(c -> out.println("  changed: " + c));
          if (changed.size() > MOST_SETTINGS) {
            out.println("  changed: and " + (changed.size() - MOST_SETTINGS) + " more settings");
          }
          lines.stream().skip(1).forEach(out::println);
          if (tooLarge != null) {
            throw tooLarge;
          }
        }
      }
    }
  }

  private static UserError tooLarge(OpenJob open, JobPlan plan, RunOptions options) {
    try {
      Preflight.requireRoom(open, plan, options);
      return null;
    } catch (UserError e) {
      return e;
    }
  }
}
