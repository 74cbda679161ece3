package org.scarpway.run;

import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;

/**
 * How a job is run.
 *
 * @param out the job's folder is made below it
 * @param fresh ignore finished products
 * @param set overrides of job settings by dotted key
 */
public record RunOptions(
    Path out, int threads, boolean fresh, ProgressStyle progress, Map<String, String> set) {
  public RunOptions {
    set = new TreeMap<>(set);
  }
}
