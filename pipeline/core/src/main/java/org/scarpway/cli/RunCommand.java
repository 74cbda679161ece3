package org.scarpway.cli;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.scarpway.run.JobRun;
import org.scarpway.run.ProgressStyle;
import org.scarpway.run.RunOptions;
import org.scarpway.stage.UserError;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "run",
    description = "Run a job: read the ground, make every product and the report.",
    mixinStandardHelpOptions = true)
final class RunCommand implements Callable<Integer> {
  @Parameters(paramLabel = "JOB.yaml", description = "the job file")
  private Path job;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "where the job's folder goes (default: ${DEFAULT-VALUE})",
      defaultValue = "reports")
  private Path out;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "threads to use (default: all cores); results do not depend on it")
  private int threads = Runtime.getRuntime().availableProcessors();

  @Option(
      names = "--fresh",
      description = "compute everything, even where finished products are there")
  private boolean fresh;

  @Option(names = "--quiet", description = "no progress, only the summary and errors")
  private boolean quiet;

  @Option(
      names = "--progress",
      paramLabel = "STYLE",
      description = "plain or bar (default: bar on a terminal, else plain)")
  private ProgressStyle progress;

  @Option(
      names = "--set",
      paramLabel = "key=value",
      description = "override one setting of the job, such as dem.cell_size_m=10; may be repeated")
  private Map<String, String> set = new LinkedHashMap<>();

  @Override
  public Integer call() {
    if (threads < 1) {
      throw UserError.of("--threads", "got " + threads, "1 or more", "leave it out for all cores");
    }
    ProgressStyle style =
        ProgressStyle.choose(quiet, progress, Boolean.getBoolean("scarpway.terminal"));
    JobRun.run(job, new RunOptions(out, threads, fresh, style, set), System.out, System.err);
    return Main.OK;
  }
}
