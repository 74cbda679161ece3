package org.scarpway.fuzz;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import org.scarpway.stage.UserError;

/** Gives bytes to a reader as a file: they are read or refused, nothing else may come out of it. */
final class Target {
  private static final Path DIR = folder();

  /** A class of Java in what a user reads; a file may well hold the word exception. */
  private static final Pattern JAVA = Pattern.compile("\\b(java|javax|org|com)(\\.\\w+)+\\.[A-Z]");

  private Target() {}

  private static Path folder() {
    Path memory = Path.of("/dev/shm");
    try {
      Path dir =
          Files.isWritable(memory)
              ? Files.createTempDirectory(memory, "scarpway-fuzz")
              : Files.createTempDirectory("scarpway-fuzz");
      Runtime.getRuntime().addShutdownHook(new Thread(() -> remove(dir)));
      return dir;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void remove(Path dir) {
    try (var all = Files.walk(dir)) {
      for (Path p : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(p);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * @throws AssertionError for a refusal that is no clear line; anything else that the reader
   *     throws is thrown on
   */
  static void read(String name, byte[] content, Consumer<Path> reader) {
    Path file = DIR.resolve(name);
    try {
      Files.write(file, content);
      reader.accept(file);
    } catch (UserError e) {
      if (e.getMessage().isBlank()
          || JAVA.matcher(e.getMessage()).find()
          || e.getMessage().lines().anyMatch(String::isBlank)) {
        throw new AssertionError("no clear line: " + e.getMessage(), e);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
