package org.scarpway.run;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.List;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.geodata.RasterIo;
import org.scarpway.geodata.RasterIos;
import org.scarpway.stage.Progress;
import org.scarpway.stage.Workers;

/**
 * Runs one job from its file to its report: everything is checked first, then the stages in order.
 */
public final class JobRun {
  private final Job job;
  private final RunOptions options;
  private final RasterIo io;
  private final ConsoleProgress progress;
  private final PrintStream out;
  private final Path folder;

  private JobRun(Job job, RunOptions options, RasterIo io, PrintStream out, PrintStream err) {
    this.job = job;
    this.options = options;
    this.io = io;
    this.out = out;
    this.progress = new ConsoleProgress(err, options.progress());
    this.folder = options.out().resolve(job.name());
  }

  /**
   * Runs every job of the file, one after another.
   *
   * @param out gets the summary only
   * @param err gets progress
   */
  public static void run(Path jobFile, RunOptions options, PrintStream out, PrintStream err) {
    List<Job> jobs = JobReader.readAll(jobFile, options.set());
    RasterIo io = RasterIos.best();
    for (Job job : jobs) {
      new JobRun(job, options, io, out, err).run();
    }
  }

  private void run() {
    long startNs = System.nanoTime();
    try (Workers workers = new Workers(options.threads())) {
      progress.say("[" + job.name() + "] reading the elevation model with " + io.name());
      progress.stage("dem");
      OpenJob open = OpenJob.open(job, io, workers, progress);
      if (open.strips() != null) {
        progress.say("[" + job.name() + "] " + open.strips().note());
      }
      open.dem().get();
      Preflight.requireDrivablePlaces(job, open.places(), open.ground().get(), open.stages());
      StageGraph graph = new StageGraph(open);
      try (JobLock lock = JobLock.take(folder)) {
        UnitRunner runner = new UnitRunner(lock, progress, options.fresh());
        graph.nodes().forEach(runner::finish);
        finish(open, JobResults.of(open, graph), runner, startNs);
      }
    }
  }

  /** What stands for the job as a whole: report, catalogue, provenance, summary. */
  private void finish(OpenJob open, JobResults results, UnitRunner runner, long startNs) {
    progress.stage("report");
    progress.say("[report] drawing");
    GroundStages silent = new GroundStages(job, io, open.workers(), Progress.NONE);
    new ReportUnit(open)
        .write(
            folder.resolve("index.html"),
            results,
            PlacesOnGround.of(job, open.places(), open.ground().get(), silent));
    StacCatalogue.write(folder, job, open.spec(), List.copyOf(runner.done().keySet()));
    double wallS = (System.nanoTime() - startNs) * 1e-9;
    RunRecord.write(folder, open, options.threads(), runner.done(), results.warnings(), wallS);
    RunSummary.print(out, folder, results, runner.done(), wallS);
  }
}
