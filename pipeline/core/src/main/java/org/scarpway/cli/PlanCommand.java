package org.scarpway.cli;

import java.util.concurrent.Callable;
import org.scarpway.run.PlanPrinter;
import org.scarpway.run.plan.ProgressStyle;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.ParentCommand;

@Command(
    name = "plan",
    description =
        "Tell what a run would do and why: stages, what is reused, time, memory, disk. Runs nothing, writes nothing.",
    footer = {
      "",
      "Example:",
      "  scarpway plan configs/jobs/demo.yaml --out reports",
      "",
      ExitCode.WRITES_NOTHING
    },
    mixinStandardHelpOptions = true)
final class PlanCommand implements Callable<Integer> {
  @ParentCommand private Debugging main;

  @Mixin private RunSettings settings;

  @Override
  public Integer call() {
    PlanPrinter.tell(
        settings.jobs,
        settings.options(
            Runtime.getRuntime().availableProcessors(), ProgressStyle.quiet, main.debug()),
        System.out);
    return ExitCode.OK;
  }
}
