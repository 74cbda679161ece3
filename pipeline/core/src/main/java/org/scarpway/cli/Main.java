package org.scarpway.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.ScopeType;

/** Entry point of the command line: one class per command, exit codes here. */
@Command(
    name = "scarpway",
    description =
        "Where a crewed rover cannot go, how far it can go and still come home, and where its route should be drawn.",
    mixinStandardHelpOptions = true,
    versionProvider = VersionText.class,
    synopsisSubcommandLabel = "COMMAND",
    subcommands = {
      RunCommand.class,
      PlanCommand.class,
      CheckCommand.class,
      ProbeCommand.class,
      ExplainCommand.class,
      SampleCommand.class
    },
    footer = {
      "",
      "Exit codes: 0 done; 2 the input is wrong, nothing written; 3 a stage failed, what was finished is kept.",
      "Products are planning aids, not clearance to drive."
    })
public final class Main implements Runnable {
  static final int OK = 0;
  static final int BUG = 1;
  static final int INPUT_WRONG = 2;
  static final int STAGE_FAILED = 3;

  @Option(
      names = "--debug",
      scope = ScopeType.INHERIT,
      description = "print the stack trace of a failure")
  boolean debug;

  @CommandLine.Spec CommandLine.Model.CommandSpec spec;

  @Override
  public void run() {
    throw new CommandLine.ParameterException(
        spec.commandLine(), "name a command: run, plan, check, probe, explain or sample");
  }

  public static void main(String[] args) {
    System.exit(execute(args));
  }

  /** Runs one command in this process and gives its exit code. */
  public static int execute(String... args) {
    Main main = new Main();
    CommandLine line = new CommandLine(main);
    line.setOut(new PrintWriter(System.out, true, StandardCharsets.UTF_8));
    line.setErr(new PrintWriter(System.err, true, StandardCharsets.UTF_8));
    line.setParameterExceptionHandler(
        (e, a) -> {
          System.err.println("scarpway: " + e.getMessage());
          System.err.println("try: scarpway " + helpFor(e.getCommandLine()) + "--help");
          return INPUT_WRONG;
        });
    line.setExecutionExceptionHandler((e, c, r) -> report(e, main.debug));
    try {
      return line.execute(args);
    } catch (OutOfMemoryError e) {
      System.err.println(
          "scarpway: not enough memory for this grid; give more (SCARPWAY_JAVA_OPTS=-Xmx16g), a smaller dem.window or a coarser dem.cell_size_m");
      return STAGE_FAILED;
    }
  }

  private static String helpFor(CommandLine command) {
    return command.getParent() == null ? "" : command.getCommandName() + " ";
  }

  private static int report(Exception e, boolean debug) {
    if (debug) {
      e.printStackTrace();
    }
    if (e instanceof UserError) {
      System.err.println(e.getMessage());
      return INPUT_WRONG;
    }
    if (e instanceof StageFailure) {
      System.err.println(e.getMessage());
      return STAGE_FAILED;
    }
    System.err.println(
        "scarpway: internal error: " + e + (debug ? "" : "; run again with --debug and report it"));
    return BUG;
  }
}
