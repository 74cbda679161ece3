package org.scarpway.run;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.function.Supplier;

/**
 * Finishes units in order: reuses products whose key still holds, computes and writes the others.
 */
final class UnitRunner {
  /** What running a unit took. */
  record Done(double wallS, long cells, boolean cached, String key) {}

  private final Path jobFolder;
  private final ConsoleProgress progress;
  private final boolean fresh;
  private final Map<String, Done> done = new LinkedHashMap<>();

  /**
   * @param fresh compute everything, even where finished products are there
   */
  UnitRunner(JobLock held, ConsoleProgress progress, boolean fresh) {
    this.jobFolder = held.folder();
    this.progress = progress;
    this.fresh = fresh;
  }

  /** Finishes the stage. The result is loaded only if somebody asks for it. */
  <T> void finish(StageNode<T> node) {
    StageFolder folder = new StageFolder(jobFolder, node.id());
    node.finished(folder.path(), finish(node.unit(), folder));
  }

  private <T> Supplier<T> finish(Unit<T> unit, StageFolder folder) {
    folder.recover();
    progress.stage(unit.id());
    if (!fresh && folder.holds(unit.key())) {
      done.put(unit.id(), new Done(0, unit.cells(), true, unit.key().hex()));
      progress.say("[" + unit.id() + "] unchanged, reused");
      return new Once<>(() -> unit.load(folder.path()));
    }
    long startNs = System.nanoTime();
    T result = unit.compute();
    folder.replace(unit.key(), dir -> unit.write(dir, result));
    double wallS = (System.nanoTime() - startNs) * 1e-9;
    done.put(unit.id(), new Done(wallS, unit.cells(), false, unit.key().hex()));
    progress.say(
        String.format(
            Locale.ROOT,
            "[%s] done in %.1f s (%.1f Mcell/s)",
            unit.id(),
            wallS,
            unit.cells() / wallS / 1e6));
    return result == null ? new Once<>(() -> unit.load(folder.path())) : () -> result;
  }

  Map<String, Done> done() {
    return done;
  }
}
