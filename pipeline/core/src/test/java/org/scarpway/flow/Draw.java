package org.scarpway.flow;

import java.util.List;
import java.util.Random;

/** Draws from one seed: the same seed gives the same draws on every machine. */
final class Draw {
  private final Random random;

  Draw(long seed) {
    // Neighbouring seeds begin alike in Random; the first mixes them.
    this.random = new Random(new Random(seed).nextLong() ^ (seed * 0x9E3779B97F4A7C15L));
  }

  boolean chance(double p) {
    return random.nextDouble() < p;
  }

  /** A whole number in [least, most]. */
  int whole(int least, int most) {
    return least + random.nextInt(most - least + 1);
  }

  double within(double least, double most) {
    return least + (most - least) * random.nextDouble();
  }

  /** Evenly spread over the orders of magnitude, four digits as people write them. */
  double scaled(double least, double most) {
    return digits(least * Math.pow(most / least, random.nextDouble()));
  }

  double gaussian() {
    return random.nextGaussian();
  }

  @SafeVarargs
  final <T> T of(T... some) {
    return some[random.nextInt(some.length)];
  }

  <T> T of(List<T> some) {
    return some.get(random.nextInt(some.size()));
  }

  static double digits(double value) {
    if (value == 0) {
      return 0;
    }
    double unit = Math.pow(10, Math.floor(Math.log10(Math.abs(value))) - 3);
    return unit >= 1
        ? Math.rint(value / unit) * unit
        : Math.rint(value * Math.rint(1 / unit)) / Math.rint(1 / unit);
  }
}
