package org.scarpway.run;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.scarpway.run.ground.OpenJob;
import org.scarpway.run.plan.JobPlan;
import org.scarpway.run.plan.RunOptions;
import org.scarpway.run.plan.StageWork;
import org.scarpway.run.progress.StageDone;
import org.scarpway.run.store.StageFolder;
import org.scarpway.run.store.StageRecord;
import org.scarpway.run.store.StageTimes;
import org.scarpway.run.store.StageTimes.Sample;

/** Keeps what the stages of a run took, for the plans of later ones. */
final class TimesLearnt {
  private TimesLearnt() {}

  /** Keeps the computed stages; without a store nothing is kept. */
  static void keep(
      RunOptions options,
      OpenJob open,
      JobPlan plan,
      Map<String, StageDone> stages,
      StageDone report,
      double wallS) {
    if (options.store() == null) {
      return;
    }
    Path folder = options.out().resolve(open.job().name());
    StageTimes times = StageTimes.read(options.store());
    Set<String> kinds = new HashSet<>();
    double openingS = wallS - report.wallS();
    boolean all = !report.cached() && stages.size() == plan.rows().size();
    for (JobPlan.Row row : plan.rows()) {
      StageDone d = stages.get(row.id());
      if (d == null) {
        continue;
      }
      openingS -= d.wallS();
      all &= !d.cached();
      if (!d.cached()) {
        // As planned: what was there to be used again is not learnt as computed.
        add(times, row.work(), kinds, d.wallS(), options, bytes(folder, row.id()));
      }
    }
    if (!report.cached()) {
      long bytes = folder.resolve("index.html").toFile().length();
      add(times, StageWork.of(open, JobPlan.REPORT), kinds, report.wallS(), options, bytes);
    }
    if (all) {
      // Where stages are reused, the rest of a run is also the checking of their products.
      add(times, StageWork.of(open, StageWork.OPENING), kinds, openingS, options, 0);
    }
    if (!kinds.isEmpty()) {
      times.write(options.store());
    }
  }

  private static void add(
      StageTimes times,
      StageWork w,
      Set<String> kinds,
      double wallS,
      RunOptions options,
      long bytes) {
    boolean first = kinds.add(w.kind());
    times.add(w.kind(), new Sample(w.stage(), w.work(), first, wallS, options.threads(), bytes));
  }

  private static long bytes(Path folder, String id) {
    StageRecord record = new StageFolder(folder, id).record();
    return record == null
        ? 0
        : record.files().stream().mapToLong(StageRecord.FileEntry::bytes).sum();
  }
}
