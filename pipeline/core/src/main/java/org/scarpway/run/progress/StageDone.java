package org.scarpway.run.progress;

/** The time and memory that a stage used, and the origin of its products. */
public record StageDone(double wallS, long cells, StageOrigin from, String key, long peakHeapMb) {
  public boolean cached() {
    return from != StageOrigin.COMPUTED;
  }
}
