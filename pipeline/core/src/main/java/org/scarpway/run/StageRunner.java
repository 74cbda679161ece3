package org.scarpway.run;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.scarpway.run.ground.SoftCached;
import org.scarpway.run.progress.PeakMemory;
import org.scarpway.run.progress.ProcessorTime;
import org.scarpway.run.progress.RunLog;
import org.scarpway.run.progress.StageDone;
import org.scarpway.run.progress.StageOrigin;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.StageFolder;
import org.scarpway.run.store.StageRecord;
import org.scarpway.run.store.StageStore;
import org.scarpway.run.unit.StageNode;
import org.scarpway.run.unit.StageTask;
import org.scarpway.stage.Memory;
import org.scarpway.stage.NoWay;
import org.scarpway.stage.ScratchFile;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;

/**
 * Finishes stages in order: finished products whose key still matches are kept, products with a
 * matching key are taken from the store, and everything else is computed and written.
 */
final class StageRunner {
  private final JobLock held;
  private final StageStore store;
  private final RunLog log;
  private final boolean fresh;
  private final Memory memory;
  private final Map<String, StageDone> done = new LinkedHashMap<>();
  private final List<StageFailure> failures = new ArrayList<>();

  /**
   * @param fresh true to compute everything, even where finished products exist
   */
  StageRunner(JobLock held, StageStore store, RunLog log, boolean fresh, Memory memory) {
    this.held = held;
    this.store = store;
    this.log = log;
    this.fresh = fresh;
    this.memory = memory;
  }

  /**
   * Finishes the stage. Its result is loaded only on demand. A fault in a question is recorded at
   * its node and ends no other stage.
   *
   * @throws StageFailure for a fault in a stage that others depend on
   */
  <T> void finish(StageNode<T> node) {
    for (StageNode<?> before : node.needs()) {
      if (!before.isFinished() && before.id().equals(node.unit().presents())) {
        return;
      }
      if (!before.isFinished()) {
        fail(node, new StageFailure(node.id() + ": rests on " + before.id() + ", which failed"));
        return;
      }
    }
    StageFolder folder = new StageFolder(held.folder(), node.id());
    try {
      node.finished(folder.path(), finish(node.unit(), folder));
      folder.kept().forEach(line -> log.note("[" + node.id() + "] " + line));
    } catch (RuntimeException | OutOfMemoryError | StackOverflowError e) {
      fail(node, fault(node.id(), e));
    }
  }

  private static StageFailure fault(String id, Throwable e) {
    if (e instanceof UserError || e instanceof StageFailure) {
      return new StageFailure(id + ": " + e.getMessage(), e);
    }
    if (e instanceof OutOfMemoryError) {
      return new StageFailure(
          id
              + ": not enough memory; give more (SCARPWAY_JAVA_OPTS=-Xmx16g), a smaller dem.window"
              + " or a coarser dem.cell_size_m",
          e);
    }
    return StageFailure.bug(id, e);
  }

  private void fail(StageNode<?> node, StageFailure why) {
    if (!node.unit().isQuestion()) {
      throw why;
    }
    memory.freeScratch();
    StageRecord there = new StageFolder(held.folder(), node.id()).record();
    boolean stale = there != null && !there.key().equals(node.key().hex());
    node.failed(
        why.getMessage()
            + (stale ? " (what stands in " + node.id() + " answers an earlier question)" : ""));
    if (why.getCause() instanceof NoWay) {
      log.note("[" + node.id() + "] there is no way; the other questions go on");
      return;
    }
    failures.add(why);
    log.note("[" + node.id() + "] failed; the other questions go on");
  }

  private <T> Supplier<T> finish(StageTask<T> unit, StageFolder folder) {
    log.stage(unit.id());
    long startNs = System.nanoTime();
    double startCpuS = ProcessorTime.seconds();
    Supplier<T> again = () -> unit.load(folder.path());
    if (!fresh && folder.holds(unit.key(), store.digests())) {
      keep(unit, folder);
      done(unit, StageOrigin.HERE, startNs, startCpuS);
      return new SoftCached<>(again);
    }
    if (!fresh && store.restore(unit.key(), folder)) {
      done(unit, StageOrigin.STORE, startNs, startCpuS);
      return new SoftCached<>(again);
    }
    PeakMemory.startAnew();
    try {
      folder.replace(unit.key(), unit::make);
    } catch (InternalError e) {
      // The Java machine throws this error if a page of a memory-mapped file could not be read or
      // written.
      throw new StageFailure(
          unit.id()
              + ": a scratch file in "
              + ScratchFile.folder()
              + " cannot be written; is its disk full?",
          e);
    }
    keep(unit, folder);
    done(unit, StageOrigin.COMPUTED, startNs, startCpuS);
    return new SoftCached<>(again);
  }

  private void keep(StageTask<?> unit, StageFolder folder) {
    String trouble = store.put(unit.key(), folder);
    if (trouble != null) {
      log.note("[" + unit.id() + "] not kept for other jobs: " + trouble);
    }
  }

  private void done(StageTask<?> unit, StageOrigin from, long startNs, double startCpuS) {
    double wallS = (System.nanoTime() - startNs) * 1e-9;
    long peakMb = from == StageOrigin.COMPUTED ? PeakMemory.heapMb() : 0;
    StageDone d =
        new StageDone(
            wallS,
            ProcessorTime.seconds() - startCpuS,
            unit.cells(),
            from,
            unit.key().hex(),
            peakMb);
    done.put(unit.id(), d);
    log.done(unit.id(), d);
  }

  /** Returns the faults that ended questions, in the order of the stages. */
  List<StageFailure> failures() {
    return failures;
  }

  Map<String, StageDone> done() {
    return done;
  }
}
