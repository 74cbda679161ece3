package org.scarpway.config;

import org.scarpway.config.Job.MonteCarlo;
import org.scarpway.dem.DemRequest;

/** Reads a monte_carlo section of a job: realisations of the height error. */
final class MonteCarloSectionReader {
  private MonteCarloSectionReader() {}

  /**
   * @param dem null if its section has problems of its own
   * @return null if there is no such section
   */
  static MonteCarlo read(Entry monteCarlo, DemRequest dem, Problems problems) {
    if (!monteCarlo.present()) {
      return null;
    }
    if (dem != null && dem.verticalSigmaM() == null) {
      problems.add(
          monteCarlo.keyAt(),
          "monte_carlo without a height error",
          "dem.vertical_sigma_m",
          "add it, or leave out monte_carlo");
    }
    return new MonteCarlo(monteCarlo.whole("realisations"), monteCarlo.whole("seed"));
  }
}
