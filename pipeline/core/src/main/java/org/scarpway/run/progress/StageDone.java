package org.scarpway.run.progress;

/** What finishing a stage took. */
public record StageDone(double wallS, long cells, StageOrigin from, String key, long peakHeapMb) {
  public boolean cached() {
    return from != StageOrigin.COMPUTED;
  }
}
