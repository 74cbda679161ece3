package org.scarpway.run.ground;

import org.scarpway.config.Job;
import org.scarpway.dem.DemRequest;
import org.scarpway.run.store.InputDigests;

/**
 * The settings of a job that each stage depends on, as text without paths: files count by their
 * content.
 */
public final class JobKeys {
  private JobKeys() {}

  public static String dem(Job job, InputDigests digests) {
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

  /** Returns the soils by place: their parameters and the content of the files that place them. */
  public static String soils(Job job, InputDigests digests) {
    Job.SoilSettings s = job.soils();
    if (s == null) {
      return "none";
    }
    StringBuilder text = new StringBuilder();
    if (s.raster() != null) {
      text.append("raster ").append(digests.of(s.raster()));
    }
    text.append("; no data ").append(s.noData());
    s.classes().forEach(c -> text.append("; ").append(c.value()).append(' ').append(c.soil()));
    s.areas()
        .forEach(
            a -> text.append("; ").append(digests.of(a.polygons())).append(' ').append(a.soil()));
    return text.toString();
  }

  public static String hazard(Job job, InputDigests digests) {
    Job.HazardSettings h = job.hazard();
    return String.join(
        "; ",
        "rocks " + h.rockCoverage(),
        "rock raster "
            + (h.rockCoverageRaster() == null ? "none" : digests.of(h.rockCoverageRaster())),
        "rock counts " + h.rockCounts(),
        "rock paths " + h.rockSlowM() + " " + h.rockNoGoM(),
        "rock no data " + h.rockNoData(),
        "keep-out " + digests.of(h.keepOut()),
        "margin " + h.marginM(),
        "room " + h.minGapM() + " " + h.turningM());
  }
}
