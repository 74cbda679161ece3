package org.scarpway.reach.clearance;

/** Order by width, the widest first, ties by index: both in one number, ascending. */
final class DiscOrder {
  private DiscOrder() {}

  /**
   * @param index 0 or more
   * @param widthM 0 or more
   */
  static long key(int index, float widthM) {
    return ((long) (Integer.MAX_VALUE - Float.floatToRawIntBits(widthM)) << 32) | index;
  }

  static int index(long key) {
    return (int) key;
  }

  static float widthM(long key) {
    return Float.intBitsToFloat(Integer.MAX_VALUE - (int) (key >>> 32));
  }
}
