package org.scarpway.run.unit;

import java.nio.file.Path;
import org.scarpway.config.Job;
import org.scarpway.reach.question.ReachRequest.HomeRule;
import org.scarpway.reach.question.ReachResult;
import org.scarpway.run.store.FileDigests;
import org.scarpway.run.store.KeyChange;
import org.scarpway.run.store.StageFolder;
import org.scarpway.run.store.StageRecord;

/**
 * Answers reach questions about a place: from finished products if they answer exactly the question
 * of the job as it is now, else by solving the question again in a temporary folder. Writes nothing
 * to the folder of the job's products.
 */
public final class ReachAnswers implements AutoCloseable {
  private final Path jobFolder;
  private final FileDigests digests;
  private final StagesAside aside;

  /**
   * @param folder with the products of the question
   * @param whyAnew why those of the job could not be used, null if they could
   */
  public record Answer(Path folder, String whyAnew) {}

  public ReachAnswers(Path jobFolder, FileDigests digests) {
    this.digests = digests;
    this.jobFolder = jobFolder;
    this.aside = new StagesAside(jobFolder, digests);
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
    aside.finish(question);
    return new Answer(
        question.folder(),
        same
            ? "damaged"
            : "of another question: "
                + String.join(
                    "; ", KeyChange.between(record.madeFrom(), question.key().ingredients())));
  }

  /** Returns what the question rests on, for asking more of it. */
  public ReachInput input(StageGraph graph, Job job, Job.ReachEntry entry) {
    aside.finish(graph.terrain());
    if (entry.home() == HomeRule.WALK_BACK || job.hazard().rocks()) {
      aside.finish(graph.hazard());
    }
    graph.notes(entry);
    return graph.input(entry);
  }

  @Override
  public void close() {
    aside.close();
  }
}
