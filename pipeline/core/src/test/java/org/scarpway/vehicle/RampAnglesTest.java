package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Ramp angles at the limits of plane geometry. */
class RampAnglesTest {
  @Test
  void aWheelThatReachesBeyondTheBodyMeetsTheRampFirst() {
    assertEquals(90, RampAngles.approachDeg(0.4, 0.2, 0.5));
    assertEquals(90, RampAngles.approachDeg(0.5, 0.5, 0.5), 1e-9);
    // Level with the axle the tangent to the wheel rises by asin(radius / overhang).
    assertEquals(30, RampAngles.approachDeg(0.5, 1, 0.5), 1e-9);
  }
}
