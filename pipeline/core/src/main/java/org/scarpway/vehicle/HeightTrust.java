package org.scarpway.vehicle;

import org.scarpway.terrain.LayerErrors;

/**
 * With what probability the limits must hold, given the heights as measured and their error.
 *
 * @param confidence 0.5 or more, below 1
 * @param errors null where the error is not known: then the heights count as measured
 */
public record HeightTrust(double confidence, LayerErrors errors) {
  /** Heights taken as measured. */
  public static final HeightTrust AS_MEASURED = new HeightTrust(0.5, null);

  public HeightTrust {
    if (!(confidence >= 0.5 && confidence < 1)) {
      throw new IllegalArgumentException("confidence must be in [0.5, 1), got " + confidence);
    }
  }
}
