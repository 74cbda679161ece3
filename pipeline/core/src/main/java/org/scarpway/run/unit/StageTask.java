package org.scarpway.run.unit;

import java.nio.file.Path;
import org.scarpway.run.store.StageKey;

/**
 * One piece of work whose products live in one folder.
 *
 * @param <T> what later units need of it
 */
public interface StageTask<T> {
  /** Folder below the job's folder, such as mobility/buggy. */
  String id();

  StageKey key();

  /**
   * Whether it answers a question of the job. A fault in it then ends it alone, with the questions
   * that rest on it; the others, the report and the summary go on.
   */
  default boolean isQuestion() {
    return false;
  }

  /** How many cells it works on, for rates. */
  long cells();

  /** Null where the result is too large for memory: then {@link #write} makes the products. */
  T compute();

  void write(Path folder, T result);

  /**
   * The same result from finished products; of one too large for memory, what a report shows of it.
   */
  T load(Path folder);
}
