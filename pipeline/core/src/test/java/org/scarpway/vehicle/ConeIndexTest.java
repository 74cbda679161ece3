package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Mobility index by hand, in pounds and inches, in each band of axle loads. */
class ConeIndexTest {
  private static final double KG = 0.45359237;
  private static final double INCH = 0.0254;

  /** Tyres 10 in wide of radius 20 in, 15 in of clearance. */
  private static double index(double axleLb) {
    return ConeIndex.mobilityIndex(axleLb * KG, 10 * INCH, 20 * INCH, 15 * INCH);
  }

  /** Pressure is axle load / (2 x 10 x 20), the tyre's factor (10 + 10) / 100, 15 in are 1.5. */
  @Test
  void eachBandOfAxleLoads() {
    assertEquals(2.5 * 0.553 / 0.2 + 0.5 - 1.5, index(1000), 1e-9);
    assertEquals(20 * 1.314 / 0.2 + 4 - 1.5, index(8000), 1e-9);
    assertEquals(40 * 1.852 / 0.2 + 8 - 1.5, index(16_000), 1e-9);
    assertEquals(60 * 3.557 / 0.2 + 12 - 1.5, index(24_000), 1e-9);
    assertEquals(4.9999 * 0.553 * 1.99996 / 0.2 + 0.99998 - 1.5, index(1999.96), 1e-9);
    assertEquals(5.0001 * 1.11600132 / 0.2 + 1.00002 - 1.5, index(2000.04), 1e-9);
    assertEquals(33.7499 * 1.49549868 / 0.2 + 6.74998 - 1.5, index(13_499.96), 1e-9);
    assertEquals(33.7501 * 1.49700568 / 0.2 + 6.75002 - 1.5, index(13_500.04), 1e-9);
    assertEquals(49.9999 * 2.41999432 / 0.2 + 9.99998 - 1.5, index(19_999.96), 1e-9);
    assertEquals(50.0001 * 2.44501112 / 0.2 + 10.00002 - 1.5, index(20_000.04), 1e-9);
  }

  /** The published range of the formula for one pass ends at 115, its lower branch included. */
  @Test
  void onePassAtTheEndOfTheLowerBranch() {
    assertEquals(11.48 + 23 - 39.2 / 118.74, ConeIndex.wheeled1(115, 1), 1e-12);
    assertEquals(0.5 * ConeIndex.wheeled1(60, 1), ConeIndex.wheeled1(60, 0.5), 1e-12);
    assertEquals(1, ConeIndex.deflectionFactor(0.15), 1e-15);
    assertEquals(42.63, ConeIndex.rating(49, 0.87), 1e-12);
  }
}
