package org.scarpway.sample;

/**
 * Inverse discrete Fourier transform of a square complex field whose side is a power of two (Cooley
 * and Tukey 1965), without the factor 1/n2. Sines come from StrictMath, so every machine gives the
 * same bits.
 */
final class Fourier {
  private final int n;
  private final double[] cos;
  private final double[] sin;

  Fourier(int n) {
    if (Integer.bitCount(n) != 1) {
      throw new IllegalArgumentException("side must be a power of two, got " + n);
    }
    this.n = n;
    cos = new double[n];
    sin = new double[n];
    for (int i = 0; i < n; i++) {
      cos[i] = StrictMath.cos(2 * Math.PI * i / n);
      sin[i] = StrictMath.sin(2 * Math.PI * i / n);
    }
  }

  /** Transforms in place; row-major, n x n. */
  void inverse(double[] re, double[] im) {
    double[] lineRe = new double[n];
    double[] lineIm = new double[n];
    for (int row = 0; row < n; row++) {
      line(re, im, row * n, 1, lineRe, lineIm);
    }
    for (int col = 0; col < n; col++) {
      line(re, im, col, n, lineRe, lineIm);
    }
  }

  private void line(double[] re, double[] im, int first, int step, double[] a, double[] b) {
    int shift = Integer.numberOfLeadingZeros(n) + 1;
    for (int i = 0; i < n; i++) {
      int from = first + (n == 1 ? 0 : Integer.reverse(i) >>> shift) * step;
      a[i] = re[from];
      b[i] = im[from];
    }
    for (int half = 1; half < n; half *= 2) {
      int turn = n / (2 * half);
      for (int block = 0; block < n; block += 2 * half) {
        for (int j = 0; j < half; j++) {
          int p = block + j;
          int q = p + half;
          double c = cos[j * turn];
          double s = sin[j * turn];
          double tRe = a[q] * c - b[q] * s;
          double tIm = a[q] * s + b[q] * c;
          a[q] = a[p] - tRe;
          b[q] = b[p] - tIm;
          a[p] += tRe;
          b[p] += tIm;
        }
      }
    }
    for (int i = 0; i < n; i++) {
      re[first + i * step] = a[i];
      im[first + i * step] = b[i];
    }
  }
}
