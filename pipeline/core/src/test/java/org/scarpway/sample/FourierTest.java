package org.scarpway.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class FourierTest {
  @Test
  void oneCoefficientIsOneWave() {
    int n = 16;
    double[] re = new double[n * n];
    double[] im = new double[n * n];
    re[2 * n + 3] = 1;
    new Fourier(n).inverse(re, im);
    for (int row = 0; row < n; row++) {
      for (int col = 0; col < n; col++) {
        double phase = 2 * Math.PI * (2.0 * row + 3.0 * col) / n;
        assertEquals(Math.cos(phase), re[row * n + col], 1e-12);
        assertEquals(Math.sin(phase), im[row * n + col], 1e-12);
      }
    }
  }

  @Test
  void sideMustBeAPowerOfTwo() {
    assertThrows(IllegalArgumentException.class, () -> new Fourier(12));
  }
}
