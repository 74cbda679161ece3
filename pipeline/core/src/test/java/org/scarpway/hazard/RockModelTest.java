package org.scarpway.hazard;

import static org.junit.jupiter.api.Assertions.assertEquals;
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
    for (double k : new double[] {0.05, 0.07, 0.2}) {
      for (double swathM : new double[] {0.5, 3, 4.2}) {
        double touching = discs(k, swathM, 0.7);
        RockModel rocks = RockModel.of(RockCount.ALL, k);
        assertEquals(touching, rocks.blockingDensity(swathM, 0.7), 1e-8 * touching);
        // Poisson: none of an expected number happens with exp(-number).
        assertEquals(1 - Math.exp(-touching), rocks.blockedProbability(swathM, 0.7), 1e-8);
      }
    }
  }

  /** Rocks under the belly count where a wheel would meet them, all others over the whole width. */
  @Test
  void wheelsMeetWhatTheBellyClears() {
    RockBody body = new RockBody(3, 0.35, 0.2, 0.3, 2);
    for (double k : new double[] {0.05, 0.1, 0.3}) {
      DoubleUnaryOperator wide = d -> d >= 0.7 ? 3 + d : Math.min(2 * (0.3 + d), 3 + d);
      double hits = sum(k, 0.4, wide);
      assertEquals(hits, RockModel.of(RockCount.ALL, k).hitsPerM(body), 2e-3 * hits);
      double density =
          sum(
              k,
              0.4,
              d -> Math.PI / 4 * (d >= 0.7 ? (3 + d) * (3 + d) : 2 * (0.3 + d) * (0.3 + d)));
      assertEquals(density, RockModel.of(RockCount.ALL, k).density(body), 2e-3 * density);
      // Without a limit below the belly it is the swath alone, and wheels everywhere are no wider.
      RockBody belly = new RockBody(3, 0.35, 0.5, 0.3, 2);
      assertEquals(
          RockModel.of(RockCount.ALL, k).hitsPerM(3, 0.7),
          RockModel.of(RockCount.ALL, k).hitsPerM(belly),
          1e-12);
      RockBody all = new RockBody(3, 0.35, 0.2, 3, 4);
      assertEquals(
          RockModel.of(RockCount.ALL, k).hitsPerM(3, 0.4),
          RockModel.of(RockCount.ALL, k).hitsPerM(all),
          1e-12);
      assertEquals(
          RockModel.of(RockCount.ALL, k).blockingDensity(3, 0.4),
          RockModel.of(RockCount.ALL, k).density(all),
          1e-12);
    }
  }

  @Test
  void theWayRoundGrowsWithTheDensityUntilItIsClosed() {
    double last = 1;
    for (double density = 0; density < RockModel.CLOSED_DENSITY; density += 0.01) {
      double detour = RockModel.detourFactor(density);
      assertTrue(detour >= last && detour < 1.4, "density " + density);
      last = detour;
    }
    assertEquals(1, RockModel.detourFactor(0));
    assertEquals(Double.POSITIVE_INFINITY, RockModel.detourFactor(RockModel.CLOSED_DENSITY));
    assertTrue(RockModel.CLOSED_DENSITY < RockModel.BARRIER_DENSITY);
  }

  /** Shortest ways among discs at random, from {@link BoulderFields}. */
  @Test
  void theWayRoundIsThatOfFieldsAtRandom() {
    double[] density = {0.3, 0.5, 0.7};
    double[] way = {1.019, 1.05, 1.15};
    for (int i = 0; i < way.length; i++) {
      double told = RockModel.detourFactor(density[i]);
      assertTrue(told > way[i] - 0.003 && told < way[i] + 0.04, density[i] + ": " + told);
    }
  }

  @Test
  void withoutRocksNothingIsInTheWay() {
    RockModel none = RockModel.of(RockCount.ALL, 0);
    assertEquals(0, none.coveredBy(0.7));
    assertEquals(0, none.perM2(0.7));
    assertEquals(0, none.hitsPerM(3, 0.7));
    assertEquals(0, none.blockedProbability(3, 0.7));
    assertEquals(0, none.density(new RockBody(3, 0.35, 0.2, 0.3, 2)));
    assertEquals(0, none.hitsPerM(new RockBody(3, 0.35, 0.2, 0.3, 2)));
    assertEquals(Double.POSITIVE_INFINITY, none.meanFreePathM(3, 0.7));
  }

  @Test
  void onlyFittedCoveragesAreTaken() {
    for (double wrong : new double[] {-1e-9, 0.4001, 1, 7, Double.NaN}) {
      assertThrows(IllegalArgumentException.class, () -> RockModel.of(RockCount.ALL, wrong));
    }
    // Of rocks of a metre or more, 0.40 of all rocks leave 0.0457: more is outside the fit.
    RockCount metre = new RockCount(1, null);
    double most = 0.4 * Math.exp(-(1.79 + 0.152 / 0.4));
    assertEquals(most, metre.most(), 1e-12);
    assertEquals(most, RockModel.of(metre, most).coveredBy(1), 1e-9);
    assertThrows(IllegalArgumentException.class, () -> RockModel.of(metre, 1.001 * most));
  }

  /** Whatever is counted, that much is covered, by the one curve of the family that does so. */
  @Test
  void aCountAboveADiameterBelongsToOneCurve() {
    for (double aboveM : new double[] {0.05, 0.1, 0.5, 1, 1.5}) {
      RockCount count = new RockCount(aboveM, null);
      for (double k : new double[] {0.05, 0.07, 0.1, 0.19, 0.3, 0.39}) {
        double counted = k * Math.exp(-q(k) * aboveM);
        RockModel rocks = RockModel.of(count, counted);
        assertEquals(counted, rocks.coveredBy(aboveM), 1e-9 * counted);
        for (double d : new double[] {0.3, 0.84, 2}) {
          double want = sum(k, d, x -> 1);
          assertEquals(want, rocks.perM2(d), 1e-6 * want, "k " + k + " above " + aboveM);
        }
      }
      double last = 0;
      for (double c = 0; c < count.most(); c += count.most() / 200) {
        double perM2 = RockModel.of(count, c).perM2(0.84);
        assertTrue(perM2 >= last, "more cover, more rocks");
        last = perM2;
      }
    }
  }

  /** Below the fitted range no rock that matters vanishes: the shape at its edge is kept. */
  @Test
  void fewRocksKeepTheShapeAtTheEdgeOfTheFit() {
    for (double k : new double[] {1e-6, 0.001, 0.01, 0.0499}) {
      for (double d : new double[] {0.3, 0.84, 2}) {
        double edge = k / 0.05 * sum(0.05, d, x -> 1);
        assertEquals(edge, RockModel.of(RockCount.ALL, k).perM2(d), 1e-7 * edge);
        assertTrue(
            RockModel.of(RockCount.ALL, k).perM2(d) >= sum(k, d, x -> 1),
            "never fewer than the law");
      }
    }
  }

  /** N(>D) = K D^-e: sums over -dN, by Simpson's rule in log D. */
  @Test
  void aPowerOfTheDiameter() {
    for (double e : new double[] {2.1, 2.56, 3, 4.5}) {
      RockModel rocks = RockModel.of(new RockCount(0.05, e), 0.02);
      assertEquals(0.02, rocks.coveredBy(0.05), 1e-12);
      double perM2 = rocks.perM2(0.6);
      double covered = power(e, perM2, 0.6, d -> Math.PI / 4 * d * d);
      double widths = power(e, perM2, 0.6, d -> d);
      assertEquals(covered, rocks.coveredBy(0.6), 1e-3 * covered);
      assertEquals(widths, rocks.diametersPerM(0.6), 1e-4 * widths);
      assertEquals(Math.pow(2, -e), rocks.perM2(1.2) / perM2, 1e-12);
    }
    assertThrows(IllegalArgumentException.class, () -> new RockCount(0.05, 2.0));
    assertThrows(IllegalArgumentException.class, () -> new RockCount(0, 2.5));
  }

  private static double power(double e, double perM2, double fromM, DoubleUnaryOperator of) {
    int n = 200_000;
    double h = 200.0 / n;
    double sum = 0;
    for (int i = 0; i <= n; i++) {
      double d = fromM * Math.exp(i * h);
      double density = perM2 * e * Math.pow(fromM / d, e);
      sum += density * of.applyAsDouble(d) * (i == 0 || i == n ? 1 : i % 2 == 1 ? 4 : 2);
    }
    return sum * h / 3;
  }

  @Test
  void aRockInAnArea() {
    for (double k : new double[] {0.05, 0.2}) {
      double perM2 = sum(k, 0.7, d -> 1);
      // Poisson: none in 40 m2.
      assertEquals(
          1 - Math.exp(-40 * perM2), RockModel.of(RockCount.ALL, k).probabilityIn(40, 0.7), 1e-8);
      RockBody belly = new RockBody(3, 0.35, 0.5, 0.3, 2);
      double touching = discs(k, 3, 0.7);
      assertEquals(touching, RockModel.of(RockCount.ALL, k).density(belly), 1e-7 * touching);
    }
    assertEquals(2.05, new RockCount(0.1, 2.05).exponent());
    for (int wrong = 0; wrong < 3; wrong++) {
      double swathM = wrong == 0 ? 0 : 3;
      double bellyM = wrong == 1 ? -1 : 0.35;
      double wheelM = wrong == 2 ? Double.NaN : 0.2;
      assertThrows(
          RuntimeException.class, () -> new RockBody(swathM, bellyM, wheelM, 0.3, 2), "no size");
    }
  }
}
