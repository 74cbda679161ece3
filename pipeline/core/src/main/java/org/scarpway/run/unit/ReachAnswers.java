package org.scarpway.run.unit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.run.ground.SoftCached;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.FileTree;
import org.scarpway.run.store.KeyChange;
import org.scarpway.run.store.StageFolder;
import org.scarpway.run.store.StageRecord;
import org.scarpway.stage.StageFailure;

/**
 * Answers reach questions about a place: from finished products if they answer exactly the question
 * of the job as it is now, else by solving the question again in a temporary folder. Writes nothing
 * to the folder of the job's products.
 */
public final class ReachAnswers implements AutoCloseable {
  private final Path jobFolder;
  private final FileDigests digests;
  private Path anew;

  /**
   * @param folder with the products of the question
   * @param whyAnew why those of the job could not be used, null if they could
   */
  public record Answer(Path folder, String whyAnew) {}

  public ReachAnswers(Path jobFolder, FileDigests digests) {
    this.digests = digests;
    this.jobFolder = jobFolder;
  }

  /** Returns null if the job was never run. */
  public Answer of(StageNode<ReachResult> question) {
    StageFolder there = new StageFolder(jobFolder, question.id());
    StageRecord record = there.record();
    if (record == null) {
      return null;
    }
    if (there.holds(question.key(), digests)) {
      return new Answer(there.path(), null);
    }
    boolean same = record.key().equals(question.key().hex());
    finish(question);
    return new Answer(
        question.folder(),
        same
            ? "damaged"
            : "of another question: "
                + String.join(
                    "; ", KeyChange.between(record.madeFrom(), question.key().ingredients())));
  }

  private <T> void finish(StageNode<T> node) {
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
      throw new StageFailure("no room for temporary files: " + e.getMessage(), e);
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
