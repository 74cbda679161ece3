package org.scarpway.light;

import java.time.Instant;

/** Where sun and Earth stand over a body, by time. */
@FunctionalInterface
public interface Sky {
  /**
   * Positions as seen from the body's centre.
   *
   * @throws IllegalArgumentException outside the time for which they are known
   */
  SkyPosition at(Instant utc);
}
