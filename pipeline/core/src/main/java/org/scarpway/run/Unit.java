package org.scarpway.run;

import java.nio.file.Path;

/**
 * One piece of work whose products live in one folder.
 *
 * @param <T> what later units need of it
 */
interface Unit<T> {
  /** Folder below the job's folder, such as mobility/buggy. */
  String id();

  StageKey key();

  /** How many cells it works on, for rates. */
  long cells();

  T compute();

  void write(Path folder, T result);

  /** The same result from finished products. */
  T load(Path folder);
}
