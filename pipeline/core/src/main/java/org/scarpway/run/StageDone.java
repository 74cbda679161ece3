package org.scarpway.run;

/** What finishing a stage took. */
record StageDone(double wallS, long cells, ComeFrom from, String key, long peakHeapMb) {
  boolean cached() {
    return from != ComeFrom.COMPUTED;
  }
}
