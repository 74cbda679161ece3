package org.scarpway.cli;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.scarpway.run.JobCheck;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "check",
    description =
        "Check a job without running it: schema, files, CRS, units, physical sense, bases and stops on the ground.",
    footer = {
      "",
      "Example:",
      "  scarpway check configs/jobs/demo.yaml",
      "",
      ExitCode.WRITES_NOTHING
    },
    mixinStandardHelpOptions = true)
final class CheckCommand implements Callable<Integer> {
  @Parameters(paramLabel = "JOB.yaml", description = "the job file")
  private Path job;

  @Option(
      names = "--set",
      paramLabel = "key=value",
      description = "override one setting of the job")
  private Map<String, String> set = new LinkedHashMap<>();

  @Override
  public Integer call() {
    JobCheck.check(job, set, System.out);
    return ExitCode.OK;
  }
}
