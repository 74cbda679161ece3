package org.scarpway.grid;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class LowerEnvelopeTest {
  /** By all pairs of points, on lattices of any shape and steps. */
  @Test
  void squaredDistanceToTheNearestPointIsExact() {
    Random random = new Random(12);
    for (int round = 0; round < 60; round++) {
      int rows = 1 + random.nextInt(14);
      int cols = 1 + random.nextInt(14);
      double stepX = 0.5 + random.nextDouble();
      double stepY = 0.5 + 2 * random.nextDouble();
      float[] own = new float[rows * cols];
      for (int i = 0; i < own.length; i++) {
        own[i] = random.nextInt(4) == 0 ? 3 * random.nextFloat() - 1 : Float.POSITIVE_INFINITY;
      }
      float[] got = own.clone();
      LowerEnvelope envelope = new LowerEnvelope(Math.max(rows, cols));
      for (int c = 0; c < cols; c++) {
        envelope.along(got, c, cols, rows, stepY);
      }
      for (int r = 0; r < rows; r++) {
        envelope.along(got, r * cols, 1, cols, stepX);
      }
      for (int i = 0; i < own.length; i++) {
        double least = Double.POSITIVE_INFINITY;
        for (int j = 0; j < own.length; j++) {
          double dx = (i % cols - j % cols) * stepX;
          double dy = (i / cols - j / cols) * stepY;
          least = Math.min(least, dx * dx + dy * dy + own[j]);
        }
        assertEquals(least, got[i], 1e-4, "point " + i);
      }
    }
  }

  @Test
  void aLineWithoutMarkedPointsStaysAsItIs() {
    float[] none = new float[7];
    Arrays.fill(none, Float.POSITIVE_INFINITY);
    new LowerEnvelope(7).along(none, 0, 1, 7, 1);
    for (float f : none) {
      assertEquals(Float.POSITIVE_INFINITY, f);
    }
  }
}
