package org.scarpway.vehicle;

import org.scarpway.terrain.LayerErrors;

/**
 * Required probability that the limits hold, given the measured heights and their error.
 *
 * @param confidence required probability, 0.5 or more, below 1
 * @param errors error of the heights and layers; null if unknown, then the heights are used as
 *     measured
 */
public record HeightTrust(double confidence, LayerErrors errors) {
  /** The heights are used as measured. */
  public static final HeightTrust AS_MEASURED = new HeightTrust(0.5, null);

  public HeightTrust {
    if (!(confidence >= 0.5 && confidence < 1)) {
      throw new IllegalArgumentException("confidence must be in [0.5, 1), got " + confidence);
    }
  }
}
