package org.scarpway.cli;

import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;
import org.scarpway.stage.UserError;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.ScopeType;

/**
 * Entry point of the command line: there is one class per command; exit codes are determined here.
 */
@Command(
    name = "scarpway",
    description =
        "Where a crewed rover cannot go, how far it can go and still come home, and where its route should be drawn.",
    mixinStandardHelpOptions = true,
    versionProvider = VersionText.class,
    synopsisSubcommandLabel = "COMMAND",
    subcommands = {
      NewCommand.class,
      RunCommand.class,
      PlanCommand.class,
      CheckCommand.class,
      ProbeCommand.class,
      ExplainCommand.class,
      ReplanCommand.class,
      CompareCommand.class,
      SampleCommand.class,
      HelpCommand.class
    },
    footer = {
      "",
      "Exit codes: 0 done; 2 the input is wrong, nothing written; 3 a stage failed, what was finished is kept.",
      "Begin with 'scarpway new DIR --dem FILE'; 'scarpway help COMMAND' tells more of one command.",
      "Products are planning aids, not clearance to drive."
    })
public final class Main implements Runnable, Debugging {
  @Option(
      names = "--debug",
      scope = ScopeType.INHERIT,
      description = "print the stack trace of a failure")
  boolean debug;

  @CommandLine.Spec CommandLine.Model.CommandSpec spec;

  @Override
  public boolean debug() {
    return debug;
  }

  @Override
  public void run() {
    throw new CommandLine.ParameterException(
        spec.commandLine(), "name a command: " + String.join(", ", spec.subcommands().keySet()));
  }

  public static void main(String[] args) {
    System.exit(execute(args));
  }

  /** Runs one command in this process and returns its exit code. */
  public static int execute(String... args) {
    Main main = new Main();
    CommandLine line = new CommandLine(main);
    line.setOut(new PrintWriter(System.out, true, StandardCharsets.UTF_8));
    line.setErr(new PrintWriter(System.err, true, StandardCharsets.UTF_8));
    line.registerConverter(Path.class, Main::path);
    line.setParameterExceptionHandler(
        (e, a) -> {
          System.err.println("scarpway: " + Reason.plain(e.getMessage()));
          System.err.println("try: scarpway " + helpFor(e.getCommandLine()) + "--help");
          return ExitCode.INPUT_WRONG;
        });
    line.setExecutionExceptionHandler((e, c, r) -> report(e, main.debug));
    try {
      return line.execute(args);
    } catch (Throwable e) {
      // Whatever the failure is, the user gets one line and a documented exit code.
      return report(e, main.debug);
    }
  }

  private static Path path(String text) {
    try {
      return Path.of(text);
    } catch (InvalidPathException e) {
      throw new CommandLine.TypeConversionException(Reason.of(e));
    }
  }

  private static String helpFor(CommandLine command) {
    return command.getParent() == null ? "" : command.getCommandName() + " ";
  }

  /** Prints one line on what ended the program, and returns the exit code. */
  static int report(Throwable e, boolean debug) {
    if (debug) {
      e.printStackTrace();
    }
    if (e instanceof UserError) {
      System.err.println(e.getMessage());
      return ExitCode.INPUT_WRONG;
    }
    System.err.println(e instanceof StageFailure ? e.getMessage() : unforeseen(e));
    return ExitCode.STAGE_FAILED;
  }

  private static String unforeseen(Throwable e) {
    if (e instanceof OutOfMemoryError) {
      return "scarpway: not enough memory; give more (SCARPWAY_JAVA_OPTS=-Xmx16g), a smaller"
          + " dem.window or a coarser dem.cell_size_m";
    }
    if (e instanceof UncheckedIOException || e instanceof InvalidPathException) {
      return "scarpway: " + Reason.of(e);
    }
    return StageFailure.bug("scarpway", e).getMessage();
  }
}
