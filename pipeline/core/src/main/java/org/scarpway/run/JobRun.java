package org.scarpway.run;

import java.nio.file.Path;
import java.util.List;
import org.scarpway.config.Job;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.run.closing.CrashRecovery;
import org.scarpway.run.closing.Dropped;
import org.scarpway.run.closing.FigureFiles;
import org.scarpway.run.closing.JobOutcome;
import org.scarpway.run.closing.JobOutputs;
import org.scarpway.run.closing.OutputMessages;
import org.scarpway.run.closing.RunRecord;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.plan.JobPlan;
import org.scarpway.run.plan.RunOptions;
import org.scarpway.run.progress.PeakMemory;
import org.scarpway.run.progress.ProcessorTime;
import org.scarpway.run.progress.RunLog;
import org.scarpway.run.progress.StageDone;
import org.scarpway.run.progress.StageOrigin;
import org.scarpway.run.store.AskedFronts;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.StageStore;
import org.scarpway.run.unit.StageGraph;
import org.scarpway.run.unit.StageNode;
import org.scarpway.stage.Workers;

/**
 * Runs one job from its settings to its report: everything is checked first, then the stages run
 * one after another.
 */
final class JobRun {
  private final Job job;
  private final RunOptions options;
  private final RasterIo io;
  private final FileDigests files;
  private final RunLog log;

  JobRun(Job job, RunOptions options, RasterIo io, FileDigests files, RunLog log) {
    this.job = job;
    this.options = options;
    this.io = io;
    this.files = files;
    this.log = log;
  }

  /**
   * @throws org.scarpway.stage.UserError before anything is written
   * @throws org.scarpway.stage.StageFailure if a stage fails; the stages finished before it are
   *     kept
   */
  JobOutcome run() {
    long startNs = System.nanoTime();
    log.job(job.name());
    try (Workers workers = new Workers(options.threads())) {
      AskedFronts fronts = options.openFronts();
      workers.memory().keepIn(fronts);
      log.stage("dem");
      OpenJob open = OpenJob.open(job, io, files, workers, log);
      StageGraph graph = new StageGraph(open);
      StageStore store = options.openStore(files);
      List<String> redraw = JobOutputs.whyDrawn(folder(), open, graph);
      JobPlan plan = JobPlan.of(open, graph, options, store, redraw);
      log.plan(plan);
      open.strips().notes().forEach(note -> log.note("[" + job.name() + "] " + note));
      Preflight.require(open, graph::places, plan, options);
      try (JobLock lock = JobLock.take(folder())) {
        return finish(lock, open, graph, plan, store, fronts, startNs);
      }
    }
  }

  private Path folder() {
    return options.out().resolve(job.name());
  }

  private JobOutcome finish(
      JobLock lock,
      OpenJob open,
      StageGraph graph,
      JobPlan plan,
      StageStore store,
      AskedFronts fronts,
      long startNs) {
    List<String> ids = graph.nodes().stream().map(StageNode::id).toList();
    CrashRecovery.clear(lock, ids, FigureFiles.names(open, ids));
    StageRunner runner =
        new StageRunner(lock, store, log, options.fresh(), open.workers().memory());
    for (StageNode<?> node : graph.nodes()) {
      fronts.begin();
      runner.finish(node);
      fronts.end(node.unit().fronts());
    }
    Dropped.remove(lock, graph);
    JobOutputs closing = new JobOutputs(lock, open, graph);
    StageDone report = draw(closing, open);
    OutputMessages messages = closing.messages();
    double wallS = (System.nanoTime() - startNs) * 1e-9;
    RunRecord.write(
        lock.folder(), open, options.threads(), graph, runner.done(), report, messages, wallS);
    TimesLearnt.keep(options, open, plan, runner.done(), report, wallS);
    if (fronts.damaged() > 0) {
      log.note(
          "["
              + job.name()
              + "] kept results that were damaged, left out and made anew: "
              + fronts.damaged()
              + "; check the disk of the store");
    }
    store.trim();
    fronts.trim();
    if (runner.failures().isEmpty()) {
      log.finished(job.name(), wallS);
    }
    return new JobOutcome(lock.folder(), runner.failures(), messages, runner.done(), report, wallS);
  }

  private StageDone draw(JobOutputs closing, OpenJob open) {
    log.stage(JobPlan.REPORT);
    long startNs = System.nanoTime();
    double startCpuS = ProcessorTime.seconds();
    boolean reuse = !options.fresh() && closing.holds();
    if (!reuse) {
      PeakMemory.startAnew();
      closing.make(log);
    }
    StageDone done =
        new StageDone(
            (System.nanoTime() - startNs) * 1e-9,
            ProcessorTime.seconds() - startCpuS,
            open.spec().cells(),
            reuse ? StageOrigin.HERE : StageOrigin.COMPUTED,
            closing.key(),
            reuse ? 0 : PeakMemory.heapMb());
    log.done(JobPlan.REPORT, done);
    return done;
  }
}
