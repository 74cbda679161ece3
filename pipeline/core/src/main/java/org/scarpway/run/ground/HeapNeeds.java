package org.scarpway.run.ground;

import java.util.List;
import org.scarpway.config.Job;
import org.scarpway.grid.GridSpec;
import org.scarpway.reach.trip.StoredWays;

/**
 * The smallest heap with which a job should finish in memory: the largest of what its most
 * demanding stage uses, and of all results at once, from which the report is drawn. Questions store
 * the same arrays as on ground larger than memory.
 */
final class HeapNeeds {
  /** Heap (MB) of the program itself: the smallest ground ended with 54 MB, and not with 46. */
  private static final double PROGRAM_MB = 57;

  /** Ground of a question: headings, speeds, heights and gradients. */
  private static final int GROUND_BYTES = 6 * Float.BYTES;

  /** Costs of steps per cell and quantity, which fronts keep as far as a quarter of the heap. */
  private static final double COST_BYTES = 300;

  private static final double COST_SHARE = 0.25;

  private HeapNeeds() {}

  /**
   * @param ids of all stages
   */
  static long mb(Job job, GridSpec spec, List<String> ids) {
    double cells = spec.cells();
    double stages = ids.stream().mapToDouble(id -> StageNeeds.of(id).heapBytes()).max().orElse(0);
    double results = ids.stream().mapToDouble(id -> StageNeeds.of(id).resultBytes()).sum();
    double bytes = PROGRAM_MB * (1 << 20) + Math.max(stages, results) * cells;
    for (Job.ReachEntry r : job.reach()) {
      bytes = Math.max(bytes, ofQuestion(job, spec, r));
    }
    for (Job.SortieEntry s : job.sorties()) {
      bytes = Math.max(bytes, ofQuestion(job, spec, SortieAsReach.of(s)));
    }
    return Math.round(bytes / (1 << 20));
  }

  private static double ofQuestion(Job job, GridSpec spec, Job.ReachEntry r) {
    ReachExtent extent = ReachExtent.amid(job, spec, r);
    StoredWays ways = AskedWays.of(job, r, extent);
    double timed = extent.frontCells();
    double other = extent.otherFrontCells();
    double bytes =
        PROGRAM_MB * (1 << 20)
            + (GROUND_BYTES + ways.everywhere()) * (double) spec.cells()
            + (ways.timed().kept() + ways.timed().passing()) * timed
            + (ways.other().kept() + ways.other().passing()) * other;
    double costs = COST_BYTES * (timed + (ways.other().fronts() > 0 ? other : 0));
    return Math.min(bytes + costs, bytes / (1 - COST_SHARE));
  }
}
