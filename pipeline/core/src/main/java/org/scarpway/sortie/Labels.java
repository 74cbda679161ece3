package org.scarpway.sortie;

import java.util.Arrays;

/**
 * The labels of all sets of the same number of stops. Those of one set and last stop are chained;
 * one that another makes superfluous leaves the chain. What is needed to trace a plan back stays
 * when the rest is dropped.
 */
final class Labels {
  /** Bits of a key below the set: the last place. */
  static final int PLACE_BITS = 6;

  private static final int NONE = -1;
  private static final int FIRST = 1024;

  private int count;
  private int[] from = new int[FIRST];
  private int[] how = new int[FIRST];
  private long[] key = new long[FIRST];
  private int[] next = new int[FIRST];
  private byte[] day = new byte[FIRST];
  private byte[] walks = new byte[FIRST];
  private double[] usedS = new double[FIRST];
  private double[] drivenS = new double[FIRST];
  private double[] drawnJ = new double[FIRST];
  private double[] value = new double[FIRST];
  private boolean[] gone = new boolean[FIRST];

  // Open addressing from key to the head of its chain.
  private int states;
  private long[] slotKey = new long[2 * FIRST];
  private int[] slotHead = filled(2 * FIRST);

  static long key(long set, int last) {
    return set << PLACE_BITS | last;
  }

  int count() {
    return count;
  }

  boolean isGone(int label) {
    return gone[label];
  }

  long set(int label) {
    return key[label] >>> PLACE_BITS;
  }

  int last(int label) {
    return (int) (key[label] & (1 << PLACE_BITS) - 1);
  }

  double value(int label) {
    return value[label];
  }

  int from(int label) {
    return from[label];
  }

  /** The step that led to a label. */
  Visit visit(int label) {
    int h = how[label];
    return new Visit(h & 63, h >>> 6 & 255, h >>> 14);
  }

  void into(DayClock clock, int label) {
    clock.set(day[label], usedS[label], drivenS[label], walks[label], drawnJ[label]);
  }

  /**
   * Adds a label unless one of the same state makes it superfluous, and takes those away that it
   * makes superfluous.
   */
  boolean add(long stateKey, int parent, Visit step, DayClock c, double worth, Waiting waiting) {
    int slot = slot(stateKey);
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
    if (count == key.length) {
      grow();
    }
    int k = count++;
    from[k] = parent;
    how[k] = step.place() | step.way() << 6 | step.restNights() << 14;
    key[k] = stateKey;
    day[k] = (byte) c.day();
    walks[k] = (byte) c.walks();
    usedS[k] = c.usedS();
    drivenS[k] = c.drivenS();
    drawnJ[k] = c.drawnJ();
    value[k] = worth;
    next[k] = slotHead[slot];
    if (slotKey[slot] != stateKey) {
      slotKey[slot] = stateKey;
      states++;
    }
    slotHead[slot] = k;
    if (2 * states > slotKey.length) {
      rehash();
    }
    return true;
  }

  /** Drops all but what traces plans back. */
  void close() {
    from = Arrays.copyOf(from, count);
    how = Arrays.copyOf(how, count);
    key = null;
    next = null;
    day = null;
    walks = null;
    usedS = null;
    drivenS = null;
    drawnJ = null;
    value = null;
    gone = null;
    slotKey = null;
    slotHead = null;
  }

  /** Keys are never 0, since a set has a stop. */
  private int slot(long k) {
    long h = k * 0x9E3779B97F4A7C15L;
    int i = (int) (h >>> 32) & slotKey.length - 1;
    while (slotKey[i] != 0 && slotKey[i] != k) {
      i = i + 1 & slotKey.length - 1;
    }
    return i;
  }

  private void rehash() {
    long[] oldKey = slotKey;
    int[] oldHead = slotHead;
    slotKey = new long[2 * oldKey.length];
    slotHead = filled(slotKey.length);
    for (int i = 0; i < oldKey.length; i++) {
      if (oldKey[i] != 0) {
        int j = slot(oldKey[i]);
        slotKey[j] = oldKey[i];
        slotHead[j] = oldHead[i];
      }
    }
  }

  private void grow() {
    int size = count + count / 2;
    from = Arrays.copyOf(from, size);
    how = Arrays.copyOf(how, size);
    key = Arrays.copyOf(key, size);
    next = Arrays.copyOf(next, size);
    day = Arrays.copyOf(day, size);
    walks = Arrays.copyOf(walks, size);
    usedS = Arrays.copyOf(usedS, size);
    drivenS = Arrays.copyOf(drivenS, size);
    drawnJ = Arrays.copyOf(drawnJ, size);
    value = Arrays.copyOf(value, size);
    gone = Arrays.copyOf(gone, size);
  }

  private static int[] filled(int size) {
    int[] a = new int[size];
    Arrays.fill(a, NONE);
    return a;
  }
}
