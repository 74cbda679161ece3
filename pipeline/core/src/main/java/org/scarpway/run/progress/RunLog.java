package org.scarpway.run.progress;

import org.scarpway.run.plan.JobPlan;
import org.scarpway.stage.Progress;

/** What a run tells on stderr while it goes on, for people or for a scheduler. */
public interface RunLog extends Progress {
  /** The job whose stages come next. */
  void job(String name);

  /** What is about to be done, before it is. */
  void plan(JobPlan plan);

  /** A stage begins. */
  void stage(String id);

  /** A stage's products are there. */
  void done(String id, StageDone done);

  /** Something worth a line of its own. */
  void note(String line);

  /** The job ended without all of its products. */
  void failed(String job, int code, String line);

  /** The job ended with all of its products. */
  void finished(String job, double wallS);
}
