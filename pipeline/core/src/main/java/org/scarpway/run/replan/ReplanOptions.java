package org.scarpway.run.replan;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Options of the command, as given.
 *
 * @param job file of the job
 * @param set values in place of those of the job, by key
 * @param out folder below which the job's folder lies
 * @param threads number of worker threads
 * @param x of the crew in the raster's own system and unit, or longitude
 * @param y of the crew, or latitude
 * @param lonLat true if x and y are degrees of longitude and latitude
 * @param left amounts by key, such as time_h
 * @param done names of stops of the plan that are done or given up
 * @param lost file of areas that may no longer be entered, null for none
 * @param question name of a reach question, null if the job has only one
 * @param corridor name of the corridor that is the plan, null for the targets of the job
 */
public record ReplanOptions(
    Path job,
    Map<String, String> set,
    Path out,
    int threads,
    double x,
    double y,
    boolean lonLat,
    Map<String, String> left,
    List<String> done,
    Path lost,
    String question,
    String corridor) {
  /** Copies the collections, in their order. */
  public ReplanOptions {
    set = new LinkedHashMap<>(set);
    left = new LinkedHashMap<>(left);
    done = List.copyOf(done);
  }
}
