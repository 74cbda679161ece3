package org.scarpway.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.OptionSpec;

/** Help texts name every command, option and parameter, with an example that can be read. */
class HelpTest {
  private static final CommandLine MAIN = new CommandLine(new Main());
  private static final Set<String> NAMES = MAIN.getSubcommands().keySet();

  private static String said(int code, String... args) {
    PrintStream out = System.out;
    PrintStream err = System.err;
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    try {
      System.setOut(new PrintStream(said, true, StandardCharsets.UTF_8));
      System.setErr(new PrintStream(said, true, StandardCharsets.UTF_8));
      assertEquals(code, Main.execute(args), String.join(" ", args));
    } finally {
      System.setOut(out);
      System.setErr(err);
    }
    return said.toString(StandardCharsets.UTF_8);
  }

  @Test
  void theListNamesEveryCommandAndSoDoesTheReadme() throws IOException {
    String list = said(ExitCode.OK, "help");
    String root = System.getProperty("scarpway.root", "../..");
    String readme = Files.readString(Path.of(root, "README.md"));
    for (String name : NAMES) {
      assertTrue(list.matches("(?s).*\\R +" + name + " .*"), name + " in " + list);
      assertTrue(readme.contains("\n    scarpway " + name + " "), name + " in README");
    }
    assertEquals(list, said(ExitCode.OK, "--help"));
  }

  @Test
  void theHelpOfACommandNamesAllThatItTakes() {
    for (String name : NAMES) {
      CommandLine command = MAIN.getSubcommands().get(name);
      String help = said(ExitCode.OK, "help", name);
      assertEquals(help, said(ExitCode.OK, name, "--help"));
      assertTrue(help.startsWith("Usage: scarpway " + name), help);
      assertTrue(help.matches("(?s).*Exit codes: 0 .*2 .*3 .*"), help);
      for (OptionSpec option : command.getCommandSpec().options()) {
        for (String n : option.names()) {
          assertTrue(help.contains(n), n + " in " + help);
        }
      }
      for (ArgSpec arg : command.getCommandSpec().args()) {
        assertTrue(
            arg.description().length > 0 && !arg.description()[0].isBlank(),
            arg.paramLabel() + " of " + name);
      }
    }
  }

  /** The example of a command is a call of it that the command line accepts. */
  @Test
  void examplesAreCallsThatAreAccepted() {
    for (String name : NAMES) {
      String example =
          said(ExitCode.OK, "help", name)
              .lines()
              .dropWhile(l -> !l.equals("Example:"))
              .skip(1)
              .takeWhile(l -> !l.isBlank())
              .collect(Collectors.joining(" "));
      String[] words = example.strip().split(" +");
      assertEquals("scarpway", words[0]);
      assertEquals(name, words[1]);
      String[] args = Arrays.copyOfRange(words, 1, words.length);
      new CommandLine(new Main()).parseArgs(args);
    }
  }

  @Test
  void anUnknownCommandIsRefusedInOneLine() {
    String line = said(ExitCode.INPUT_WRONG, "help", "nothing");
    assertEquals(1, line.lines().count(), line);
    assertTrue(line.contains("explain"), line);
    assertFalse(line.matches("(?s).*(Exception|java\\.).*"), line);
  }
}
