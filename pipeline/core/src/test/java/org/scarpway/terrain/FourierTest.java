package org.scarpway.terrain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.scarpway.stage.Workers;

class FourierTest {
  @Test
  void oneCoefficientIsOneWave() {
    for (int threads = 1; threads <= 2; threads++) {
      int rows = 16;
      int cols = 64;
      double[] re = new double[rows * cols];
      double[] im = new double[rows * cols];
      re[2 * cols + 3] = 1;
      try (Workers workers = new Workers(threads)) {
        new Fourier(rows, cols).inverse(re, im, workers);
      }
      for (int row = 0; row < rows; row++) {
        for (int col = 0; col < cols; col++) {
          double phase = 2 * Math.PI * (2.0 * row / rows + 3.0 * col / cols);
          assertEquals(Math.cos(phase), re[row * cols + col], 1e-12);
          assertEquals(Math.sin(phase), im[row * cols + col], 1e-12);
        }
      }
    }
  }

  @Test
  void sidesMustBePowersOfTwo() {
    assertThrows(IllegalArgumentException.class, () -> new Fourier(16, 12));
  }
}
