package org.scarpway.cli;

import java.util.concurrent.Callable;
import org.scarpway.stage.UserError;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    name = "help",
    description =
        "Tell what a command answers, its usage, every option, an example and its exit codes; without COMMAND, list the commands.",
    footer = {"", "Example:", "  scarpway help explain", "", ExitCode.WRITES_NOTHING},
    mixinStandardHelpOptions = true)
final class HelpCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      arity = "0..1",
      paramLabel = "COMMAND",
      description = "the command to tell of (default: all, one line each)")
  private String command;

  @Override
  public Integer call() {
    CommandLine all = spec.parent().commandLine();
    CommandLine asked = command == null ? all : all.getSubcommands().get(command);
    if (asked == null) {
      throw UserError.of(
          "help",
          "no command is called '" + command + "'",
          String.join(", ", all.getSubcommands().keySet()),
          "correct it, or run 'scarpway help' for what each does");
    }
    asked.usage(all.getOut());
    return ExitCode.OK;
  }
}
