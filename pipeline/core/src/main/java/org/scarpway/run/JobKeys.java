package org.scarpway.run;

import org.scarpway.config.Job;
import org.scarpway.dem.DemRequest;

/** What of a job each stage depends on, as text without paths: files count by their content. */
final class JobKeys {
  private JobKeys() {}

  static String dem(Job job, InputDigests digests) {
    DemRequest d = job.dem();
    return String.join(
        "; ",
        "files " + digests.of(d.sources()),
        "body " + d.body(),
        "window " + d.window(),
        "cell " + d.cellM(),
        "voids " + d.voids() + " " + d.maxFillCells(),
        "sigma " + d.verticalSigmaM() + " " + d.correlationLengthM(),
        "local " + d.assumeLocalMetres());
  }

  static String hazard(Job job, InputDigests digests) {
    Job.HazardSettings h = job.hazard();
    return String.join(
        "; ",
        "rocks " + h.rockCoverage(),
        "rock raster "
            + (h.rockCoverageRaster() == null ? "none" : digests.of(h.rockCoverageRaster())),
        "keep-out " + digests.of(h.keepOut()),
        "margin " + h.marginM());
  }
}
