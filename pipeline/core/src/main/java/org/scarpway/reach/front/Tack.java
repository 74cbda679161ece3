package org.scarpway.reach.front;

import org.scarpway.grid.Headings;

/**
 * Which two headings of a cell make good a direction that it does not allow, driven in turn as a
 * boat tacks: the nearest allowed ones to either side.
 */
final class Tack {
  private static final int LAST = Headings.COUNT - 1;

  private Tack() {}

  /**
   * The next allowed heading to the left of a direction, which is not counted itself; less than the
   * direction, so below 0 it counts from 32 down.
   *
   * @param allowed a bit for each heading, at least one of them set
   * @param heading in units of the 32 headings, 0 or more
   */
  static int left(int allowed, double heading) {
    int first = (int) Math.ceil(heading) - 1;
    return first - Integer.numberOfLeadingZeros(Integer.rotateRight(allowed, (first + 1) & LAST));
  }

  /** The same to the right; greater than the direction. */
  static int right(int allowed, double heading) {
    int first = (int) heading + 1;
    return first + Integer.numberOfTrailingZeros(Integer.rotateRight(allowed, first & LAST));
  }

  /** Only what lies between two headings less than half a turn apart is made good by them. */
  static boolean makesGood(int left, int right) {
    return right - left < Headings.COUNT / 2;
  }
}
