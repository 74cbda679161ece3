package org.scarpway.flow;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.scarpway.cli.Main;

/** Runs commands as a user would and looks at what they leave behind. */
final class Flow {
  static final Path ROOT = Path.of(System.getProperty("scarpway.root")).toAbsolutePath();
  static final Path DATA = Path.of(System.getProperty("scarpway.data")).toAbsolutePath();

  private Flow() {}

  /** What a command said and how it ended. */
  record Outcome(int code, String out, String err) {
    List<String> errLines() {
      return err.lines().filter(l -> !l.isBlank()).toList();
    }

    Outcome ok() {
      assertEquals(0, code, () -> err + out);
      return this;
    }
  }

  /** One command in this process. */
  static Outcome scarpway(Object... args) {
    PrintStream out = System.out;
    PrintStream err = System.err;
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    ByteArrayOutputStream complained = new ByteArrayOutputStream();
    int code;
    try {
      System.setOut(new PrintStream(said, true, StandardCharsets.UTF_8));
      System.setErr(new PrintStream(complained, true, StandardCharsets.UTF_8));
      code = Main.execute(words(args));
    } finally {
      System.setOut(out);
      System.setErr(err);
    }
    return new Outcome(
        code, said.toString(StandardCharsets.UTF_8), complained.toString(StandardCharsets.UTF_8));
  }

  /** One command in a JVM of its own, started by {@code before} such as a shell with limits. */
  static Outcome scarpwayApart(List<String> before, List<String> environment, Object... args)
      throws IOException, InterruptedException {
    List<String> command = new ArrayList<>(before);
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.add("-XX:+UseSerialGC");
    command.add("-XX:-UsePerfData");
    command.add("-Xmx1g");
    command.add("-Djava.library.path=" + System.getProperty("java.library.path"));
    command.add("-cp");
    command.add(System.getProperty("java.class.path"));
    command.add(Main.class.getName());
    command.addAll(List.of(words(args)));
    return process(command, environment);
  }

  /** Another program, both its streams and its exit code. */
  static Outcome tool(Object... command) throws IOException, InterruptedException {
    return process(List.of(words(command)), List.of());
  }

  private static Outcome process(List<String> command, List<String> environment)
      throws IOException, InterruptedException {
    Path out = Files.createTempFile("scarpway-out", ".txt");
    Path err = Files.createTempFile("scarpway-err", ".txt");
    try {
      ProcessBuilder b = new ProcessBuilder(command);
      for (String e : environment) {
        b.environment().put(e.substring(0, e.indexOf('=')), e.substring(e.indexOf('=') + 1));
      }
      int code = b.redirectOutput(out.toFile()).redirectError(err.toFile()).start().waitFor();
      return new Outcome(code, Files.readString(out), Files.readString(err));
    } finally {
      Files.delete(out);
      Files.delete(err);
    }
  }

  private static String[] words(Object... args) {
    return Stream.of(args).map(Object::toString).toArray(String[]::new);
  }

  /** SHA-256 of every file below a folder that the test wants, by relative name. */
  static SortedMap<String, String> digests(Path folder, Predicate<String> wanted)
      throws IOException {
    SortedMap<String, String> all = new TreeMap<>();
    for (String name : files(folder)) {
      if (wanted.test(name)) {
        all.put(name, sha256(folder.resolve(name)));
      }
    }
    return all;
  }

  /** Relative names of every file below a folder, sorted. */
  static List<String> files(Path folder) throws IOException {
    try (Stream<Path> walk = Files.walk(folder)) {
      return walk.filter(Files::isRegularFile)
          .map(p -> folder.relativize(p).toString())
          .sorted()
          .toList();
    }
  }

  static String sha256(Path file) throws IOException {
    try {
      byte[] sum = MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file));
      return HexFormat.of().formatHex(sum);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
