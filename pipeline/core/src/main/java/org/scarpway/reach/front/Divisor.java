package org.scarpway.reach.front;

/**
 * Division of counts by a fixed number as a multiplication (Granlund &amp; Montgomery 1994,
 * <i>Division by invariant integers using multiplication</i>, PLDI): exact for all dividends from 0
 * to the largest int.
 */
final class Divisor {
  private final long factor;
  private final int shift;

  /**
   * @param by at least 1
   */
  Divisor(int by) {
    shift = 2 * Integer.SIZE - 1 - Integer.numberOfLeadingZeros(by - 1);
    factor = (1L << shift) / by + 1;
  }

  /** The quotient, rounded down, of a number that is not negative. */
  int into(int n) {
    return (int) ((n * factor) >>> shift);
  }
}
