package org.scarpway.run.ground;

import java.util.Map;

/**
 * The resources that stages need: a start, most of it the compiling of their code, and so much per
 * cell and time that the stage goes over it. Times, heap and disk are measured by {@code
 * pipeline/bench/bin/plan-truth} on two cores; own runs correct times and disk.
 *
 * @param startS wall time of the first stage of the kind in a run, besides that of its cells, s
 * @param secondsPerCell wall time, s
 * @param heapBytes bytes per cell of the stage's work, its result and the results it uses
 * @param resultBytes bytes per cell of its result alone
 * @param diskBytes bytes per cell of its products
 */
public record StageNeeds(
    double startS, double secondsPerCell, double heapBytes, double resultBytes, double diskBytes) {
  private static final Map<String, StageNeeds> BY_KIND =
      Map.ofEntries(
          Map.entry("opening", new StageNeeds(0.5, 0.1e-6, 0, 0, 0)),
          Map.entry("terrain", new StageNeeds(0.35, 0.7e-6, 60, 36, 41)),
          Map.entry("derivatives", new StageNeeds(0.3, 3e-6, 100, 0, 40)),
          Map.entry("slope-error", new StageNeeds(0.3, 0.2e-6, 80, 0, 8)),
          Map.entry("hazard", new StageNeeds(0.25, 0.2e-6, 60, 9, 5.5)),
          Map.entry("mobility", new StageNeeds(0.35, 0.85e-6, 90, 38, 18)),
          Map.entry("reach", new StageNeeds(2.5, 1e-6, 0, 22, 21)),
          Map.entry("corridor", new StageNeeds(0.4, 0.5e-6, 110, 8, 2)),
          Map.entry("sheet", new StageNeeds(0.4, 0.6e-6, 190, 0, 0.1)),
          Map.entry("sortie", new StageNeeds(2.5, 1e-6, 0, 2, 2)),
          Map.entry("sites", new StageNeeds(0.2, 1e-6, 140, 0, 0.1)),
          Map.entry("site-search", new StageNeeds(0.1, 2e-8, 140, 0, 0)),
          Map.entry("light", new StageNeeds(0.5, 2e-8, 80, 0, 2)),
          Map.entry("contact", new StageNeeds(0.3, 3e-9, 80, 0, 1)),
          Map.entry("report", new StageNeeds(0.7, 0.4e-6, 0, 0, 4)));

  /** Assumed for a stage that was not measured. */
  private static final StageNeeds OTHER = new StageNeeds(0.5, 5e-6, 100, 20, 20);

  /** Heap (MB) of the program, its libraries and everything that does not grow with the grid. */
  static final long BASE_MB = 60;

  /** Returns the kind of a stage: mobility for mobility/buggy. */
  public static String kind(String id) {
    int slash = id.indexOf('/');
    return slash < 0 ? id : id.substring(0, slash);
  }

  /**
   * Returns the time (s) of a stage.
   *
   * @param cells each counted as often as the stage goes over it
   * @param first true if its code is still to be compiled
   */
  public double seconds(double cells, boolean first) {
    return (first ? startS : 0) + cells * secondsPerCell;
  }

  /**
   * @param id of a stage, or its kind with what tells it further, behind a space
   */
  public static StageNeeds of(String id) {
    return BY_KIND.getOrDefault(kind(id).split(" ", 2)[0], OTHER);
  }
}
