package org.scarpway.run.ground;

import java.util.List;
import java.util.Map;

/**
 * The resources that stages need per cell: time as measured on the demo job (1.44 million cells,
 * two cores), heap computed from the sizes of the arrays that a stage holds, disk from its
 * products. All are estimates; the heap figures have not been calibrated, except for the program
 * itself.
 *
 * @param secondsPerCell wall time, s
 * @param heapBytes bytes per cell of the stage's work, its result and the results it uses
 * @param resultBytes bytes per cell of its result alone
 * @param diskBytes bytes per cell of its products
 */
public record StageNeeds(
    double secondsPerCell, double heapBytes, double resultBytes, double diskBytes) {
  private static final Map<String, StageNeeds> BY_KIND =
      Map.of(
          "terrain", new StageNeeds(1.6e-6, 60, 44, 30),
          "derivatives", new StageNeeds(3e-6, 100, 0, 40),
          "slope-error", new StageNeeds(20e-6, 80, 0, 8),
          "hazard", new StageNeeds(0.6e-6, 70, 10, 5),
          "mobility", new StageNeeds(2.1e-6, 120, 45, 16),
          "reach", new StageNeeds(7e-6, 190, 27, 22),
          "corridor", new StageNeeds(2.2e-6, 110, 8, 5),
          "sites", new StageNeeds(1e-6, 140, 0, 0.1),
          "site-search", new StageNeeds(2e-8, 140, 0, 0));

  /** Assumed for a stage that was not measured. */
  private static final StageNeeds OTHER = new StageNeeds(5e-6, 100, 20, 20);

  /** Heap (MB) of the program, its libraries and everything that does not grow with the grid. */
  static final long BASE_MB = 60;

  /** Returns the kind of a stage: mobility for mobility/buggy. */
  public static String kind(String id) {
    int slash = id.indexOf('/');
    return slash < 0 ? id : id.substring(0, slash);
  }

  public static StageNeeds of(String id) {
    return BY_KIND.getOrDefault(kind(id), OTHER);
  }

  public static long diskMb(String id, long cells) {
    return 1 + Math.round(cells * of(id).diskBytes / (1 << 20));
  }

  /**
   * Returns the smallest heap (MB) with which the job should finish: the larger of what its most
   * demanding stage uses and of all results at once, from which the report is drawn.
   *
   * @param ids of all stages
   */
  public static long heapMb(List<String> ids, long cells) {
    double most = ids.stream().mapToDouble(id -> of(id).heapBytes).max().orElse(0);
    double all = ids.stream().mapToDouble(id -> of(id).resultBytes).sum();
    double bytes = Math.max(most, all);
    return BASE_MB + Math.round(cells * bytes / (1 << 20));
  }
}
