package org.scarpway.run;

/** What finishing a stage took. */
record StageDone(double wallS, long cells, StageOrigin from, String key, long peakHeapMb) {
  boolean cached() {
    return from != StageOrigin.COMPUTED;
  }
}
