package org.scarpway.run.progress;

/**
 * The time and memory that a stage used, and the origin of its products.
 *
 * @param wallS time by the clock (s)
 * @param cpuS processor time of the whole process meanwhile (s)
 */
public record StageDone(
    double wallS, double cpuS, long cells, StageOrigin from, String key, long peakHeapMb) {
  public boolean cached() {
    return from != StageOrigin.COMPUTED;
  }
}
