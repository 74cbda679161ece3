package org.scarpway.run.unit;

import java.nio.file.Path;
import org.scarpway.run.store.StageKey;

/**
 * One unit of work whose products are in one folder.
 *
 * @param <T> the result that the report and the run's messages are made from
 */
public interface StageTask<T> {
  /** Folder below the job's folder, such as mobility/buggy. */
  String id();

  StageKey key();

  /**
   * True if it answers a question of the job. A fault in it then ends only it and the questions
   * that depend on it; the others, the report and the summary continue.
   */
  default boolean isQuestion() {
    return false;
  }

  /**
   * The question whose answer it presents, by the name of its stage: without that answer there is
   * nothing to be said of it. Null if it stands for itself.
   */
  default String presents() {
    return null;
  }

  /** What the wavefronts that it asks for depend on, numbers left out; null if it asks for none. */
  default StageKey fronts() {
    return null;
  }

  /**
   * What its products depend on but for names and bands, under which all other products are kept;
   * null if none are.
   */
  default StageKey kept() {
    return null;
  }

  /** Number of cells that it processes, for rates. */
  long cells();

  /** Computes the products and writes them. */
  void make(Path folder);

  /** Loads the result from finished products. */
  T load(Path folder);
}
