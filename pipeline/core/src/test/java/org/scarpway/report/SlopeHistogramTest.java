package org.scarpway.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.scarpway.vehicle.Mobility;

class SlopeHistogramTest {
  private static final Map<Double, String> LIMITS = Map.of(15.0, "side", 20.0, "climb");

  @Test
  void everyCellIsInTheBarOfItsSlope() {
    Random random = new Random(3);
    float[] slope = new float[5000];
    byte[] cls = new byte[slope.length];
    for (int i = 0; i < slope.length; i++) {
      slope[i] = i % 50 == 0 ? Float.NaN : (float) Math.abs(12 * random.nextGaussian());
      cls[i] = (byte) random.nextInt(4);
    }
    SlopeHistogram h = new SlopeHistogram(slope, cls, 1e4, LIMITS);
    for (int b = 0; b < h.bars(); b++) {
      long all = 0;
      long noGo = 0;
      for (int i = 0; i < slope.length; i++) {
        if (slope[i] >= b && (slope[i] < b + 1 || b == h.bars() - 1)) {
          all++;
          noGo += cls[i] == Mobility.NO_GO ? 1 : 0;
        }
      }
      String says = h.says(b);
      assertTrue(says.contains(": " + Figures.area(all * 1e4)), says);
      String share = Figures.percent((double) noGo, (double) all) + " % no-go";
      assertTrue(noGo == 0 || says.contains(share), says + " without " + share);
    }
  }

  /** A few walls do not push the limits to the edge of the drawing, and none is left out. */
  @Test
  void theSteepestGroundSharesABar() {
    float[] slope = new float[10_000];
    byte[] cls = new byte[slope.length];
    slope[0] = 90;
    slope[1] = 61;
    SlopeHistogram h = new SlopeHistogram(slope, cls, 100, LIMITS);
    assertEquals(22, h.bars());
    assertTrue(h.says(21).startsWith("slope 21 deg and more: " + Figures.area(200)), h.says(21));
    assertTrue(h.draw().contains("data-high=\"91\""));
  }

  @Test
  void groundWithoutSlopeIsNoReasonToFail() {
    SlopeHistogram h = new SlopeHistogram(new float[] {Float.NaN}, new byte[] {0}, 100, Map.of());
    assertTrue(h.draw().endsWith("</svg>"));
  }
}
