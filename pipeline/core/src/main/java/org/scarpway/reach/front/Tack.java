package org.scarpway.reach.front;

import org.scarpway.grid.Headings;

/**
 * Finds the two headings by which a barred direction is travelled in tacks, alternating like a
 * sailing boat: the nearest allowed headings on either side. The speeds made good in this way are
 * the chords of the convexified polar speed curve.
 */
final class Tack {
  private static final int LAST = Headings.COUNT - 1;

  private Tack() {}

  /**
   * The next allowed heading to the left of a direction, the direction itself excluded. It is less
   * than the direction; a negative result stands for the heading 32 above it.
   *
   * @param allowed a bit for each heading, at least one of them set
   * @param heading direction in units of the 32 headings, 0 or more
   */
  static int left(int allowed, double heading) {
    int first = (int) Math.ceil(heading) - 1;
    return first - Integer.numberOfLeadingZeros(Integer.rotateRight(allowed, (first + 1) & LAST));
  }

  /** The next allowed heading to the right; greater than the direction. */
  static int right(int allowed, double heading) {
    int first = (int) heading + 1;
    return first + Integer.numberOfTrailingZeros(Integer.rotateRight(allowed, first & LAST));
  }

  /**
   * True if two headings are less than half a turn apart, so that directions between them can be
   * travelled by tacking.
   */
  static boolean makesGood(int left, int right) {
    return right - left < Headings.COUNT / 2;
  }
}
