package org.scarpway.run;

import java.io.PrintStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.scarpway.config.Job;
import org.scarpway.config.JobReader;
import org.scarpway.geodata.raster.RasterIo;
import org.scarpway.geodata.raster.RasterIos;
import org.scarpway.run.closing.JobOutcome;
import org.scarpway.run.closing.RunSummary;
import org.scarpway.run.compare.CompareRuns;
import org.scarpway.run.plan.ProgressStyle;
import org.scarpway.run.plan.RunOptions;
import org.scarpway.run.progress.ConsoleLog;
import org.scarpway.run.progress.Interruption;
import org.scarpway.run.progress.JsonLog;
import org.scarpway.run.progress.RunLog;
import org.scarpway.run.store.FileDigests;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;

/**
 * Runs every job of one or more files, one after another. A job that fails does not stop the
 * others; if there are several, a table at the end states how each ended.
 */
public final class JobRuns {
  /** Exit codes from best to worst. */
  private static final List<Integer> BY_WEIGHT = List.of(0, 2, 3);

  private final RunOptions options;
  private final RunLog log;
  private final PrintStream out;
  private final RasterIo io = RasterIos.best();
  private final FileDigests files = new FileDigests();
  private final List<RunTable.Row> rows = new ArrayList<>();

  /** Names of the jobs of each file that makes several. */
  private final List<List<String>> matrices = new ArrayList<>();

  /** Folders of the runs that were answered in full, by the names of their jobs. */
  private final Map<String, Path> answered = new HashMap<>();

  private JobRuns(RunOptions options, PrintStream out, PrintStream err) {
    this.options = options;
    this.log =
        options.progress() == ProgressStyle.json
            ? new JsonLog(err)
            : new ConsoleLog(err, options.progress());
    this.out = out;
  }

  /**
   * Runs all jobs.
   *
   * @param out receives the summaries only
   * @param err receives progress and failures
   * @return the exit code of the run that ended worst
   */
  public static int run(List<Path> jobFiles, RunOptions options, PrintStream out, PrintStream err) {
    return new JobRuns(options, out, err).run(jobFiles);
  }

  private int run(List<Path> jobFiles) {
    List<Job> jobs = new ArrayList<>();
    Map<String, Path> fileOf = new HashMap<>();
    for (Path file : jobFiles) {
      guarded(file.toString(), () -> jobs.addAll(oneFile(file, fileOf)));
    }
    int asked = jobs.size() + rows.size();
    Interruption interruption = Interruption.watch(log);
    try {
      for (Job job : jobs) {
        guarded(job.name(), () -> oneJob(job, asked));
      }
    } finally {
      interruption.forget();
    }
    if (asked > 1) {
      RunTable.print(out, rows);
    }
    matrices.forEach(this::compare);
    if (rows.stream().anyMatch(RunTable.Row::reported)) {
      RunSummary.caution(out);
    }
    return worst();
  }

  private List<Job> oneFile(Path file, Map<String, Path> fileOf) {
    List<Job> jobs = JobReader.readAll(file, options.set());
    for (Job job : jobs) {
      Path other = fileOf.putIfAbsent(job.name(), file);
      if (other != null) {
        throw UserError.of(
            file.toString(),
            "its job '" + job.name() + "' has the name of one in " + other,
            "a name of its own for every job of a call",
            "rename one, or run them apart with different --out");
      }
    }
    if (jobs.size() > 1) {
      matrices.add(jobs.stream().map(Job::name).toList());
    }
    return jobs;
  }

  /** Holds the runs of a matrix against the first one on the same grid. */
  private void compare(List<String> names) {
    List<Path> folders = names.stream().filter(answered::containsKey).map(answered::get).toList();
    if (folders.size() < 2) {
      return;
    }
    try {
      Set<String> taken = new HashSet<>();
      for (List<Path> group : CompareRuns.onOneGrid(folders, io)) {
        List<String> ofGroup = group.stream().map(f -> f.getFileName().toString()).toList();
        if (group.size() < 2) {
          out.println("not compared: " + ofGroup.get(0) + " is alone on its grid");
        } else {
          String wanted = shared(ofGroup) + "-compared";
          String name = wanted;
          for (int i = 2; !taken.add(name); i++) {
            name = wanted + "-" + i;
          }
          CompareRuns.run(group, options.out(), name, io, out);
        }
      }
    } catch (UserError e) {
      out.println("not compared: " + e.getMessage());
    }
  }

  /** The words that all names begin with. */
  private static String shared(List<String> names) {
    String shared = names.get(0);
    for (String name : names) {
      while (!(name + "-").startsWith(shared + "-")) {
        shared = shared.substring(0, Math.max(0, shared.lastIndexOf('-')));
      }
    }
    return shared.isEmpty() ? names.get(0) : shared;
  }

  private void oneJob(Job job, int asked) {
    JobOutcome run = new JobRun(job, options, io, files, log).run();
    if (asked > 1) {
      out.println(job.name());
    }
    RunSummary.print(out, run);
    rows.add(RunTable.Row.of(job, run));
    if (run.failures().isEmpty()) {
      answered.put(job.name(), run.folder());
    }
    if (!run.failures().isEmpty()) {
      run.failures().forEach(this::trace);
      log.failed(
          job.name(),
          3,
          String.join(
              "\n", run.failures().stream().map(f -> job.name() + ": " + f.getMessage()).toList()));
    }
  }

  /** Does the work; on failure prints one line with the reason and records the outcome. */
  private void guarded(String name, Runnable work) {
    try {
      work.run();
    } catch (UserError e) {
      failed(name, 2, e.getMessage());
    } catch (StageFailure e) {
      trace(e);
      failed(name, 3, name + ": " + e.getMessage());
    } catch (OutOfMemoryError e) {
      failed(
          name,
          3,
          name
              + ": not enough memory for this grid; give more (SCARPWAY_JAVA_OPTS=-Xmx16g), a"
              + " smaller dem.window or a coarser dem.cell_size_m");
    } catch (RuntimeException | StackOverflowError e) {
      trace(e);
      failed(name, 3, StageFailure.bug(name, e).getMessage());
    }
  }

  private void trace(Throwable e) {
    if (options.debug()) {
      e.printStackTrace();
    }
  }

  private void failed(String name, int code, String line) {
    log.failed(name, code, line);
    rows.add(RunTable.Row.failed(name, code, line));
  }

  private int worst() {
    int worst = 0;
    for (RunTable.Row r : rows) {
      worst = Math.max(worst, BY_WEIGHT.indexOf(r.code()));
    }
    return BY_WEIGHT.get(worst);
  }
}
