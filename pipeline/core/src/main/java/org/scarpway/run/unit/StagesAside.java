package org.scarpway.run.unit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.scarpway.run.ground.SoftCached;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.FileTree;
import org.scarpway.run.store.StageFolder;
import org.scarpway.stage.Reason;
import org.scarpway.stage.StageFailure;

/**
 * Finishes stages without writing to the folder of the job's products: from finished products there
 * if they are exactly those of the stage, else in a temporary folder.
 */
public final class StagesAside implements AutoCloseable {
  private final Path jobFolder;
  private final FileDigests digests;
  private Path anew;

  public StagesAside(Path jobFolder, FileDigests digests) {
    this.jobFolder = jobFolder;
    this.digests = digests;
  }

  /** Finishes a stage and those that it needs. */
  public <T> void finish(StageNode<T> node) {
    if (node.isFinished()) {
      return;
    }
    StageFolder there = new StageFolder(jobFolder, node.id());
    node.needs().forEach(this::finish);
    StageFolder folder =
        there.holds(node.key(), digests) ? there : new StageFolder(anew(), node.id());
    if (folder != there) {
      folder.replace(node.key(), node.unit()::make);
    }
    node.finished(folder.path(), new SoftCached<>(() -> node.unit().load(folder.path())));
  }

  private Path anew() {
    try {
      if (anew == null) {
        anew = Files.createTempDirectory("scarpway");
      }
      return anew;
    } catch (IOException e) {
      throw new StageFailure("no room for temporary files: " + Reason.of(e), e);
    }
  }

  @Override
  public void close() {
    try {
      if (anew != null) {
        FileTree.remove(anew);
      }
    } catch (IOException e) {
      // This is a temporary folder; the system deletes it.
    }
  }
}
