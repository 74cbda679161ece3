package org.scarpway.terrain;

/**
 * Inverse discrete Fourier transform of a line of complex values whose number is a power of two
 * (Cooley and Tukey 1965), without the factor 1 / n. Sines come from StrictMath, so the result is
 * bit-identical on every machine.
 */
final class FourierLine {
  private final int n;
  private final double[] cos;
  private final double[] sin;

  FourierLine(int n) {
    if (Integer.bitCount(n) != 1) {
      throw new IllegalArgumentException("sides must be powers of two, got " + n);
    }
    this.n = n;
    cos = new double[n];
    sin = new double[n];
    for (int i = 0; i < n; i++) {
      cos[i] = StrictMath.cos(2 * Math.PI * i / n);
      sin[i] = StrictMath.sin(2 * Math.PI * i / n);
    }
  }

  int length() {
    return n;
  }

  /** Transforms the first {@link #length} values in place. */
  void inverse(double[] re, double[] im) {
    reverseBits(re);
    reverseBits(im);
    for (int half = 1; half < n; half *= 2) {
      int turn = n / (2 * half);
      for (int block = 0; block < n; block += 2 * half) {
        for (int j = 0; j < half; j++) {
          int p = block + j;
          int q = p + half;
          double c = cos[j * turn];
          double s = sin[j * turn];
          double tRe = re[q] * c - im[q] * s;
          double tIm = re[q] * s + im[q] * c;
          re[q] = re[p] - tRe;
          im[q] = im[p] - tIm;
          re[p] += tRe;
          im[p] += tIm;
        }
      }
    }
  }

  /** Puts the values in bit-reversed order, as the transform requires. */
  private void reverseBits(double[] values) {
    int shift = Integer.numberOfLeadingZeros(n) + 1;
    for (int i = 1; i < n - 1; i++) {
      int other = Integer.reverse(i) >>> shift;
      if (other > i) {
        double kept = values[i];
        values[i] = values[other];
        values[other] = kept;
      }
    }
  }
}
