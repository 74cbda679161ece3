package org.scarpway.run.closing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.scarpway.run.store.JobLock;
import org.scarpway.run.store.StageFolder;
import org.scarpway.run.store.StageRecord;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * Cleans a job's folder after a killed run: partly written files and folders are removed, and a
 * stage that was moved aside for new products that never arrived is moved back.
 */
public final class CrashRecovery {
  private CrashRecovery() {}

  /**
   * Must be called only by the run that holds the lock of the folder.
   *
   * @param ids of the job's stages
   * @param figures names of their figures
   */
  public static void clear(JobLock held, List<String> ids, List<String> figures) {
    Path folder = held.folder();
    ids.forEach(id -> new StageFolder(folder, id).recover());
    for (Path p : ofDroppedStages(folder)) {
      String name = p.getFileName().toString();
      new StageFolder(p.getParent(), name.substring(1, name.lastIndexOf('.'))).recover();
    }
    for (String name : JobOutputs.names(ids, figures)) {
      Path part = OwnNames.part(folder.resolve(name));
      try {
        Files.deleteIfExists(part);
      } catch (IOException e) {
        throw new StageFailure("cannot remove " + part + ": " + Reason.of(e), e);
      }
    }
  }

  /**
   * Returns the leftovers of stages that the job no longer has; the record inside tells them from
   * the user's folders.
   */
  private static List<Path> ofDroppedStages(Path folder) {
    try (Stream<Path> walk = Files.walk(folder, 2)) {
      return walk.filter(p -> p.getFileName().toString().matches("\\..+\\.(part|old)"))
          .filter(p -> Files.isDirectory(p, LinkOption.NOFOLLOW_LINKS))
          .filter(p -> Files.isRegularFile(p.resolve(StageRecord.FILE)))
          .sorted()
          .toList();
    } catch (IOException | UncheckedIOException e) {
      throw new StageFailure("cannot list " + folder + ": " + Reason.of(e), e);
    }
  }
}
