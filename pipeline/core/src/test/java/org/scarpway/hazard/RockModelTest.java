package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/**
 * What rocks do to a swath, against sums over the published distribution of sizes by numerical
 * integration: rocks of diameter D cover the share k q exp(-q D) dD of the ground, each pi D2 / 4
 * (Golombek and Rapp 1997).
 */
class RockModelTest {
  private static double q(double coverage) {
    return 1.79 + 0.152 / coverage;
  }

  /** Sum over all rocks of at least a diameter, per m2, by Simpson's rule in log D. */
  static double sum(double coverage, double fromM, DoubleUnaryOperator ofDiameter) {
    double q = q(coverage);
    int n = 20_000;
    double a = Math.log(fromM);
    double h = (Math.log(fromM + 60 / q) - a) / n;
    double sum = 0;
    for (int i = 0; i <= n; i++) {
      double d = Math.exp(a + i * h);
      double perM3 = coverage * q * Math.exp(-q * d) * 4 / (Math.PI * d * d);
      sum += perM3 * ofDiameter.applyAsDouble(d) * d * (i == 0 || i == n ? 1 : i % 2 == 1 ? 4 : 2);
    }
    return sum * h / 3;
  }

  static double discs(double coverage, double swathM, double diameterM) {
    return sum(coverage, diameterM, d -> Math.PI * (swathM + d) * (swathM + d) / 4);
  }

  @Test
  void aPlaceIsFreeWhereNoRockOfAllThatCouldTouchItIsThere() {
    for (double k : new double[] {0.02, 0.07, 0.2}) {
      for (double swathM : new double[] {0.5, 3, 4.2}) {
        double touching = discs(k, swathM, 0.7);
        RockModel rocks = RockModel.of(k);
        assertEquals(touching, rocks.blockingDensity(swathM, 0.7), 1e-8 * touching);
        // Poisson: none of an expected number happens with exp(-number).
        assertEquals(1 - Math.exp(-touching), rocks.blockedProbability(swathM, 0.7), 1e-8);
      }
    }
  }

  @Test
  void theWayRoundIsTheHypotenuseOfFreePathAndSidestep() {
    for (double k : new double[] {0.02, 0.05, 0.07, 0.1}) {
      double swathM = 3;
      double perM2 = sum(k, 0.7, d -> 1);
      double freePathM = 1 / sum(k, 0.7, d -> swathM + d);
      double meanDiameterM = sum(k, 0.7, d -> d) / perM2;
      double sidestepM = (swathM + meanDiameterM) / 4;
      double want = Math.hypot(freePathM, sidestepM) / freePathM;
      assertTrue(want > 1);
      assertEquals(want - 1, RockModel.of(k).detourFactor(swathM, 0.7) - 1, 1e-6 * (want - 1));
    }
  }

  @Test
  void noWayIsLeftFromTheBarrierOn() {
    // Coverage at which rocks of 0.7 m or more, grown by half a swath of 3 m, join: 1.128.
    double low = 0.01;
    double high = 0.9;
    for (int i = 0; i < 50; i++) {
      double mid = (low + high) / 2;
      if (discs(mid, 3, 0.7) < 1.128) {
        low = mid;
      } else {
        high = mid;
      }
    }
    assertTrue(RockModel.of(low * (1 - 1e-6)).detourFactor(3, 0.7) < 2);
    assertEquals(Double.POSITIVE_INFINITY, RockModel.of(high * (1 + 1e-6)).detourFactor(3, 0.7));
  }

  @Test
  void withoutRocksNothingIsInTheWay() {
    RockModel none = RockModel.of(0);
    assertEquals(0, none.coveredBy(0.7));
    assertEquals(0, none.perM2(0.7));
    assertEquals(0, none.hitsPerM(3, 0.7));
    assertEquals(0, none.blockedProbability(3, 0.7));
    assertEquals(1, none.detourFactor(3, 0.7));
    assertEquals(Double.POSITIVE_INFINITY, none.meanFreePathM(3, 0.7));
  }

  @Test
  void rangeOfTheFitAndOfFractions() {
    assertTrue(RockModel.of(0.05).withinFit());
    assertTrue(RockModel.of(0.40).withinFit());
    assertFalse(RockModel.of(0.0499).withinFit());
    assertFalse(RockModel.of(0.4001).withinFit());
    for (double wrong : new double[] {-1e-9, 1, 7, Double.NaN}) {
      assertThrows(IllegalArgumentException.class, () -> RockModel.of(wrong));
    }
  }
}
