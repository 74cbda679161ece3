package org.scarpway.sortie;

import java.util.Arrays;

/**
 * The labels of all sets of the same number of stops. Those of one set and last stop are chained;
 * one that another makes superfluous leaves the chain. What is needed to trace a plan back stays
 * when the rest is dropped.
 */
final class Labels {
  /** Most stops: their set and the last place share the bits of two longs. */
  static final int MOST_STOPS = 120;

  private static final int PLACE_BITS = 7;
  private static final int NONE = -1;
  private static final int FIRST = 1024;

  private int count;
  private int[] from = new int[FIRST];
  private int[] how = new int[FIRST];
  private long[] low = new long[FIRST];
  private long[] high = new long[FIRST];
  private int[] next = new int[FIRST];
  private byte[] day = new byte[FIRST];
  private byte[] walks = new byte[FIRST];
  private double[] usedS = new double[FIRST];
  private double[] drivenS = new double[FIRST];
  private double[] drawnJ = new double[FIRST];
  private double[] value = new double[FIRST];
  private double[] prices = new double[FIRST];
  private boolean[] gone = new boolean[FIRST];

  // Open addressing from key to the head of its chain.
  private int states;
  private int[] slotHead = filled(2 * FIRST);

  int count() {
    return count;
  }

  boolean isGone(int label) {
    return gone[label];
  }

  /** Stops 1 to 64 done, a bit for each. */
  long low(int label) {
    return low[label];
  }

  /** Stops from 65 on done. */
  long high(int label) {
    return high[label] >>> PLACE_BITS;
  }

  int last(int label) {
    return (int) (high[label] & (1 << PLACE_BITS) - 1);
  }

  double value(int label) {
    return value[label];
  }

  /** Prices of the stops that are not done. */
  double prices(int label) {
    return prices[label];
  }

  int from(int label) {
    return from[label];
  }

  /** The step that led to a label. */
  Visit visit(int label) {
    int h = how[label];
    return new Visit(h & 127, h >>> 7 & 255, h >>> 15);
  }

  void into(DayClock clock, int label) {
    clock.set(day[label], usedS[label], drivenS[label], walks[label], drawnJ[label]);
  }

  /**
   * Adds a label unless one of the same state makes it superfluous, and takes those away that it
   * makes superfluous.
   */
  boolean add(
      long lowSet,
      long highSet,
      int parent,
      Visit step,
      DayClock c,
      double worth,
      double left,
      Waiting waiting) {
    long highKey = highSet << PLACE_BITS | step.place();
    int slot = slot(lowSet, highKey);
    for (int k = slotHead[slot]; k != NONE; k = next[k]) {
      if (waiting.isNoWorse(
          day[k],
          usedS[k],
          drivenS[k],
          walks[k],
          drawnJ[k],
          c.day(),
          c.usedS(),
          c.drivenS(),
          c.walks(),
          c.drawnJ())) {
        return false;
      }
    }
    int before = NONE;
    for (int k = slotHead[slot]; k != NONE; k = next[k]) {
      if (waiting.isNoWorse(
          c.day(),
          c.usedS(),
          c.drivenS(),
          c.walks(),
          c.drawnJ(),
          day[k],
          usedS[k],
          drivenS[k],
          walks[k],
          drawnJ[k])) {
        gone[k] = true;
        if (before == NONE) {
          slotHead[slot] = next[k];
        } else {
          next[before] = next[k];
        }
      } else {
        before = k;
      }
    }
    if (count == low.length) {
      grow();
    }
    int k = count++;
    from[k] = parent;
    how[k] = step.place() | step.way() << 7 | step.restNights() << 15;
    low[k] = lowSet;
    high[k] = highKey;
    day[k] = (byte) c.day();
    walks[k] = (byte) c.walks();
    usedS[k] = c.usedS();
    drivenS[k] = c.drivenS();
    drawnJ[k] = c.drawnJ();
    value[k] = worth;
    prices[k] = left;
    next[k] = slotHead[slot];
    states += slotHead[slot] == NONE ? 1 : 0;
    slotHead[slot] = k;
    if (2 * states > slotHead.length) {
      rehash();
    }
    return true;
  }

  /** Drops all but what traces plans back. */
  void close() {
    from = Arrays.copyOf(from, count);
    how = Arrays.copyOf(how, count);
    low = null;
    high = null;
    next = null;
    day = null;
    walks = null;
    usedS = null;
    drivenS = null;
    drawnJ = null;
    value = null;
    prices = null;
    gone = null;
    slotHead = null;
  }

  private int slot(long lowSet, long highKey) {
    long h = (lowSet * 0x9E3779B97F4A7C15L ^ highKey) * 0xC2B2AE3D27D4EB4FL;
    int i = (int) (h >>> 32) & slotHead.length - 1;
    while (slotHead[i] != NONE && (low[slotHead[i]] != lowSet || high[slotHead[i]] != highKey)) {
      i = i + 1 & slotHead.length - 1;
    }
    return i;
  }

  private void rehash() {
    int[] old = slotHead;
    slotHead = filled(2 * old.length);
    for (int head : old) {
      if (head != NONE) {
        slotHead[slot(low[head], high[head])] = head;
      }
    }
  }

  /** Keeps the best so many labels by value and bound; ties go to the earlier label. */
  boolean keepBest(int most, double[] bound) {
    double[] order = new double[count];
    int left = 0;
    for (int k = 0; k < count; k++) {
      if (!gone[k]) {
        order[left++] = -bound[k];
      }
    }
    if (left <= most) {
      return false;
    }
    Arrays.sort(order, 0, left);
    double least = -order[most - 1];
    int above = 0;
    for (int k = 0; k < count; k++) {
      above += !gone[k] && bound[k] > least ? 1 : 0;
    }
    int ties = most - above;
    for (int k = 0; k < count; k++) {
      if (!gone[k] && bound[k] <= least) {
        gone[k] = bound[k] < least || ties-- <= 0;
      }
    }
    return true;
  }

  private void grow() {
    int size = count + count / 2;
    from = Arrays.copyOf(from, size);
    how = Arrays.copyOf(how, size);
    low = Arrays.copyOf(low, size);
    high = Arrays.copyOf(high, size);
    next = Arrays.copyOf(next, size);
    day = Arrays.copyOf(day, size);
    walks = Arrays.copyOf(walks, size);
    usedS = Arrays.copyOf(usedS, size);
    drivenS = Arrays.copyOf(drivenS, size);
    drawnJ = Arrays.copyOf(drawnJ, size);
    value = Arrays.copyOf(value, size);
    prices = Arrays.copyOf(prices, size);
    gone = Arrays.copyOf(gone, size);
  }

  private static int[] filled(int size) {
    int[] a = new int[size];
    Arrays.fill(a, NONE);
    return a;
  }
}
