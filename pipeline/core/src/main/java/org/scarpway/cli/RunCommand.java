package org.scarpway.cli;

import java.util.concurrent.Callable;
import org.scarpway.run.JobRuns;
import org.scarpway.run.plan.ProgressStyle;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

@Command(
    name = "run",
    description =
        "Run jobs: read the ground, make every product and the report. One that fails does not stop the others.",
    footer = {
      "",
      "Example:",
      "  scarpway run configs/jobs/demo.yaml --out reports --set dem.cell_size_m=10",
      "",
      ExitCode.RUNS
    },
    mixinStandardHelpOptions = true)
final class RunCommand implements Callable<Integer> {
  @ParentCommand private Debugging main;

  @Mixin private RunSettings settings;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "threads to use (default: all cores); results do not depend on it")
  private int threads = Runtime.getRuntime().availableProcessors();

  @Option(names = "--quiet", description = "no progress, only the summary and errors")
  private boolean quiet;

  @Option(
      names = "--progress",
      paramLabel = "STYLE",
      description =
          "plain, bar or json: events for schedulers, one a line (default: bar on a terminal, else plain)")
  private ProgressStyle progress;

  @Option(names = "--json", description = "the same as --progress json")
  private boolean json;

  @Override
  public Integer call() {
    ProgressStyle style =
        ProgressStyle.choose(
            quiet, json ? ProgressStyle.json : progress, Boolean.getBoolean("scarpway.terminal"));
    return JobRuns.run(
        settings.jobs, settings.options(threads, style, main.debug()), System.out, System.err);
  }
}
