package org.scarpway.reach.clearance;

import org.scarpway.stage.Floats;
import org.scarpway.stage.Ints;
import org.scarpway.stage.ScratchFile;

/** Priority queue of lattice points by width, widest first; ties go to the lowest index. */
public final class MaxWidthQueue {
  private Ints points;
  private Floats widths;
  private int size;

  /**
   * @param file file in which the queue is stored, null for the heap
   */
  public MaxWidthQueue(ScratchFile file) {
    points = Ints.few(file);
    widths = Floats.few(file);
  }

  boolean isEmpty() {
    return size == 0;
  }

  public void add(int point, float width) {
    if (size == points.size()) {
      points = points.more();
      widths = widths.more();
    }
    int i = size++;
    while (i > 0) {
      int up = (i - 1) / 2;
      int other = points.get(up);
      float otherWidth = widths.get(up);
      if (!before(point, width, other, otherWidth)) {
        break;
      }
      put(i, other, otherWidth);
      i = up;
    }
    put(i, point, width);
  }

  /** Removes and returns the first point; the queue must not be empty. */
  public int poll() {
    int first = points.get(0);
    int point = points.get(--size);
    float width = widths.get(size);
    int i = 0;
    while (2 * i + 1 < size) {
      int down = 2 * i + 1;
      int next = points.get(down);
      float nextWidth = widths.get(down);
      if (down + 1 < size) {
        int other = points.get(down + 1);
        float otherWidth = widths.get(down + 1);
        if (before(other, otherWidth, next, nextWidth)) {
          down++;
          next = other;
          nextWidth = otherWidth;
        }
      }
      if (!before(next, nextWidth, point, width)) {
        break;
      }
      put(i, next, nextWidth);
      i = down;
    }
    put(i, point, width);
    return first;
  }

  private void put(int i, int point, float width) {
    points.set(i, point);
    widths.set(i, width);
  }

  private static boolean before(int point, float width, int other, float otherWidth) {
    return width > otherWidth || (width == otherWidth && point < other);
  }
}
