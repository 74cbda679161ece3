package org.scarpway.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.scarpway.grid.Body;

/** Ground by its cone index and wheels that sink with slip, worked by hand. */
class ConeByHandTest {
  private static Vehicle vehicle(double rci, double mobilityIndex, double deflectionShare) {
    return new Vehicle(
        "given",
        "",
        4000.0,
        new Vehicle.Chassis(6, 3, 0.3, null, null, 0.9),
        new Vehicle.Wheels(List.of(1.5, -1.5), List.of(2.0, 2.0), 0.5, 0.3, null, deflectionShare),
        null,
        null,
        VehicleParts.drive(8, 1.0, null, null, null, null, 0.05, 0, 1, mobilityIndex, false),
        VehicleParts.soil("fine", null, null, rci),
        null,
        null);
  }

  /** 200^0.446 = exp(0.446 x 5.298317) = 10.623298. */
  @Test
  void theUpperBranchesForWheels() {
    assertEquals(43.555523, ConeIndex.wheeled1(200, 1), 1e-5);
    assertEquals(95.609685, ConeIndex.wheeled50(200), 1e-5);
  }

  /** A load on the edge of two bands of pounds counts in the heavier one. */
  @Test
  void loadsOnTheEdgeOfABand() {
    double inch = 0.0254;
    double[] lb = {2000, 13_500, 20_000};
    // Weight factors 0.033 x 2 + 1.05, 0.142 x 13.5 - 0.42, 0.278 x 20 - 3.115.
    double[] weight = {1.116, 1.497, 2.445};
    for (int i = 0; i < lb.length; i++) {
      double mi = ConeIndex.mobilityIndex(lb[i] * 0.45359237, 10 * inch, 20 * inch, 15 * inch);
      double pressure = lb[i] / 400;
      assertEquals(pressure * weight[i] / 0.2 + lb[i] / 2000 - 1.5, mi, 1e-9, lb[i] + " lb");
    }
  }

  /**
   * Tyres deflected by a third of what is usual: 3^0.25 = 1.316074 times as much is needed. MI 100:
   * 11.48 + 20 - 39.2 / 103.74 once, 28.23 + 43 - 92.67 / 103.67 fifty times.
   */
  @Test
  void stiffTyresNeedMoreAndSoftOnesNoLessForFiftyPasses() {
    ConeBearing stiff = ConeBearing.of(vehicle(50, 100, 0.05));
    assertEquals(31.102132 * 1.316074, stiff.once(), 1e-4);
    assertEquals(70.336106 * 1.316074, stiff.often(), 1e-4);
    ConeBearing soft = ConeBearing.of(vehicle(50, 100, 0.3));
    assertEquals(31.102132 * 0.840896, soft.once(), 1e-4);
    assertEquals(70.336106, soft.often(), 1e-5);
  }

  @Test
  void groundThatJustBearsFiftyPassesDoesNotWearOut() {
    assertFalse(new ConeBearing(30, 20, 30, 20).wearsOut());
    assertTrue(new ConeBearing(29.999, 20, 30, 20).wearsOut());
    assertEquals(0.25, new ConeBearing(22.5, 20, 30, 20).speedShare(), 1e-12);
    assertEquals(0, new ConeBearing(15, 20, 30, 20).speedShare());
    assertEquals(1, new ConeBearing(45, 20, 30, 20).speedShare());
  }

  /** Hardly any index at all: resistance and thrust of a tenth of what leaves no pull. */
  @Test
  void groundFarTooSoftKeepsFiniteFigures() {
    double g = Body.EARTH.gravityMs2();
    Vehicle v = vehicle(0.01, 100, 0.15);
    double[] axleN = {2000 * g, 2000 * g};
    ConeBearing bearing = ConeBearing.of(v);
    ConeTraction none = new ConeTraction(v.wheels(), bearing, axleN);
    ConeBearing just = ConeBearing.of(vehicle(bearing.needed(), 100, 0.15));
    ConeTraction level = new ConeTraction(v.wheels(), just, axleN);
    double wheelN = 1000 * g;
    // Just borne: thrust and resistance balance. Of the two relations 1 / index is the part above
    // 0.04 or 0.049.
    double balance = level.resistance(wheelN);
    assertEquals(balance, level.thrust(wheelN, 0.6), 1e-9);
    assertTrue(none.resistance(wheelN) > 9 * (balance - 0.049));
    assertTrue(none.resistance(wheelN) < 10 * balance);
    assertTrue(none.thrust(wheelN, 0.6) < none.resistance(wheelN));
  }

  /** The measured wheel: 1.5 times at 0.2, 3.5 times at 0.6; heavy ones (1 + s) / (1 - s / 2). */
  @Test
  void sinkageWithSlip() {
    assertEquals(1.25, SlipSinkage.factor(0.1, 80), 1e-12);
    assertEquals(1.5, SlipSinkage.factor(0.2, 80), 1e-12);
    assertEquals(2.5, SlipSinkage.factor(0.4, 50), 1e-12);
    assertEquals(3.5, SlipSinkage.factor(0.6, 80), 1e-12);
    assertEquals(4.5, SlipSinkage.factor(0.8, 80), 1e-12);
    assertEquals(4 / 3.0, SlipSinkage.factor(0.2, 800), 1e-12);
    assertEquals(16 / 7.0, SlipSinkage.factor(0.6, 5000), 1e-12);
    // 80 sqrt 10 N lie half way between 80 and 800 by the logarithm.
    double middleN = 80 * Math.sqrt(10);
    assertEquals(0.5, SlipSinkage.lightness(middleN), 1e-12);
    assertEquals((1.5 + 4 / 3.0) / 2, SlipSinkage.factor(0.2, middleN), 1e-12);
    assertEquals(0.25, SlipSinkage.lightness(80 * Math.pow(10, 0.75)), 1e-12);
    assertEquals(1, SlipSinkage.lightness(8));
    assertEquals(0, SlipSinkage.lightness(8000));
  }

  /** Tracks of MI 50: 7 + 10 - 39.2 / 55.6 once, 19.27 + 21.5 - 125.79 / 57.08 fifty times. */
  @Test
  void tracks() {
    assertEquals(16.294964, ConeIndex.tracked1(50), 1e-6);
    assertEquals(38.566251, ConeIndex.tracked50(50), 1e-6);
  }
}
