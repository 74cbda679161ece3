package org.scarpway.run;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * What a killed run left half-done in a job's folder: parts of files and folders are removed, and a
 * stage that was moved away for new products that never came is moved back.
 */
final class LeftOvers {
  private LeftOvers() {}

  /** Only the run that holds the folder may do this. */
  static void clear(JobLock held) {
    Path folder = held.folder();
    for (Path p : hidden(folder)) {
      String name = p.getFileName().toString();
      boolean link = Files.isSymbolicLink(p);
      if ((link || Files.isDirectory(p)) && name.startsWith(".")) {
        String stage = name.substring(1, name.lastIndexOf('.'));
        new StageFolder(p.getParent(), stage).recover();
      } else if ((link || Files.isRegularFile(p)) && name.endsWith(".part")) {
        try {
          Files.deleteIfExists(p);
        } catch (IOException e) {
          throw new StageFailure("cannot remove " + p + ": " + Reason.of(e), e);
        }
      }
    }
  }

  private static List<Path> hidden(Path folder) {
    try (Stream<Path> walk = Files.walk(folder, 2)) {
      return walk.filter(p -> p.getFileName().toString().matches("(\\..+\\.(part|old))|.+\\.part"))
          .sorted()
          .toList();
    } catch (IOException | UncheckedIOException e) {
      throw new StageFailure("cannot list " + folder + ": " + Reason.of(e), e);
    }
  }
}
