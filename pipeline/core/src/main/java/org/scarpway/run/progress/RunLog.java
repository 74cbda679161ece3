package org.scarpway.run.progress;

import org.scarpway.run.plan.JobPlan;
import org.scarpway.stage.Progress;

/** Reports on stderr during a run, for people or for a scheduler. */
public interface RunLog extends Progress {
  /** Announces the job whose stages follow. */
  void job(String name);

  /** Reports the plan before it is run. */
  void plan(JobPlan plan);

  /** A stage begins. */
  void stage(String id);

  /** A stage is finished and its products exist. */
  void done(String id, StageDone done);

  /** A message that deserves a line of its own. */
  void note(String line);

  /** The job ended without all of its products. */
  void failed(String job, int code, String line);

  /** The job ended with all of its products. */
  void finished(String job, double wallS);
}
